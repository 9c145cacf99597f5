"""Rendering: the pages that come out, what is said about bad links, and that building time does not explode."""

import dataclasses
import logging
import re
from html import escape
from pathlib import Path

import pytest

from generator.errors import SourceError
from generator.site.audit.audit import audit, html_files
from generator.site.audit.page import read_page
from generator.site.book import BOOK
from generator.site.run_mkdocs import Nav, render
from tests.site import samples


def read(site: Path, page: str) -> str:
    return (site / page).read_text(encoding="utf-8")


def test_every_page_is_written_whether_in_the_navigation_or_not(sample_site: Path) -> None:
    wanted = {page.relative_to(samples.DOCS).with_suffix(".html").as_posix() for page in samples.DOCS.rglob("*.md")}
    assert len(wanted) > 5
    assert wanted | {"404.html", BOOK} == {
        page.relative_to(sample_site).as_posix() for page in sample_site.rglob("*.html")
    }


def test_lessons_are_not_in_the_navigation(sample_site: Path) -> None:
    navigation = re.search(r'<details class="menu">.*?</nav>', read(sample_site, "index.html"), re.DOTALL)
    assert navigation
    assert "Dealing in rounds" in navigation[0]
    assert "5230" not in navigation[0]


def test_nothing_in_a_page_leads_outside(sample_site: Path) -> None:
    for page in sample_site.rglob("*.html"):
        assert not re.findall(r"(?:https?:)?//[a-z0-9]", page.read_text("utf-8").replace("http://www.w3.org", "")), page
    assert not list(sample_site.glob("sitemap*"))


def test_version_and_dates_stand_under_the_content(sample_site: Path) -> None:
    def dates(page: str) -> str:
        found = re.search(r'<p class="page-dates">(.*?)</p>', read(sample_site, page), re.DOTALL)
        assert found
        return " ".join(re.sub("<[^>]*>", "", found[1]).split())

    assert dates("index.html") == ("Version 1.2.3, built 2026-03-01. Last reviewed 2026-01-15; review due 2027-01-15.")
    assert dates("learn/index.html").endswith("Last reviewed 2026-01-15; review was due 2026-02-01.")
    assert dates("learn/rounds.html") == "Version 1.2.3, built 2026-03-01."


def test_names_and_titles_are_text(tmp_path: Path) -> None:
    evil = "<script>alert(1)</script>\"'&<img src=x onerror=alert(1)>"
    docs = tmp_path / "docs"
    (docs / "reference").mkdir(parents=True)
    (docs / "index.md").write_text("# One\n", "utf-8")
    (docs / "two.md").write_text(
        "---\ntitle: '" + escape(evil, False).replace("'", "''") + "'\ndescription: '\"><b>'\n---\n\nText\n", "utf-8"
    )
    settings = dataclasses.replace(samples.SETTINGS, site_name=evil)
    nav: Nav = [{evil: "index.md"}, {"More " + evil: [{"Two " + evil: "two.md"}]}]
    render(docs, tmp_path / "site", nav, settings)
    for page in ("index.html", "two.html", "404.html"):
        text = read(tmp_path / "site", page)
        assert "<script>alert" not in text
        assert "<img src=x" not in text
        assert '"><b>' not in text
        assert "&lt;script&gt;alert(1)" in text


def test_table_alignment_needs_no_style_attribute(sample_site: Path) -> None:
    text = read(sample_site, "lessons/uneven/5230-among-4.html")
    assert '<td align="right">12</td>' in text
    assert "style=" not in text


DEAD_LINKS = {
    "[x](gone.md)": 'href="gone.md"',
    "[x](index.md#gone)": 'href="index.html#gone"',
    "[x](#gone)": 'href="#gone"',
    "[x](/index.md)": 'href="/index.md"',
    "[x](index)": 'href="index"',
    "![x](gone.svg)": 'src="gone.svg"',
}


@pytest.fixture
def docs(tmp_path: Path) -> Path:
    """Sources with nothing but a first page."""
    folder = tmp_path / "docs"
    folder.mkdir()
    (folder / "index.md").write_text("# Home\n", "utf-8")
    return folder


def test_a_folder_may_be_called_as_mkdocs_calls_its_own(docs: Path, tmp_path: Path) -> None:
    (docs / "templates").mkdir()
    (docs / "templates" / "index.md").write_text("# Our templates\n", "utf-8")
    render(docs, tmp_path / "site", [{"Home": "index.md"}], samples.SETTINGS)
    assert "Our templates" in read(tmp_path / "site", "templates/index.html")


def test_dead_links_are_left_to_the_audit_of_the_finished_site(
    docs: Path, tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    for number, link in enumerate(DEAD_LINKS):
        (docs / f"page{number}.md").write_text(f"# Page {number}\n\n{link}\n", "utf-8")
    render(docs, tmp_path / "site", [{"Home": "index.md"}], samples.SETTINGS)
    pages = [read_page((), file) for file in html_files(tmp_path / "site")]
    faults = tuple(audit(tmp_path / "site", pages))
    for number, key in enumerate(DEAD_LINKS.values()):
        assert key in {fault.key for fault in faults if fault.file == f"page{number}.html"}
    assert capfd.readouterr() == ("", "")


def test_everything_that_mkdocs_warns_about_is_a_fault_with_its_file(
    docs: Path, tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    nav: Nav = [{"Home": "index.md"}, {"Lost": "lost.md"}]
    with pytest.raises(SourceError) as caught:
        render(docs, tmp_path / "site", nav, samples.SETTINGS)
    (fault,) = caught.value.faults
    assert fault.file == "lost.md"
    assert "nav" in fault.problem
    assert capfd.readouterr() == ("", "")


def test_mkdocs_is_quiet_and_its_logger_is_left_as_it_was(
    docs: Path, tmp_path: Path, capfd: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """As it never is by itself: else what an earlier rendering has left would pass for that."""
    logger = logging.getLogger("mkdocs")
    monkeypatch.setattr(logger, "level", 15)
    monkeypatch.setattr(logger, "propagate", True)
    handlers = list(logger.handlers)
    render(docs, tmp_path / "site", [{"Home": "index.md"}], samples.SETTINGS)
    assert capfd.readouterr() == ("", "")
    assert (logger.level, logger.propagate, logger.handlers) == (15, True, handlers)


def test_the_page_says_its_language(sample_site: Path) -> None:
    assert re.search(r'<html[^>]* lang="en"', read(sample_site, "index.html"))
    assert '<body dir="ltr"' in read(sample_site, "index.html")


def test_the_page_for_wrong_addresses_works_under_the_sub_path(tmp_path: Path) -> None:
    for sub_path in ("/", "/school/handbook/"):
        settings = dataclasses.replace(samples.SETTINGS, sub_path=sub_path)
        site = tmp_path / str(len(sub_path))
        render(samples.DOCS, site, samples.NAV, settings)
        text = read(site, "404.html")
        addresses = re.findall(r'(?:href|src)="([^"#]+)"', text)
        assert len(addresses) > 10
        assert all(address.startswith(sub_path) for address in addresses), addresses


def test_pages_stay_the_same_size_however_many_lessons_there_are(tmp_path: Path) -> None:
    def size_with(lessons: int) -> int:
        docs = tmp_path / f"docs{lessons}"
        docs.mkdir()
        (docs / "index.md").write_text("# Home\n", "utf-8")
        for number in range(lessons):
            (docs / f"lesson{number:03}.md").write_text(f"# Lesson {number:03}\n", "utf-8")
        render(docs, tmp_path / f"site{lessons}", [{"Home": "index.md"}], samples.SETTINGS)
        return (tmp_path / f"site{lessons}" / "lesson001.html").stat().st_size

    assert size_with(2) == size_with(40)


def test_settings_are_frozen() -> None:
    with pytest.raises(dataclasses.FrozenInstanceError):
        samples.SETTINGS.version = "2"  # type: ignore[misc]
