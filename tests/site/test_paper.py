"""The outermost tag carries what the margins of a printed page say."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.site.changes import change_pages
from generator.site.paper import PAPERS, for_print

PAGE = """<!doctype html>
<html lang="en">
<title>T</title><h1 id="a">5,230 among <em>4</em>: "two" &amp; more</h1></html>
"""


@pytest.mark.parametrize("paper", [None, *PAPERS])
def test_writes_title_imprint_and_paper(paper: str | None, tmp_path: Path) -> None:
    page = tmp_path / "page.html"
    page.write_text(PAGE, "utf-8")
    change_pages(tmp_path, for_print("Handbook <1>", paper))
    size = f' data-paper="{paper}"' if paper else ""
    title = "5,230 among 4: &quot;two&quot; &amp; more"
    expected = f'<html data-title="{title}" data-imprint="Handbook &lt;1&gt;"{size} lang="en">'
    assert page.read_text("utf-8") == PAGE.replace('<html lang="en">', expected)


def test_a_page_without_heading_has_an_empty_title(tmp_path: Path) -> None:
    page = tmp_path / "page.html"
    page.write_text("<html><p>x</p></html>", "utf-8")
    change_pages(tmp_path, for_print("y"))
    assert page.read_text("utf-8") == '<html data-title="" data-imprint="y"><p>x</p></html>'
