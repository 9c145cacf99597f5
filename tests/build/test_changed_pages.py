"""A page is rendered again only where something about it has changed, and what comes out is as if all had been."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.build.changed_pages import render_changed
from generator.build.results_file import Results
from generator.errors import SourceError
from generator.site.offline_search import INDEX, offline
from generator.site.run_mkdocs import Nav, render
from tests.sampling import only_in_a_whole_run, sample
from tests.site.samples import DOCS, KNOWN, NAV, SETTINGS
from tests.small_handbook import contents

PAGE = "learn/rounds"
OTHER = "trouble/index"


class Place:
    """Staged pages, the folder that they are rendered into, and the file in which builds note what they did."""

    def __init__(self, folder: Path) -> None:
        self.docs, self.rendered, self._notes = folder / "docs", folder / "rendered", folder / "notes"
        self._elsewhere = folder / "elsewhere"
        shutil.copytree(DOCS, self.docs)

    def render(self, nav: Nav = NAV) -> list[str]:
        with Results(self._notes, "this code") as results:
            return render_changed(results, None, self.docs, self.rendered, nav, SETTINGS)

    def whole(self, nav: Nav = NAV) -> dict[str, bytes]:
        """What MkDocs makes of everything at once."""
        shutil.rmtree(self._elsewhere, ignore_errors=True)
        render(self.docs, self._elsewhere, nav, SETTINGS)
        return in_order(self._elsewhere)

    def times(self) -> dict[str, int]:
        """When each page was rendered, in nanoseconds."""
        pages = (page for page in self.rendered.rglob("*.html") if page.name != "404.html")
        return {page.relative_to(self.rendered).as_posix(): page.stat().st_mtime_ns for page in pages}


def in_order(folder: Path) -> dict[str, bytes]:
    """The files of a rendered site, with the search index as every site has it."""
    return {**contents(folder), **offline(folder, KNOWN)}


@pytest.fixture
def place(tmp_path: Path) -> Place:
    place = Place(tmp_path)
    place.render()
    return place


def add_words(place: Place) -> None:
    page = place.docs / f"{PAGE}.md"
    page.write_text(page.read_text("utf-8") + "\n\n## Dealing backwards\n\nWords that were not there.\n", "utf-8")


def test_a_page_that_has_changed_is_rendered_again_and_no_other(place: Place) -> None:
    before = place.times()
    add_words(place)
    paths = place.render()
    assert [page for page, time in place.times().items() if before[page] != time] == [f"{PAGE}.html"]
    assert in_order(place.rendered) == place.whole()
    assert paths == sorted(contents(place.rendered))
    found = json.loads((place.rendered / INDEX).read_text("utf-8"))["docs"]
    assert f"{PAGE}.html#dealing-backwards" in {entry["location"] for entry in found}


@only_in_a_whole_run
def test_where_a_script_has_changed_no_page_is_rendered_again(place: Place) -> None:
    (place.docs / "ours.js").write_text("1;", "utf-8")
    place.render()
    before = place.times()
    (place.docs / "ours.js").write_text("2;", "utf-8")
    place.render()
    assert place.times() == before
    assert (place.rendered / "ours.js").read_text("utf-8") == "2;"
    assert in_order(place.rendered) == place.whole()


def test_where_nothing_has_changed_nothing_is_rendered_again(place: Place) -> None:
    before = place.times()
    place.render()
    assert place.times() == before
    assert in_order(place.rendered) == place.whole()


def _leave_out(place: Place) -> None:
    """A page that search shall not find any more."""
    page = place.docs / f"{OTHER}.md"
    page.write_text(page.read_text("utf-8").replace("---\n", "---\nsearch:\n  exclude: true\n", 1), "utf-8")


CHANGES: dict[str, Callable[[Place], object]] = {
    "a page says more": add_words,
    "a page is left out of search": _leave_out,
    "a page is new": lambda place: (place.docs / "learn" / "more.md").write_text("# More\n", "utf-8"),
    "a page is gone": lambda place: (place.docs / "lessons" / "uneven" / "5230-among-4-cards.md").unlink(),
    "a style sheet is other": lambda place: (place.docs / "css" / "school.css").write_text("p {}", "utf-8"),
    "a rendered page was changed": lambda place: (place.rendered / f"{PAGE}.html").write_text("?", "utf-8"),
    "a rendered page was deleted": lambda place: (place.rendered / f"{PAGE}.html").unlink(),
    "a script was changed": lambda place: (place.rendered / "js" / "menu.js").write_text("?", "utf-8"),
    "the index was changed": lambda place: (place.rendered / INDEX).write_text("?", "utf-8"),
    "there is a strange file": lambda place: (place.rendered / "strange.html").write_text("?", "utf-8"),
    "all of it was deleted": lambda place: shutil.rmtree(place.rendered),
}


@pytest.mark.parametrize("change", sample(CHANGES, 1))
def test_whatever_has_changed_the_whole_is_right(change: str, place: Place) -> None:
    (place.docs / "css").mkdir(exist_ok=True)
    CHANGES[change](place)
    place.render()
    assert in_order(place.rendered) == place.whole()
    add_words(place)
    place.render()
    assert in_order(place.rendered) == place.whole()


@only_in_a_whole_run
def test_another_navigation_is_another_edition(place: Place) -> None:
    nav = [*NAV[1:], NAV[0]]
    place.render(nav)
    assert in_order(place.rendered) == place.whole(nav)
    place.render()
    assert in_order(place.rendered) == place.whole()


@only_in_a_whole_run
def test_a_fault_is_told_until_it_is_mended(place: Place) -> None:
    page = place.docs / f"{OTHER}.md"
    right = page.read_text("utf-8")
    page.unlink()  # a page of the navigation that is not there
    for _ in range(2):
        with pytest.raises(SourceError, match=rf"{OTHER}\.md"):
            place.render()
    page.write_text(right, "utf-8")
    place.render()
    assert in_order(place.rendered) == place.whole()
