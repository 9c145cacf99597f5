"""In a browser: pages of the preview show faults and new content without being asked to."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from generator.commands.preview import Preview
from tests.browser.conftest import visiting
from tests.sampling import only_in_a_whole_run


@pytest.fixture
def copy(site: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(site, tmp_path / "site"))


@pytest.fixture
def preview(copy: Path) -> Iterator[Preview]:
    with Preview(copy, 0) as running:
        yield running


@only_in_a_whole_run
def test_a_page_waits_changes_says_what_is_wrong_and_mends_by_itself(
    chromium: Browser, copy: Path, preview: Preview
) -> None:
    page = copy / "index.html"
    with visiting(chromium) as visit:
        visit.page.goto(preview.address)
        heading = visit.page.locator("h1")
        expect(heading).to_have_text("The handbook is being built")
        preview.show()
        expect(visit.page.locator(".md-header")).to_be_visible()
        page.write_text(page.read_text("utf-8").replace("</h1>", " changed</h1>", 1), "utf-8")
        preview.show()
        expect(heading).to_contain_text("changed")
        preview.show("one.md:3: <img src=x onerror=alert(1)>; take it out")
        expect(heading).to_have_text("Something is wrong")
        expect(visit.page.locator("p")).to_have_text("one.md:3: <img src=x onerror=alert(1)>; take it out")
        preview.show()
        expect(heading).to_contain_text("changed")
        assert (visit.errors, visit.outside) == ([], [])


@only_in_a_whole_run
def test_search_and_figures_work_as_on_a_server(chromium: Browser, preview: Preview) -> None:
    preview.show()
    with visiting(chromium) as visit:
        visit.page.goto(preview.address)
        assert visit.search("left over")
        assert (visit.errors, visit.outside) == ([], [])
