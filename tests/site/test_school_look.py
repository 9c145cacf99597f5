"""A school's logo and colours take the place of the stock ones; that they can be read is tested in tests/browser."""

import dataclasses
import shutil
from pathlib import Path

import pytest

from generator.site import school_look
from generator.source.theme import Colours, Theme
from tests.site import samples

LOGO = b"\x89PNG\r\n\x1a\nnot much of a picture"


def build(folder: Path, theme: Theme) -> Path:
    docs = folder / "docs"
    shutil.copytree(samples.DOCS, docs)
    for path, content in school_look.files(theme).items():
        (docs / path).parent.mkdir(exist_ok=True)
        (docs / path).write_bytes(content)
    return samples.build(
        folder / "site", docs, settings=dataclasses.replace(samples.SETTINGS, logo=school_look.logo(theme))
    )


def test_a_school_without_its_own_look_gets_the_stock_one(tmp_path: Path) -> None:
    assert school_look.files(Theme()) == {}
    site = build(tmp_path, Theme())
    assert '<img src="../images/trays.svg"' in (site / "learn" / "index.html").read_text("utf-8")
    assert "{" not in (site / "css" / "school.css").read_text("utf-8")


def test_the_schools_logo_is_shown_on_every_page_and_tab(tmp_path: Path) -> None:
    site = build(tmp_path, Theme(logo=LOGO))
    assert (site / "images" / "school.png").read_bytes() == LOGO
    text = (site / "learn" / "index.html").read_text("utf-8")
    assert '<img src="../images/school.png"' in text
    assert '<link rel="icon" href="../images/school.png">' in text
    assert "trays.svg" not in text


@pytest.mark.parametrize(
    "colours", [{"header": "#2f5d50"}, {"links": "#224466"}, {"header": "#111111", "links": "#010203"}]
)
def test_the_schools_colours_are_in_the_style_sheet_that_comes_last(colours: dict[str, str], tmp_path: Path) -> None:
    site = build(tmp_path, Theme(colours=Colours(**colours)))
    style = (site / "css" / "school.css").read_text("utf-8")
    assert all(colour in style for colour in colours.values())
    assert style.count("{") == style.count("}") > 0
    page = (site / "index.html").read_text("utf-8")
    assert page.index("css/school.css") > max(page.index(f"css/{name}.css") for name in ("handbook", "lesson", "print"))
