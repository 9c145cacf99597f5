"""The outermost tag carries what the margins of a printed page say."""

import pytest

from generator.site.finish import marked

PAGE = """<!doctype html>
<html lang="en">
<title>T</title><h1 id="a">5,230 among <em>4</em>: "two" &amp; more</h1></html>
"""


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_writes_title_imprint_and_paper(paper: str) -> None:
    title = "5,230 among 4: &quot;two&quot; &amp; more"
    expected = f'<html data-title="{title}" data-imprint="Handbook &lt;1&gt;" data-paper="{paper}" lang="en">'
    assert marked(PAGE, "Handbook <1>", paper) == PAGE.replace('<html lang="en">', expected)


def test_a_page_without_heading_has_an_empty_title() -> None:
    assert (
        marked("<html><p>x</p></html>", "y", "A4")
        == '<html data-title="" data-imprint="y" data-paper="A4"><p>x</p></html>'
    )
