"""A lesson as it is presented: one part a screen, by keys, links and touch, and as a plain page without scripts."""

import re
from collections.abc import Iterator
from itertools import product
from pathlib import Path

import pytest
from playwright.sync_api import Browser, CDPSession, Page, expect

from tests.browser.conftest import ends, visiting
from tests.browser.test_accessible import A_VIEW, SMALL_TARGETS, TARGET, axe_faults
from tests.sampling import only_in_a_whole_run, sample

LESSON = "5230-among-4"
SCREENS = ["set-out", "thousands", "thousands-bank", "hundreds", "tens", "tens-bank", "units", "finished", "check"]
"""5,230 among four: a thousand stays in the middle, twelve hundreds go round, three tens go round nowhere."""

PLACES_DRAWN = ".is-presented:not(#present-finished) figure img:visible"
BOXES = """images => images.map(image => {
  const { x, y, width, height } = image.getBoundingClientRect();
  return [x, y, width, height, image.width, image.height, image.naturalWidth, image.naturalHeight].join();
})"""
"""Where a figure lies on the screen and how large it is of itself."""

STATUS = ".presenting-foot [role=status]"


def address(plain_site: Path, screen: str = "", lesson: str = LESSON) -> str:
    page = next(plain_site.glob(f"lessons/*/{lesson}.html"))
    return page.as_uri() + (f"#present-{screen}" if screen else "")


@pytest.fixture
def page(chromium: Browser, plain_site: Path) -> Iterator[Page]:
    """5,230 among four, presented from the beginning; at the end nothing may have gone wrong."""
    with visiting(chromium, viewport={"width": 1366, "height": 768}) as visit:
        visit.page.goto(address(plain_site, "set-out"))
        yield visit.page
        assert (visit.outside, visit.errors) == ([], [])


def presents(page: Page, part: str) -> None:
    """Several parts are seen until the page has heard of its address, and a check of one of several fails at once."""
    parts = page.locator(".lesson .part:visible")
    expect(parts).to_have_count(1)
    expect(parts).to_have_attribute("id", f"present-{part}")


def shown(page: Page) -> str:
    """The screen that the address names, once nothing but its part can be seen and it is announced."""
    name = str(page.evaluate("location.hash")).removeprefix("#present-")  # page.url is told of it later
    presents(page, name.removesuffix("-bank"))
    expect(page.locator(STATUS)).to_contain_text(f"{SCREENS.index(name) + 1} / {len(SCREENS)}")
    return name


def test_every_screen_is_reached_by_keys_in_order_and_announced(page: Page) -> None:
    assert page.locator(STATUS).count() == 1
    announced = []
    for key, screens in (("ArrowRight", SCREENS), ("ArrowLeft", SCREENS[::-1])):
        for screen in screens:
            assert shown(page) == screen
            announced.append(page.locator(STATUS).text_content())
            page.keyboard.press(key)
    assert len(set(announced)) == len(SCREENS)
    assert shown(page) == "set-out"


def test_every_screen_is_named_by_its_link(page: Page) -> None:
    names = [link.aria_snapshot() for link in page.locator(".presenting-head nav a").all()]
    assert len(set(names)) == len(SCREENS)
    assert 'link "Bank, Thousands: to the bank"' in names[SCREENS.index("thousands-bank")]


@only_in_a_whole_run
def test_only_what_is_presented_is_fitted_to_the_screen(page: Page) -> None:
    page.keyboard.press("Escape")
    page.evaluate("delete document.documentElement.dataset.type")
    page.set_viewport_size({"width": 1000, "height": 500})
    page.evaluate("new Promise(requestAnimationFrame)")
    assert page.evaluate("document.documentElement.dataset.type") is None
    page.evaluate("location.hash = 'present-thousands'")
    assert shown(page) == "thousands"
    assert page.evaluate("document.documentElement.dataset.type")


KEYS = [
    (["End"], "check"),
    (["End", "Home"], "set-out"),
    (["PageDown", "ArrowDown", " "], "hundreds"),
    (["End", "PageUp", "ArrowUp"], "units"),
    (["Home", "Control+ArrowRight", "Shift+End", "x"], "set-out"),
]


def test_keys(page: Page) -> None:
    for keys, screen in KEYS:
        page.keyboard.press("Home")
        for key in keys:
            page.keyboard.press(key)
        assert shown(page) == screen, keys


@only_in_a_whole_run
def test_what_goes_to_the_bank_has_a_screen_of_its_own(page: Page) -> None:
    for screen in ("thousands", "thousands-bank"):
        page.keyboard.press("ArrowRight")
        assert shown(page) == screen
        said = page.locator(".is-presented :is(.words, .hands) [data-moment]:visible")
        assert [part.get_attribute("data-moment") for part in said.all()] == [screen] * 2
        figure = "thousands-part-2.svg" if screen.endswith("-bank") else "thousands-part-1.svg"
        expect(page.locator(".is-presented figure img:visible")).to_have_attribute("src", re.compile(f"-{figure}$"))


@only_in_a_whole_run
def test_with_ribbons_every_trip_to_the_bank_is_one_moment(chromium: Browser, plain_site: Path) -> None:
    """4,891 for twenty-three: a ten goes before the first round of units. 3,432 for twelve: two trips at the tens."""
    lessons = {
        "4891-for-23": ["units-bank", "units"],
        "3432-for-12": ["tens", "tens-bank", "tens-2", "tens-bank-2", "tens-3"],
    }
    with visiting(chromium, viewport={"width": 1366, "height": 768}) as visit:
        for lesson, screens in lessons.items():
            visit.page.goto(address(plain_site, screens[0], lesson))
            place = screens[-1].partition("-")[0]
            for number, screen in enumerate(screens, start=1):
                assert visit.page.evaluate("location.hash") == f"#present-{screen}"
                hands = visit.page.locator(".is-presented .hands [data-moment]:visible")
                expect(hands).to_have_attribute("data-moment", screen)
                assert ("to the bank" in hands.inner_text()) == ("-bank" in screen)
                drawn = visit.page.locator(".is-presented figure img:visible")
                expect(drawn).to_have_attribute("src", re.compile(f"-{place}-part-{number}.svg$"))
                visit.page.keyboard.press("ArrowRight")


# Waits until the page has stood still for ten frames: a browser adds what is left of a glide to wherever we scroll.
GLIDE_HAS_ENDED = """() => new Promise((done) => {
  let [last, same] = [-1, 0];
  const look = () => {
    same = scrollY === last ? same + 1 : 0;
    last = scrollY;
    if (same > 10) done();
    else requestAnimationFrame(look);
  };
  look();
})"""


@only_in_a_whole_run
def test_keys_that_scroll_turn_the_page_only_where_nothing_is_left_to_scroll(page: Page) -> None:
    page.set_viewport_size({"width": 390, "height": 300})
    at_the_end = "() => scrollY + innerHeight > document.documentElement.scrollHeight - 2"
    page.keyboard.press("PageDown")
    page.wait_for_function("() => scrollY > 0")
    page.evaluate(GLIDE_HAS_ENDED)
    assert shown(page) == "set-out"
    page.evaluate("scrollTo(0, document.documentElement.scrollHeight)")
    page.wait_for_function(at_the_end)
    page.keyboard.press("PageDown")
    assert shown(page) == "thousands"
    assert page.evaluate("scrollY") == 0
    page.evaluate("scrollTo(0, document.documentElement.scrollHeight)")
    page.wait_for_function(at_the_end)
    page.keyboard.press("ArrowUp")
    page.evaluate(GLIDE_HAS_ENDED)
    assert shown(page) == "thousands"


@only_in_a_whole_run
def test_escape_returns_to_the_place_on_the_page_of_the_lesson(page: Page) -> None:
    for key in ("ArrowRight", "ArrowRight", "ArrowRight", "Escape"):
        page.keyboard.press(key)
    expect(page).to_have_url(ends("#hundreds"))
    expect(page.locator("#hundreds")).to_be_in_viewport()
    expect(page.locator("#hundreds")).to_be_focused()
    expect(page.locator(".lesson-head")).to_be_visible()
    expect(page.locator(".presenting-head")).to_be_hidden()
    page.keyboard.press("ArrowRight")
    expect(page).to_have_url(ends("#hundreds"))


def test_what_helps_where_something_is_not_right_is_one_click_away(page: Page) -> None:
    page.keyboard.press("ArrowRight")
    page.get_by_role("link", name="Not right?").and_(page.locator(".presenting-head a")).click()
    expect(page.locator("#if-it-does-not-come-out")).to_be_focused()
    expect(page.locator("#if-it-does-not-come-out")).to_be_in_viewport()
    expect(page.locator(".presenting-head")).to_be_hidden()
    page.go_back()
    assert shown(page) == "thousands"
    page.get_by_role("link", name="Not right?").and_(page.locator(".presenting-head a")).click()
    page.get_by_role("link", name="Back to what you were presenting").click()
    assert shown(page) == "thousands"
    page.keyboard.press("Escape")
    expect(page.locator(".present-again")).to_be_hidden()


@only_in_a_whole_run
def test_help_in_an_emergency_is_one_click_away(page: Page) -> None:
    page.keyboard.press("ArrowRight")
    page.get_by_role("link", name="Emergency").and_(page.locator(".presenting-foot a")).click()
    expect(page).to_have_url(re.compile(r"/when-it-goes-wrong/emergency\.html$"))
    page.go_back()
    assert shown(page) == "thousands"


@only_in_a_whole_run
def test_the_address_holds_where_it_is_and_going_back_leaves_it(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium) as visit:
        page = visit.page
        page.goto(address(plain_site))
        page.get_by_role("link", name="Present it").click()
        assert shown(page) == SCREENS[0]
        for screen in SCREENS[1:5]:
            page.keyboard.press("ArrowRight")
            assert shown(page) == screen
        page.reload()
        assert shown(page) == "tens"
        page.go_back()
        expect(page.locator(".lesson-head")).to_be_visible()
        expect(page).to_have_url(address(plain_site))
        assert page.evaluate("[localStorage.length, sessionStorage.length, document.cookie]")[2] == ""


def test_who_goes_on_by_keys_hears_each_screen_from_its_heading_on(page: Page) -> None:
    for screen in ("thousands", "thousands-bank", "hundreds"):
        page.keyboard.press("ArrowRight")
        assert shown(page) == screen
        expect(page.locator(f"#{screen.removesuffix('-bank')}")).to_be_focused()


def test_who_begins_to_present_hears_the_first_screen(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium) as visit:
        visit.page.goto(address(plain_site))
        visit.page.get_by_role("link", name="Present it").press("Enter")
        expect(visit.page.locator("#set-out")).to_be_focused()


def test_on_a_phone_the_place_is_marked_also_at_its_bank(page: Page) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.evaluate("location.hash = 'present-tens-bank'")
    assert shown(page) == "tens-bank"
    links = page.locator(".presenting-head nav a:visible")
    marked = links.evaluate_all("all => all.filter(one => getComputedStyle(one).boxShadow !== 'none')")
    assert len(marked) == 1
    place = page.get_by_role("link", name="10, Tens", exact=True)
    expect(place).to_have_class(re.compile("is-of-this-part"))
    expect(place).to_be_in_viewport(ratio=1)
    assert len(set(links.evaluate_all("all => all.map(one => one.offsetTop)"))) == 1


@only_in_a_whole_run
def test_who_goes_on_by_a_link_stays_on_that_link(page: Page) -> None:
    for way, screens in (("next", SCREENS[1:4]), ("back", SCREENS[2:0:-1])):
        link = page.locator(f".presenting-foot .{way}")
        link.focus()
        for screen in screens:
            page.keyboard.press("Enter")
            assert shown(page) == screen
            expect(link).to_be_focused()


@only_in_a_whole_run
def test_where_there_is_no_way_on_the_focus_is_on_the_way_back(page: Page) -> None:
    back, on = (page.locator(f".presenting-foot .{way}") for way in ("back", "next"))
    page.evaluate("screen => { location.hash = `present-${screen}`; }", SCREENS[-2])
    assert shown(page) == SCREENS[-2]
    on.focus()
    page.keyboard.press("Enter")
    assert shown(page) == SCREENS[-1]
    expect(back).to_be_focused()
    page.keyboard.press("Home")
    assert shown(page) == SCREENS[0]
    expect(on).to_be_focused()


@only_in_a_whole_run
def test_a_finger_turns_the_page_and_a_small_movement_does_not(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium, viewport={"width": 820, "height": 1180}, has_touch=True) as visit:
        page = visit.page
        page.goto(address(plain_site, "set-out"))
        page.locator(".presenting-foot .next").tap()
        assert shown(page) == "thousands"
        session = page.context.new_cdp_session(page)
        for start, end, screen in (
            ((600, 500), (300, 510), "thousands-bank"),
            ((600, 500), (560, 500), "thousands-bank"),
            ((600, 500), (500, 300), "thousands-bank"),
        ):
            touch(session, [start], [end])
            assert shown(page) == screen
        page.keyboard.press("End")
        table = page.locator(".is-presented .table-scroll")
        table.locator("table").evaluate("table => { table.style.minWidth = '2000px'; }")  # a finger scrolls it
        across = [(round(x), round(table.bounding_box()["y"]) + 60) for x in (300, 600)]  # type: ignore[index]
        touch(session, *([point] for point in across))
        assert shown(page) == SCREENS[-1]
        assert page.evaluate("getComputedStyle(document.documentElement).overscrollBehaviorX") == "none"
        assert visit.errors == []


@only_in_a_whole_run
def test_two_taps_in_a_row_skip_no_screen(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium, own=True, viewport={"width": 820, "height": 1180}, has_touch=True) as visit:
        visit.page.clock.install(time=0)
        visit.page.goto(address(plain_site, "set-out"))
        visit.page.clock.pause_at(60_000)  # however long two taps take a busy machine
        following = visit.page.locator(".presenting-foot .next")
        for _ in range(2):
            following.tap()
        assert shown(visit.page) == SCREENS[1]
        visit.page.clock.run_for(301)
        following.tap()
        assert shown(visit.page) == SCREENS[2]


def test_two_clicks_turn_two_screens_and_a_key_that_is_held_turns_one(page: Page) -> None:
    page.locator(".presenting-foot .next").dblclick()
    assert shown(page) == SCREENS[2]
    for _ in range(3):
        page.keyboard.down("ArrowRight")
    page.keyboard.up("ArrowRight")
    assert shown(page) == SCREENS[3]


@only_in_a_whole_run
def test_a_finger_moves_an_enlarged_page_and_turns_none(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium, own=True, viewport={"width": 820, "height": 1180}, has_touch=True) as visit:
        visit.page.goto(address(plain_site, "set-out"))
        session = visit.page.context.new_cdp_session(visit.page)
        across = [[(x, 500)] for x in range(600, 299, -30)]
        for scale, screen in ((2, "set-out"), (2, "set-out"), (1, "thousands")):  # first to its edge, then against it
            session.send("Emulation.setPageScaleFactor", {"pageScaleFactor": scale})
            touch(session, *across)
            assert shown(visit.page) == screen


def touch(session: CDPSession, *moments: list[tuple[int, int]]) -> None:
    """Fingers touch, move and are lifted: where they are at each moment."""
    kinds = ["touchStart", *["touchMove"] * (len(moments) - 1), "touchEnd"]
    for kind, points in zip(kinds, [*moments, []], strict=True):
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [{"x": x, "y": y} for x, y in points]})


FULL_SCREEN = {
    "allowed": "",
    "refused": "Element.prototype.requestFullscreen = () => Promise.reject(new TypeError('refused'));",
    "not there": "Object.defineProperty(Document.prototype, 'fullscreenEnabled', { get: () => false });",
}


@only_in_a_whole_run
@pytest.mark.parametrize("how", sample(FULL_SCREEN, 2))
def test_full_screen_is_offered_only_where_it_is_and_refusal_does_no_harm(
    how: str, chromium: Browser, plain_site: Path
) -> None:
    with visiting(chromium, own=True) as visit:
        visit.page.add_init_script(FULL_SCREEN[how])
        visit.page.goto(address(plain_site, "set-out"))
        button = visit.page.get_by_role("button", name="Full screen")
        expect(button).to_have_count(0 if how == "not there" else 1)
        if how != "not there":
            button.click()
            visit.page.keyboard.press("ArrowRight")
            assert shown(visit.page) == "thousands"
        if how == "allowed":
            visit.page.wait_for_function("() => document.fullscreenElement")
            button.click()
            visit.page.wait_for_function("() => !document.fullscreenElement")
            visit.page.evaluate("location.hash = 'set-out'")
            visit.page.evaluate("location.hash = 'present-set-out'")
            expect(button).to_be_visible()
            button.click()
            visit.page.wait_for_function("() => document.fullscreenElement")
            visit.page.go_back()
            visit.page.wait_for_function("() => !document.fullscreenElement")
        assert visit.errors == []


@only_in_a_whole_run
def test_without_scripts_the_address_leads_to_the_part_of_the_page(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium, java_script_enabled=False) as visit:
        for screen in ("set-out", "hundreds", "tens-bank", "check"):
            visit.page.goto(address(plain_site, screen))
            expect(visit.page.locator(f"#present-{screen}")).to_be_in_viewport()
            expect(visit.page.locator(".presenting-foot")).to_be_hidden()
        visit.page.goto(address(plain_site))
        visit.page.get_by_role("link", name="Present it").click()
        expect(visit.page.locator("#set-out")).to_be_in_viewport()


@only_in_a_whole_run
@pytest.mark.parametrize(("scheme", "width"), A_VIEW)
def test_it_is_accessible_and_no_screen_scrolls_sideways(
    scheme: str, width: int, chromium: Browser, plain_site: Path
) -> None:
    with visiting(chromium, color_scheme=scheme, viewport={"width": width, "height": 768}) as visit:
        visit.page.goto(address(plain_site, "set-out"))
        for screen in SCREENS:
            assert shown(visit.page) == screen
            assert visit.page.evaluate("document.documentElement.scrollWidth") <= width
            assert visit.page.locator(".lesson-head > :not(h1):visible").count() == 0
            visit.page.keyboard.press("ArrowRight")
        assert axe_faults(visit.page) == []
        assert visit.page.evaluate(SMALL_TARGETS, TARGET) == []


@pytest.mark.parametrize(
    ("lesson", "size"),
    sample(product(["2770-for-123", "3108-for-111", "1476-among-12"], [(1366, 768), (820, 1180)]), 1),
)
def test_screens_with_most_words_and_trays_need_no_scrolling_and_no_place_moves(
    lesson: str, size: tuple[int, int], chromium: Browser, plain_site: Path
) -> None:
    drawn = set()
    with visiting(chromium, viewport={"width": size[0], "height": size[1]}) as visit:
        visit.page.goto(address(plain_site, "set-out", lesson))
        for link in visit.page.locator(".presenting-head nav a").all():
            expect(link).to_have_attribute("aria-current", "step")
            overhang = "document.documentElement.scrollHeight - document.documentElement.clientHeight"
            assert visit.page.evaluate(overhang) <= 0, link.get_attribute("href")
            drawn.update(visit.page.locator(PLACES_DRAWN).evaluate_all(BOXES))
            visit.page.keyboard.press("ArrowRight")
    assert len(drawn) == 1, drawn


SIZE = "one => parseFloat(getComputedStyle(one).fontSize)"


@only_in_a_whole_run
def test_on_a_phone_what_is_said_is_large_enough(page: Page) -> None:
    """Both ways round; on its side the figure stands beside the words, and takes more than half of the width."""
    page.keyboard.press("ArrowRight")
    assert shown(page) == "thousands"
    for width, height in ((390, 844), (320, 640), (844, 390)):
        page.set_viewport_size({"width": width, "height": height})
        page.evaluate("new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))")  # is fitted
        said = page.locator(".is-presented .say:visible").first.evaluate(SIZE)
        assert said >= max(16, page.locator(".is-presented .hands").evaluate(SIZE))
        figure = page.locator(".is-presented figure img:visible").bounding_box()
        assert figure
        assert figure["width"] > width / 2
        feet = [page.locator(f".presenting-foot .{way}").bounding_box() for way in ("back", "next")]
        assert len({box and box["y"] for box in feet}) == 1, "one row"
