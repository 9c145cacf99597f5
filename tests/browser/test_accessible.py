"""WCAG 2.2 AA on every kind of page, light and dark, at the widths of a desk screen, a telephone and 400 % zoom."""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped]
from playwright.sync_api import Browser, Page

from tests.browser.conftest import visiting

WIDTHS = (1366, 390, 320)
SCHEMES = {"light": "default", "dark": "slate"}
HEIGHT = 900

# The smallest target that WCAG 2.2 (2.5.8) allows, in CSS pixels. A link within a line of text is excepted there.
TARGET = 24
SMALL_TARGETS = """least => [...document.querySelectorAll(
        'a[href], button, summary, label, input:not([type=hidden]):not(.md-toggle):not(.md-option)')]
    .filter(one => one.checkVisibility({visibilityProperty: true, opacityProperty: true}))
    .filter(one => getComputedStyle(one).display !== 'inline')
    .map(one => [one.outerHTML.slice(0, 90), one.getBoundingClientRect()])
    .filter(([_, box]) => box.width && box.height && (box.width < least || box.height < least))
    .map(([what, box]) => `${what} ${box.width} x ${box.height}`)"""


def axe_faults(page: Page) -> list[str]:
    response = Axe().run(page).response
    assert response["passes"], "axe looked at nothing"
    return [
        f"{page.url}: {fault['id']}: {node['target']} {node['failureSummary']}"
        for fault in response["violations"]
        for node in fault["nodes"]
    ]


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("scheme", SCHEMES)
def test_every_kind_of_page(scheme: str, width: int, chromium: Browser, site: Path, kinds: list[str]) -> None:
    faults = []
    with visiting(chromium, viewport={"width": width, "height": HEIGHT}, color_scheme=scheme) as visit:
        for page in kinds:
            visit.page.goto((site / page).as_uri())
            if visit.page.locator(".md-header").count():
                assert visit.page.locator("body").get_attribute("data-md-color-scheme") == SCHEMES[scheme]
            faults += axe_faults(visit.page)
            faults += [f"{page}: too small: {target}" for target in visit.page.evaluate(SMALL_TARGETS, TARGET)]
            if visit.page.evaluate("document.documentElement.scrollWidth") > width:
                faults.append(f"{page}: scrolls sideways at {width} pixels")
    assert faults == []


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("scheme", SCHEMES)
def test_search_results_and_the_open_menu(scheme: str, width: int, chromium: Browser, site: Path) -> None:
    with visiting(chromium, viewport={"width": width, "height": HEIGHT}, color_scheme=scheme) as visit:
        visit.page.goto((site / "index.html").as_uri())
        if width < 960:
            visit.page.locator("label[for=__drawer].md-header__button").click()
            visit.page.wait_for_timeout(400)
            assert axe_faults(visit.page) == []
            visit.page.goto((site / "index.html").as_uri())
            visit.page.locator("label[for=__search].md-header__button").click()
        visit.search("bank")
        visit.page.wait_for_timeout(400)
        assert axe_faults(visit.page) == []


def test_the_reader_can_choose_dark_and_every_page_keeps_to_it(chromium: Browser, site: Path) -> None:
    with visiting(chromium, color_scheme="light") as visit:
        visit.page.goto((site / "index.html").as_uri())
        visit.page.get_by_title("Switch to dark colours").click()
        for page in ("index.html", "learn/rounds.html", "reference/a-z.html"):
            visit.page.goto((site / page).as_uri())
            assert visit.page.locator("body").get_attribute("data-md-color-scheme") == "slate"
        assert visit.errors == []


def test_the_first_key_leads_past_the_header_and_focus_is_seen(chromium: Browser, site: Path) -> None:
    with visiting(chromium) as visit:
        visit.page.goto((site / "learn" / "index.html").as_uri())
        visit.page.keyboard.press("Tab")
        assert "Skip" in str(visit.page.evaluate("document.activeElement.textContent"))
        for _ in range(12):
            visit.page.keyboard.press("Tab")
            outline = visit.page.evaluate(
                """() => {
                    const one = document.activeElement;
                    const seen = one.matches('.md-option') ? one.nextElementSibling : one;
                    const style = getComputedStyle(seen);
                    return [one.outerHTML.slice(0, 80), style.outlineStyle, parseFloat(style.outlineWidth)];
                }"""
            )
            assert outline[1] == "solid", outline
            assert outline[2] >= 2, outline


def test_nothing_moves_for_a_reader_who_asks_for_that(chromium: Browser, site: Path) -> None:
    longest = """Math.max(...[...document.querySelectorAll('*')].map(
        one => Math.max(...getComputedStyle(one).transitionDuration.split(',').map(parseFloat))))"""
    for motion, moves in (("no-preference", True), ("reduce", False)):
        with visiting(chromium, reduced_motion=motion) as visit:
            visit.page.goto((site / "index.html").as_uri())
            assert (visit.page.evaluate(longest) > 0.01) is moves
