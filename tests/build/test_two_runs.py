"""Pages rendered by two runs of MkDocs are those of one."""

import os
import shutil
from collections.abc import Iterator
from concurrent.futures import Future
from pathlib import Path
from typing import Any

import pytest

from generator.build.changed_pages import render_changed
from generator.build.processes import several_processes
from generator.build.results_file import Results
from generator.build.two_runs import render_pages
from generator.errors import SourceError
from generator.pages.other_processes import Submit, Work
from generator.site.offline_search import page_of
from generator.site.run_mkdocs import Nav, render
from tests.build.test_changed_pages import in_order
from tests.sampling import only_in_a_whole_run
from tests.site.samples import DOCS, NAV, SETTINGS

MANY = 60


@pytest.fixture(scope="module")
def docs(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """More pages than one run is given."""
    folder = tmp_path_factory.mktemp("two runs") / "docs"
    shutil.copytree(DOCS, folder)
    for number in range(MANY):
        text = f"# Page {number}\n\n## What is on it\n\nThe words of page {number} alone.\n"
        (folder / "learn" / f"page-{number}.md").write_text(text, "utf-8")
    return folder


@pytest.fixture(scope="module")
def pages(docs: Path) -> list[str]:
    return sorted(page.relative_to(docs).as_posix() for page in docs.rglob("*.md"))


@pytest.fixture(scope="module")
def whole(docs: Path) -> dict[str, bytes]:
    folder = docs.with_name("whole")
    render(docs, folder, NAV, SETTINGS)
    return in_order(folder)


@pytest.fixture
def submit(tmp_path: Path) -> Iterator[Submit]:
    with Results(tmp_path / "results", "tests") as results, several_processes(results, 2) as (_, submit):
        assert submit
        yield submit


def at_once(work: Work) -> Future[Any]:
    """Like another process that is done before this one begins."""
    done: Future[Any] = Future()
    done.set_result(work())
    return done


def rendered(folder: Path, pages: list[str]) -> list[str]:
    """Those of the pages that have been rendered into a folder."""
    return [page for page in pages if (folder / page).with_suffix(".html").is_file()]


def site_by(submit: Submit, docs: Path, top: Path) -> dict[str, bytes]:
    """The files of the site when all of it is rendered."""
    with Results(top / "notes", "tests") as results:
        render_changed(results, submit, docs, top / "rendered", NAV, SETTINGS)
    return in_order(top / "rendered")


def test_two_processes_render_what_one_renders(
    submit: Submit, docs: Path, whole: dict[str, bytes], tmp_path: Path
) -> None:
    assert site_by(submit, docs, tmp_path) == whole
    assert not list(tmp_path.glob("*-run"))


def test_the_other_run_is_waited_for_when_the_own_is_done(docs: Path, pages: list[str], tmp_path: Path) -> None:
    """Else they would run one after the other."""
    own: list[list[str]] = []

    class Other(Future[Any]):
        def result(self, timeout: float | None = None) -> Any:
            own.append(rendered(tmp_path / "own-run", pages))
            return super().result(timeout)

    def submit(work: Work) -> Future[Any]:
        other = Other()
        other.set_result(work())
        return other

    render_pages(submit, docs, tmp_path / "rendered", NAV, SETTINGS, pages)
    assert own == [pages[::2]]


@only_in_a_whole_run
@pytest.mark.parametrize("submit", [None, at_once], ids=["one run", "two runs"])
def test_pages_that_are_not_asked_for_are_left_alone(
    submit: Submit | None, docs: Path, pages: list[str], tmp_path: Path
) -> None:
    folder = tmp_path / "rendered"
    first, *others = pages
    left = (folder / first).with_suffix(".html")
    left.parent.mkdir(parents=True)
    left.write_text("as it was", "utf-8")
    index = render_pages(submit, docs, folder, NAV, SETTINGS, others)
    assert left.read_text("utf-8") == "as it was"
    assert rendered(folder, pages) == pages
    assert f"{first.removesuffix('.md')}.html" not in set(map(page_of, index["docs"]))


def test_pages_of_a_build_that_was_stopped_are_not_taken_over(
    docs: Path, pages: list[str], whole: dict[str, bytes], tmp_path: Path
) -> None:
    for run in ("own-run", "other-run"):
        for page in pages:
            half = (tmp_path / run / page).with_suffix(".html")
            half.parent.mkdir(parents=True, exist_ok=True)
            half.write_text("half of it", "utf-8")
    assert site_by(at_once, docs, tmp_path) == whole


@only_in_a_whole_run
def test_sources_from_tomorrow_are_found_once_by_search(docs: Path, whole: dict[str, bytes], tmp_path: Path) -> None:
    """A disk elsewhere may have another clock."""
    later = tmp_path / "docs"
    shutil.copytree(docs, later)
    for page in later.rglob("*.md"):
        os.utime(page, (2**32, 2**32))
    assert site_by(at_once, later, tmp_path) == whole


def test_a_fault_of_both_runs_is_told_once(submit: Submit, docs: Path, pages: list[str], tmp_path: Path) -> None:
    nav: Nav = [*NAV, {"Lost": "lost.md"}]
    with pytest.raises(SourceError) as caught:
        render_pages(submit, docs, tmp_path / "rendered", nav, SETTINGS, pages)
    assert [fault.file for fault in caught.value.faults] == ["lost.md"]


@only_in_a_whole_run
def test_few_pages_and_one_process_have_one_run(docs: Path, pages: list[str], tmp_path: Path) -> None:
    def refuse(work: Work) -> Future[Any]:
        raise AssertionError("one run was enough")

    render_pages(None, docs, tmp_path / "one", NAV, SETTINGS, pages)
    assert rendered(tmp_path / "one", pages) == pages
    render_pages(refuse, docs, tmp_path / "few", NAV, SETTINGS, pages[:3])
    assert rendered(tmp_path / "few", pages) == pages[:3]
