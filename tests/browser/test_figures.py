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


HAS_ITS_DRAWING = "([one, narrow]) => one.complete && one.currentSrc.endsWith('-narrow.svg') === narrow"


def test_a_phone_has_its_own_drawing(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium, viewport={"width": 1366, "height": 900}) as visit:
        visit.page.goto(lesson(plain_site))
        shown = visit.page.locator(FIGURE).first
        for width, narrow, least in ((1366, False, 700), (390, True, ON_A_PHONE)):
            visit.page.set_viewport_size({"width": width, "height": 900})
            visit.page.wait_for_function(HAS_ITS_DRAWING, arg=[shown.element_handle(), narrow])
            assert shown.evaluate("one => one.getBoundingClientRect().width") >= least
