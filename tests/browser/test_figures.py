"""Figures in a page: the drawing for the width of the screen, in the colours of the page around it."""

import io
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Browser

from generator.figures.style import DARK, LIGHT
from tests.browser.conftest import visiting
from tests.figures.legible import ON_A_PHONE

FIGURE = "figure.work img"


def lesson(plain_site: Path) -> str:
    """The address of a lesson with four places, on whatever step."""
    return next(plain_site.glob("lessons/*/5230-among-4.html")).as_uri()


@pytest.mark.parametrize(("scheme", "palette"), [("light", LIGHT), ("dark", DARK)], ids=["light", "dark"])
def test_a_figure_has_the_colours_of_its_page(
    scheme: str, palette: dict[str, str], chromium: Browser, plain_site: Path
) -> None:
    with visiting(chromium, viewport={"width": 1366, "height": 900}, color_scheme=scheme) as visit:
        visit.page.goto(lesson(plain_site))
        drawn = Image.open(io.BytesIO(visit.page.locator(FIGURE).first.screenshot())).convert("RGB")
    # In the upper left corner, beside the names of the places, there is nothing but paper.
    assert "#{:02x}{:02x}{:02x}".format(*drawn.getpixel((8, 8))) == palette["paper"]  # type: ignore[misc]


@pytest.mark.parametrize(("width", "narrow"), [(390, True), (1366, False)])
def test_a_phone_has_its_own_drawing(width: int, narrow: bool, chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium, viewport={"width": width, "height": 900}) as visit:
        visit.page.goto(lesson(plain_site))
        shown = visit.page.locator(FIGURE).first
        assert shown.evaluate("one => one.currentSrc").endswith("-narrow.svg") == narrow
        assert shown.evaluate("one => one.getBoundingClientRect().width") >= (ON_A_PHONE if narrow else 700)
