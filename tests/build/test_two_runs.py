"""Pages rendered by two runs of MkDocs are those of one."""

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from generator.build.changed_pages import render_changed
from generator.build.kept_results import Results
from generator.build.processes import Begin, several_processes
from generator.build.two_runs import render_pages
from generator.errors import SourceError
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
    return sorted(page.relative_to(docs).with_suffix(".html").as_posix() for page in docs.rglob("*.md"))


@pytest.fixture(scope="module")
def whole(docs: Path) -> dict[str, bytes]:
    folder = docs.with_name("whole")
    render(docs, folder, NAV, SETTINGS)
    return in_order(folder)


@pytest.fixture
def begin(tmp_path: Path) -> Iterator[Begin]:
    with Results(tmp_path / "results", "tests") as results, several_processes(results, 2) as (_, begin):
        assert begin
        yield begin


def at_once(work: Callable[[], None]) -> Callable[[], None]:
    """Like another process that is done before this one begins."""
    work()
    return lambda: None


def site_by(begin: Begin, docs: Path, top: Path) -> dict[str, bytes]:
    """The files of the site when all of it is rendered."""
    with Results(top / "notes", "tests") as results:
        render_changed(results, begin, docs, top / "rendered", NAV, SETTINGS)
    return in_order(top / "rendered")


def test_two_processes_render_what_one_renders(
    begin: Begin, docs: Path, whole: dict[str, bytes], tmp_path: Path
) -> None:
    assert site_by(begin, docs, tmp_path) == whole
    assert not (tmp_path / "aside").exists()


def test_the_other_run_is_waited_for_when_the_own_is_done(docs: Path, pages: list[str], tmp_path: Path) -> None:
    """Else they would run one after the other."""
    folder = tmp_path / "rendered"
    rendered: list[int] = []

    def begin(work: Callable[[], None]) -> Callable[[], None]:
        def end() -> None:
            rendered.append(sum((folder / page).stat().st_size > 1000 for page in pages))
            work()

        return end

    render_pages(begin, docs, folder, NAV, SETTINGS, pages)
    assert rendered == [len(pages[::2])]


@only_in_a_whole_run
def test_pages_that_are_there_already_are_left_alone(docs: Path, pages: list[str], tmp_path: Path) -> None:
    folder = tmp_path / "rendered"
    render(docs, folder, NAV, SETTINGS)
    kept, *missing = pages
    (folder / kept).write_text("as it was", "utf-8")
    for page in missing:
        (folder / page).unlink()
    render_pages(at_once, docs, folder, NAV, SETTINGS, missing)
    assert (folder / kept).read_text("utf-8") == "as it was"
    assert all((folder / page).stat().st_size > 1000 for page in missing)


def test_pages_of_a_build_that_was_stopped_are_not_taken_over(
    docs: Path, pages: list[str], whole: dict[str, bytes], tmp_path: Path
) -> None:
    for page in pages:
        (tmp_path / "aside" / page).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "aside" / page).write_text("half of it", "utf-8")
    assert site_by(at_once, docs, tmp_path) == whole


@only_in_a_whole_run
def test_sources_from_tomorrow_are_found_once_by_search(docs: Path, whole: dict[str, bytes], tmp_path: Path) -> None:
    """A disk elsewhere may have another clock: then no page is newer than its source, and both runs render all."""
    later = tmp_path / "docs"
    shutil.copytree(docs, later)
    for page in later.rglob("*.md"):
        os.utime(page, (2**32, 2**32))
    assert site_by(at_once, later, tmp_path) == whole


def test_a_fault_of_both_runs_is_told_once(begin: Begin, docs: Path, pages: list[str], tmp_path: Path) -> None:
    nav: Nav = [*NAV, {"Lost": "lost.md"}]
    with pytest.raises(SourceError) as caught:
        render_pages(begin, docs, tmp_path / "rendered", nav, SETTINGS, pages)
    assert [fault.file for fault in caught.value.faults] == ["lost.md"]


@only_in_a_whole_run
def test_few_pages_and_one_process_have_one_run(docs: Path, pages: list[str], tmp_path: Path) -> None:
    def refuse(work: Callable[[], None]) -> Callable[[], None]:
        raise AssertionError("one run was enough")

    render_pages(None, docs, tmp_path / "one", NAV, SETTINGS, pages)
    for page in pages[:3]:
        (tmp_path / "one" / page).unlink()
    render_pages(refuse, docs, tmp_path / "one", NAV, SETTINGS, pages[:3])
    assert all((tmp_path / "one" / page).stat().st_size > 1000 for page in pages)
