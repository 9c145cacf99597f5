"""What "Today's number" has worked out, presented as a lesson is: one place a screen, and the address holds all."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import ends, visiting
from tests.browser.test_accessible import axe_faults
from tests.browser.test_present import presents
from tests.sampling import only_in_a_whole_run, sample
from tests.waiting import until

ASKED = "#number=4327&children=6"
SCREENS = ["set-out", "thousands", "thousands-bank", "hundreds", "hundreds-bank", "tens", "units", "finished", "check"]
"""4,327 among six: four cubes do not go round; of 43 squares one is left; 12 bars and 7 beads leave one bead."""

VALUES = "inputs => inputs.map(({ value }) => value)"
STORED = "[{ ...localStorage }, { ...sessionStorage }, document.cookie]"


def shown(page: Page, screen: str) -> None:
    """The address names a screen, nothing but its part can be seen, and it is announced."""
    presents(page, screen.removesuffix("-bank"))
    assert page.evaluate("location.hash") == f"{ASKED}&present-{screen}"
    expect(page.locator(".presenting-foot [role=status]")).to_contain_text(f"{SCREENS.index(screen) + 1} / 9")


def test_a_number_that_was_typed_is_presented_and_left_for_the_same_answer(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium, viewport={"width": 1366, "height": 768}) as visit:
        page = visit.page
        page.goto((plain_site / "today.html").as_uri())
        stored = page.evaluate(STORED)
        page.get_by_label("The number").fill("4327")
        page.get_by_label("Children sharing").fill("6")
        page.get_by_role("link", name="Present it").click()
        for screen in SCREENS:
            shown(page, screen)
            page.keyboard.press("ArrowRight")
        page.keyboard.press("Home")
        page.keyboard.press("ArrowRight")
        expect(page.locator("#answer-each")).to_be_hidden()
        page.keyboard.press("Escape")
        assert page.evaluate("location.hash") == f"{ASKED}&thousands"
        expect(page.locator("#thousands")).to_be_in_viewport()
        expect(page.locator("#answer-each")).to_have_text("Each has 721, and 1 is left over.")
        page.get_by_label("Children sharing").fill("5")
        page.get_by_role("link", name="Present it").click()
        expect(page.locator(".is-presented h2")).to_have_text("Set out 4,327 for 5 children")
        page.go_back()
        expect(page.locator("#answer-name")).to_have_text("4,327 among five")
        expect(page.locator(".presenting-head")).to_be_hidden()
        assert page.evaluate(STORED) == stored
        assert (visit.outside, visit.errors) == ([], [])


@only_in_a_whole_run
def test_what_is_seen_and_the_movement_shown_are_still_in_the_address_after_presenting(
    chromium: Browser, plain_site: Path
) -> None:
    with visiting(chromium) as visit:
        page = visit.page
        page.goto((plain_site / "today.html").as_uri() + f"{ASKED}&movement=3")
        page.locator("#tray-1").fill("722")
        page.locator("#tray-1").press("Enter")
        noted = f"{ASKED}&seen=722,721,721,721,721,721&left=1&movement=3"
        expect(page).to_have_url(ends(noted))  # once the number is written to the end
        page.get_by_role("link", name="Present it").click()  # which begins at the movement's place
        presents(page, "thousands")
        assert page.evaluate("location.hash") == f"{noted}&present-thousands"
        page.reload()
        presents(page, "thousands")
        page.keyboard.press("Escape")
        expect(page.locator("#thousands")).to_be_in_viewport()
        assert page.evaluate("location.hash") == f"{noted}&thousands"
        expect(page.locator("#tray-1")).to_have_value("722")
        expect(page.locator("#movement-now")).to_contain_text("Movement 3 of")
        assert (visit.outside, visit.errors) == ([], [])


@only_in_a_whole_run
def test_what_was_being_written_of_a_tray_does_not_lead_out_of_the_presentation(
    chromium: Browser, plain_site: Path
) -> None:
    """A telephone may leave the cursor in a field when a link is touched."""
    with visiting(chromium) as visit:
        page = visit.page
        page.goto((plain_site / "today.html").as_uri() + ASKED)
        page.locator("#tray-1").fill("722")
        page.locator("#present-it").evaluate("link => link.click()")
        shown(page, "set-out")
        page.wait_for_timeout(1_100)
        page.keyboard.press("ArrowRight")
        shown(page, "thousands")
        assert (visit.outside, visit.errors) == ([], [])


@pytest.mark.parametrize(
    ("asked", "screen", "says"),
    sample(
        [
            (f"{ASKED}&present-hundreds-bank", "hundreds", "One hundred"),
            ("#number=8448&children=4&present-tens", "tens", "the tens"),
            ("#number=3432&children=12&ribbons&present-hundreds", "hundreds", "the child for ten gets one thousand"),
            ("#number=4891&children=23&ribbons&present-units-bank", "units", "One ten goes to the bank"),
            ("#number=3432&children=12&ribbons&present-tens-bank", "tens", "One hundred goes to the bank"),
        ],
        1,
    ),
)
def test_an_address_opens_the_same_screen(
    asked: str, screen: str, says: str, chromium: Browser, plain_site: Path
) -> None:
    for width in sample((390, 820, 1366), 1):
        with visiting(chromium, viewport={"width": width, "height": 844}) as visit:
            page = visit.page
            page.goto((plain_site / "today.html").as_uri() + asked)
            presents(page, screen)
            expect(page.locator(".is-presented .words")).to_contain_text(says)
            expect(page.locator(".is-presented .mat:visible .middle strong")).to_have_text("the middle")
            assert page.evaluate("document.documentElement.scrollWidth") <= width
            assert (visit.outside, visit.errors) == ([], [])
            assert axe_faults(page) == []


@pytest.mark.parametrize(
    ("asked", "screen", "trays", "left", "after"),
    sample(
        [
            ("#number=5346&children=3", "hundreds-bank", [1700] * 3, 246, "Hundreds: to the bank"),
            ("#number=5346&children=3", "set-out", [0] * 3, 5346, "Set out"),
            ("#number=5346&children=3", "finished", [1782] * 3, 0, ""),
            ("#number=1475&children=23&ribbons", "tens", [200] * 2 + [20] * 3, 1015, "Tens"),
        ],
        1,
    ),
)
def test_what_is_not_right_begins_with_what_should_lie_there_on_the_screen_that_was_left(
    asked: str, screen: str, trays: list[int], left: int, after: str, chromium: Browser, plain_site: Path
) -> None:
    with visiting(chromium) as visit:
        page = visit.page
        page.goto((plain_site / "today.html").as_uri() + f"{asked}&present-{screen}")
        page.locator(".to-not-right").click()
        values = [str(value) for value in (*trays, left)]
        assert page.locator("#trays-seen input").evaluate_all(VALUES) == values
        told = f"as they should be after “{after}”. Change what differs." if after else "as it should be at the end."
        expect(page.locator("#not-right-total")).to_contain_text(told)
        page.reload()
        assert page.locator("#trays-seen input").evaluate_all(VALUES) == values
        page.locator("#trays-seen button").last.click()
        expect(page).to_have_url(re.compile(re.escape(asked) + rf"&seen=[0-9:,]+&left={left + 1}$"))
        page.go_back()
        presents(page, screen.removesuffix("-bank"))
        page.locator(".to-not-right").click()
        assert page.locator("#trays-seen input").evaluate_all(VALUES) == values
        assert visit.errors == []


@only_in_a_whole_run
def test_a_lesson_that_is_presented_leads_to_what_should_lie_on_its_trays_then(
    chromium: Browser, plain_site: Path
) -> None:
    """7,266 among six: twelve hundreds each, six tens and six units still in the middle; later at the end again."""
    lesson = next((plain_site / "lessons").glob("*/7266-among-6.html"))
    for leave, trays, left in ((".to-not-right", "1200", "66"), (".close", "1211", "0")):
        with visiting(chromium) as visit:
            page = visit.page
            page.goto(lesson.as_uri() + "#present-hundreds")
            page.locator(leave).click()
            page.get_by_role("link", name="Type in what you see").first.click()
            page.locator("#tray-1").wait_for()
            assert page.locator("#trays-seen input").evaluate_all(VALUES) == [trays] * 6 + [left]


@only_in_a_whole_run
def test_twelve_trays_are_seen_at_once(chromium: Browser, plain_site: Path) -> None:
    """9,999 among twelve: nine rows of squares in the middle, the bank's beside them; the foot begins below the mat."""
    with visiting(chromium, viewport={"width": 1366, "height": 768}) as visit:
        visit.page.goto((plain_site / "today.html").as_uri() + "#number=9999&children=12&present-thousands")
        mat = visit.page.locator(".is-presented .mat:visible").bounding_box()
        foot = visit.page.locator(".presenting-foot").bounding_box()
        assert mat
        assert foot
        assert mat["y"] + mat["height"] <= foot["y"]


def test_a_screen_that_goes_on_below_its_foot_says_so(chromium: Browser, plain_site: Path) -> None:
    """A shadow above the foot, gone at the end; twelve trays leave no room for the hands on a telephone."""
    shadow = "parseFloat(getComputedStyle(document.querySelector('.presenting-foot'), '::before').height)"
    with visiting(chromium, viewport={"width": 390, "height": 844}) as visit:
        visit.page.goto((plain_site / "today.html").as_uri() + "#number=8448&children=4&present-tens")
        until(lambda: visit.page.evaluate(shadow) == 0)
        visit.page.goto((plain_site / "today.html").as_uri() + "#number=9999&children=12&present-hundreds")
        until(lambda: visit.page.evaluate(shadow) > 4)
        visit.page.evaluate("scrollTo(0, document.body.scrollHeight)")
        until(lambda: visit.page.evaluate(shadow) == 0)
        expect(visit.page.locator("#present-hundreds .hands")).to_be_in_viewport()
