"""The mat movement by movement, on the page that works out any number."""

import io
import random
import re
from itertools import product
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Browser, expect

from generator.engine.dealing import Action, State
from generator.engine.places import HUNDREDS, TENS, THOUSANDS, UNITS, Counts, place_name
from generator.engine.sharing import Sharing, share
from generator.figures.style import DARK, LIGHT
from tests.browser.conftest import ends, visiting
from tests.browser.test_accessible import A_VIEW, SMALL_TARGETS, TARGET, axe_faults
from tests.browser.test_today import TODAY
from tests.figures.legible import luminance
from tests.sampling import only_in_a_whole_run, sample

SMALLEST = 6.05  # a bead, in CSS pixels
SHAPES = ["bead", "bar", "square", "cube"]
SOME = random.Random(4327)
DIVISIONS = [
    *(share(SOME.randint(1000, 9999), children) for children in (2, 5, 12)),
    share(9999, 12),
    share(1, 3),
    share(SOME.randint(0, 99), 7),
    share(SOME.randint(1000, 9999), 12, ribbons=True),
    share(SOME.randint(1000, 9999), 123, ribbons=True),
]
ALL_MOVEMENTS = """([movements, shapes]) => {
  const next = document.querySelector('[data-go=next]');
  const lying = (part) => Object.fromEntries(shapes.map((shape) =>
    [shape, part.querySelectorAll(`i.${shape}.full, i.${shape}.light`).length]));
  return Array.from({ length: movements }, () => {
    const mat = document.querySelector('#movement-mat .mat');
    const seen = {
      middle: lying(mat.querySelector('.middle')),
      trays: [...mat.querySelectorAll('.tray')].map(lying),
      columns: [...mat.querySelectorAll('.heads strong, .slot')].map((part) => part.getBoundingClientRect().x),
      height: mat.getBoundingClientRect().height,
      top: mat.getBoundingClientRect().y - document.querySelector('#movement-by-movement').getBoundingClientRect().y,
      sizes: [...mat.querySelectorAll('.bank, .middle, .tray')].map((row) =>
        shapes.map((shape) => row.querySelector(`i.${shape}`)?.getBoundingClientRect().height ?? null)),
      outside: [...mat.querySelectorAll('.tray i')].filter((piece) =>
        piece.getBoundingClientRect().bottom > piece.closest('.tray').getBoundingClientRect().bottom).length,
      wide: document.documentElement.scrollWidth,
    };
    next.click();
    return seen;
  });
}"""


def address(site: Path, sharing: Sharing, movement: int) -> str:
    ribbons = "&ribbons" if sharing.ribbons else ""
    asked = f"#number={sharing.dividend}&children={sharing.divisor}{ribbons}&movement={movement}"
    return (site / TODAY).as_uri() + asked


def pieces(counts: Counts) -> dict[str, int]:
    return {shape: counts.at(place) for place, shape in enumerate(SHAPES)}


def states(sharing: Sharing) -> list[State]:
    """The mat before the first movement, and after each as the table of every movement numbers them."""
    moved = [step.after for step in sharing.steps if step.action is not Action.GO_ON]
    return [sharing.beginning, *moved]


def trays(sharing: Sharing, state: State) -> list[dict[str, int]]:
    return [pieces(tray.holds) for tray in sharing.trays(state) for _ in range(tray.sharers)]


def assert_one_scale(bead: float | None, bar: float | None, square: float | None, cube: float | None) -> None:
    """Heights of the pieces of a row, as far as it has them. Of a real cube the front is a square, ten beads wide; here
    as in the figures two beads, which is less, and no bead is under six pixels."""
    if cube and square:
        assert 0.9 < square / cube < 1
    for larger in filter(None, (cube, square)):
        assert bead is None or bead < 0.55 * larger or bead <= SMALLEST
        assert bar is None or bar > 0.99 * larger


@pytest.mark.parametrize(
    ("sharing", "width"),
    sample(product(DIVISIONS, (1366, 390)), 1),
    ids=lambda given: f"{given.dividend}-{given.divisor}" if isinstance(given, Sharing) else str(given),
)
def test_every_movement_shows_what_the_engine_says_in_columns_that_stay(
    sharing: Sharing, width: int, chromium: Browser, plain_site: Path
) -> None:
    with visiting(chromium, viewport={"width": width, "height": 844}) as visit:
        visit.page.goto(address(plain_site, sharing, 0))
        room = states(sharing)
        seen = visit.page.evaluate(ALL_MOVEMENTS, [len(room), SHAPES])
        assert [moment["middle"] for moment in seen] == [pieces(state.middle) for state in room]
        assert [moment["trays"] for moment in seen] == [trays(sharing, state) for state in room]
        assert all(moment["columns"] == seen[0]["columns"] for moment in seen)
        assert {moment["height"] for moment in seen} == {seen[0]["height"]}
        assert {moment["top"] for moment in seen} == {seen[0]["top"]}
        for sizes in (sizes for moment in seen for sizes in moment["sizes"]):
            assert_one_scale(*sizes)
        assert [moment["outside"] for moment in seen] == [0] * len(seen)
        assert max(moment["wide"] for moment in seen) <= width
        expect(visit.page.locator("[data-go=next]")).to_have_attribute("aria-disabled", "true")
        expect(visit.page).to_have_url(ends(f"&movement={len(room) - 1}"))
        assert (visit.outside, visit.errors) == ([], [])


def test_keys_and_buttons_lead_through_it_and_the_address_follows(chromium: Browser, plain_site: Path) -> None:
    """4,327 among six: 4 cubes to the bank before the first hundred is given; the order from the engine's own tests."""
    sharing = share(4327, 6)
    with visiting(chromium) as visit:
        page = visit.page
        page.goto(address(plain_site, sharing, 3))
        now = page.locator("#movement-now")
        expect(now).to_have_text("Movement 3 of 22: Exchange one thousand for ten hundreds.")
        forward = page.locator("[data-go=next]")
        forward.focus()
        expect(now).to_have_attribute("aria-live", "polite")
        page.keyboard.press("Enter")
        expect(now).to_contain_text("Movement 4 of 22")
        expect(forward).to_be_focused()
        page.keyboard.press("ArrowLeft")
        page.keyboard.press("ArrowLeft")
        expect(now).to_contain_text("Movement 2 of 22")
        page.keyboard.press("End")
        expect(now).to_have_text("Movement 22 of 22: Keep apart what is left over: 1 unit.")
        room = page.locator("#movement-room")
        expect(room).to_contain_text("Left over: 1 unit.")
        expect(room).to_contain_text("Still to share: 0.")
        expect(room).not_to_contain_text("In the middle")
        expect(forward).to_have_attribute("aria-disabled", "true")
        expect(forward).to_be_focused()
        page.get_by_role("button", name="Previous place").click()
        expect(now).to_have_text("Movement 18 of 22: Give one ten to each.")
        page.get_by_role("button", name="Previous place").click()
        expect(now).to_have_text("Movement 16 of 22: Exchange one hundred for ten tens.")
        page.keyboard.press("Home")
        expect(now).to_have_text("Set out: 4 thousands, 3 hundreds, 2 tens and 7 units. Nothing has been shared yet.")
        expect(page).to_have_url(ends("#number=4327&children=6&movement=0"))


HEADS = "[...document.querySelectorAll('#movement-mat .heads strong')].map((head) => getComputedStyle(head).color)"


def rgb(colour: str) -> str:
    """A colour such as #1c7440 as a browser tells it."""
    red, green, blue = bytes.fromhex(colour.removeprefix("#"))
    return f"rgb({red}, {green}, {blue})"


@only_in_a_whole_run
@pytest.mark.parametrize(("scheme", "width"), A_VIEW)
def test_it_is_accessible_while_movements_go_on(scheme: str, width: int, chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium, color_scheme=scheme, viewport={"width": width, "height": 768}) as visit:
        visit.page.goto(address(plain_site, share(3432, 12, ribbons=True), 5))
        visit.page.locator("[data-go=next]").click()
        palette = DARK if scheme == "dark" else LIGHT
        assert visit.page.evaluate(HEADS) == [
            rgb(palette[place_name(place)]) for place in (THOUSANDS, HUNDREDS, TENS, UNITS)
        ]
        assert axe_faults(visit.page) == []
        assert visit.page.evaluate(SMALL_TARGETS, TARGET) == []
        assert visit.page.evaluate("document.documentElement.scrollWidth") <= width


@only_in_a_whole_run
@pytest.mark.parametrize(("scheme", "width"), A_VIEW)
def test_what_was_just_taken_away_is_seen(scheme: str, width: int, chromium: Browser, plain_site: Path) -> None:
    """3:1 against the ground (WCAG 2.2, 1.4.11), for a square in the middle and ten bars at the bank."""
    with visiting(chromium, color_scheme=scheme, viewport={"width": width, "height": 1400}) as visit:
        visit.page.goto(address(plain_site, share(3432, 12, ribbons=True), 7))
        for gone in (".middle .square.dotted", ".bank .bar.dotted"):
            drawn = Image.open(io.BytesIO(visit.page.locator(f"#movement-mat {gone}").first.screenshot())).convert(
                "RGB"
            )
            pixels = drawn.tobytes()
            seen = [luminance("#" + pixels[at : at + 3].hex()) for at in range(0, len(pixels), 3)]
            assert (max(seen) + 0.05) / (min(seen) + 0.05) >= 3, gone


ANSWERS = {
    Action.DEAL: ["round"],
    Action.START: ["not-enough"],
    Action.TAKE_BACK: ["take-back"],
    Action.EXCHANGE: ["bank"],
    Action.SET_ASIDE: ["left-over"],
    Action.GO_ON: ["next-place"],
    Action.NOTHING: [],
}
ANSWER = """(given) => {
  const before = location.hash;
  document.querySelector(`[data-answer=${given}]`).click();
  return [document.querySelector('#practise-told').textContent, location.hash === before];
}"""


@pytest.mark.parametrize(
    "sharing",
    sample(
        [share(4327, 6), share(5005, 5), share(2034, 12, ribbons=True), share(1210, 12, ribbons=True), share(85, 4)], 1
    ),
    ids=lambda sharing: f"{sharing.dividend}-{sharing.divisor}",
)
def test_who_practises_says_every_movement_before_it_is_seen(
    sharing: Sharing, chromium: Browser, plain_site: Path
) -> None:
    with visiting(chromium) as visit:
        page = visit.page
        page.goto(address(plain_site, sharing, 0))
        page.get_by_label("Practise").check()
        page.keyboard.press("ArrowRight")
        expect(page).to_have_url(ends("&movement=0"))
        for right in [answer for step in sharing.steps for answer in ANSWERS[step.action]]:
            told, stays = page.evaluate(ANSWER, "bank" if right == "left-over" else "left-over")
            assert told.startswith("Look again. ")
            assert stays
            told, _ = page.evaluate(ANSWER, right)
            assert told.startswith("Right")
        expect(page.locator("#practise-question")).to_be_hidden()
        expect(page).to_have_url(ends(f"&movement={len(states(sharing)) - 1}"))
        assert axe_faults(page) == []


@only_in_a_whole_run
def test_a_lesson_leads_to_its_movements_with_what_is_said(chromium: Browser, plain_site: Path) -> None:
    lesson = next((plain_site / "lessons").glob("*/5230-among-4.html"))
    with visiting(chromium) as visit:
        page = visit.page
        page.goto(lesson.as_uri())
        opening = page.locator("#present-thousands blockquote").first.inner_text()
        page.locator("#every-movement > summary").click()
        page.get_by_role("link", name="One movement at a time").click()
        expect(page.locator("#movement-now")).to_contain_text("Movement 1 of")
        said = page.locator("#movement-said").inner_text()
        assert "The guide says" in said
        assert " ".join(said.split()) in " ".join(opening.split())
        expect(page.locator("#movement-by-movement")).to_be_in_viewport()
        assert (visit.outside, visit.errors) == ([], [])


@only_in_a_whole_run
def test_it_is_printed_as_a_sheet_or_as_a_card_with_its_address(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium) as visit:
        page = visit.page
        page.goto((plain_site / TODAY).as_uri() + "#number=4327&children=6")
        page.evaluate("window.print = () => document.body.dataset.printed = document.documentElement.className")
        page.emulate_media(media="print")
        expect(page.locator("#answer-address")).to_have_text("To open this again: today.html#number=4327&children=6")
        expect(page.locator("#answer-address")).to_be_visible()
        expect(page.locator("#todays-lesson h2").first).to_be_visible()
        for screen_only in ("#asking", "#movement-by-movement", "#trays-seen", "#find-form", "#print-card"):
            expect(page.locator(screen_only)).to_be_hidden()
        page.evaluate("document.querySelector('#print-card').click()")
        expect(page.locator("body")).to_have_attribute("data-printed", re.compile("prints-a-card"))
        expect(page.locator("#todays-lesson .checklist")).to_be_visible()
        expect(page.locator("#todays-lesson #units ~ .hands")).to_be_hidden()
        expect(page.locator("#answer-address")).to_be_visible()
        page.evaluate("window.dispatchEvent(new Event('afterprint'))")
        expect(page.locator("#todays-lesson #units")).to_be_visible()


SWIPE = """([part, ...by]) => {
  const across = (type, x) => {
    const finger = new Touch({ identifier: 1, target: part, clientX: x, clientY: 300 });
    const down = type === "touchend" ? [] : [finger];
    part.dispatchEvent(new TouchEvent(type, { bubbles: true, touches: down, changedTouches: [finger] }));
  };
  for (const far of by) {
    across("touchstart", 200);
    across("touchend", 200 + far);
  }
}"""


@only_in_a_whole_run
def test_a_finger_drawn_across_the_mat_goes_on_and_back(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium, has_touch=True, viewport={"width": 390, "height": 844}) as visit:
        page = visit.page
        page.goto(address(plain_site, share(4327, 6), 3))
        mat = page.locator("#movement-mat").element_handle()
        page.evaluate(SWIPE, [mat, -120, -120, -20])
        expect(page.locator("#movement-now")).to_contain_text("Movement 5 of 22")
        page.evaluate(SWIPE, [mat, 120])
        expect(page.locator("#movement-now")).to_contain_text("Movement 4 of 22")
        assert visit.errors == []


@only_in_a_whole_run
def test_where_rounds_are_taken_back_it_is_right_to_begin_one(chromium: Browser, plain_site: Path) -> None:
    """Of 1,372 among four the one cube reaches one tray; who looks first begins no round."""
    with visiting(chromium) as visit:
        page = visit.page
        for look_first in (False, True):
            page.goto("about:blank")
            page.goto((plain_site / TODAY).as_uri())
            page.evaluate("look_first => { sharing.handbook.look_first = look_first; }", look_first)
            page.evaluate("location.hash = 'number=1372&children=4'")
            page.get_by_label("Practise").check()
            told = page.locator("#practise-told")
            page.get_by_role("button", name="Share out a round").click()
            if look_first:
                expect(told).to_contain_text("Look again.")
                continue
            expect(told).to_have_text("Right.")
            page.get_by_role("button", name="Share out a round").click()
            expect(told).to_contain_text("Look again.")
            page.get_by_role("button", name="Take the round back").click()
            expect(told).to_have_text("Right.")


@pytest.mark.parametrize(
    ("sharing", "after", "said", "movement"),
    sample(
        [
            (share(538, 3), 5, "round", "Movement 6 of 28: Give one ten to each."),
            (share(538, 3), 1, "not-enough", "Movement 2 of 28: Start a round: it reaches only 2 of the 3 trays."),
            (share(1372, 4, look_first=True), 0, "not-enough", "Set out"),
            (share(1475, 23, ribbons=True), 3, "round", "Movement 4 of 17: Give one hundred to each child for 10"),
        ],
        1,
    ),
)
def test_the_true_next_movement_is_right_also_where_it_is_at_the_next_place(
    sharing: Sharing, after: int, said: str, movement: str, chromium: Browser, plain_site: Path
) -> None:
    with visiting(chromium) as visit:
        page = visit.page
        page.goto((plain_site / TODAY).as_uri())
        page.evaluate("look_first => { sharing.handbook.look_first = look_first; }", sharing.look_first)
        page.evaluate("hash => { location.hash = hash; }", address(plain_site, sharing, after).split("#")[1])
        page.get_by_label("Practise").check()
        page.locator(f"[data-answer={said}]").click()
        expect(page.locator("#practise-told")).to_contain_text(re.compile("^Right"))
        expect(page.locator("#movement-now")).to_contain_text(movement)


def test_what_is_said_of_the_next_place_with_ribbons_is_true_of_the_middle(chromium: Browser, plain_site: Path) -> None:
    """Of 1,475 for 23, fourteen hundreds lie there that are about to be given out."""
    with visiting(chromium) as visit:
        page = visit.page
        page.goto(address(plain_site, share(1475, 23, ribbons=True), 3))
        page.get_by_label("Practise").check()
        page.get_by_role("button", name="To the bank").click()
        expect(page.locator("#practise-told")).to_have_text(
            "Look again. No thousands are left to give out. It is the next place\N{RIGHT SINGLE QUOTATION MARK}s turn: "
            "one hundred to each child for 10 and one ten to each child for 1."
        )
        expect(page.locator("#movement-room")).to_contain_text("In the middle: 14 hundreds")


def test_what_the_bank_has_more_and_fewer_is_told_and_its_signs_are_explained(
    chromium: Browser, plain_site: Path
) -> None:
    """538 among three: two hundreds and two tens went there, twenty tens and twenty units came from there."""
    with visiting(chromium) as visit:
        page = visit.page
        page.goto(address(plain_site, share(538, 3), 28))
        expect(page.locator("#movement-room")).to_contain_text(
            "All in all the bank now has 2 hundreds more, and 18 tens and 20 units fewer."
        )
        signs = "Bank: + more, \N{MINUS SIGN} fewer than at the start"
        expect(page.locator("#movement-by-movement .bank-signs")).to_have_text(signs)
        expect(page.locator("#movement-by-movement .bank-signs")).to_be_visible()
        expect(page.locator("#hundreds ~ figure .bank-signs").last).to_be_visible()
        page.emulate_media(media="print")
        expect(page.locator(".shared .bank-signs")).to_be_visible()
        page.emulate_media(media="screen")
        page.goto(address(plain_site, share(963, 3), 0))
        expect(page.locator("#movement-by-movement .bank-signs")).to_be_hidden()


@only_in_a_whole_run
def test_a_movement_is_shown_also_where_a_browser_will_note_no_more(chromium: Browser, plain_site: Path) -> None:
    """Some refuse another address after a hundred in a few seconds."""
    with visiting(chromium, own=True) as visit:
        visit.page.add_init_script("history.replaceState = () => { throw new DOMException('', 'SecurityError'); }")
        visit.page.goto((plain_site / TODAY).as_uri() + "#number=4327&children=6")
        visit.page.locator("[data-go=next]").click()
        expect(visit.page.locator("#movement-now")).to_contain_text("Movement 1 of")
