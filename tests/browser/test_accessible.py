"""WCAG 2.2 AA on every kind of page, light and dark, at the widths of a desk screen, a telephone and 400 % zoom."""

from pathlib import Path
from typing import Any, NamedTuple

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped]
from playwright.sync_api import Browser, Page, expect

from generator.site import school_look
from generator.site.book import BOOK
from generator.source.theme import Colours, Theme
from tests.browser.conftest import altered, result_for, visiting
from tests.sampling import only_in_a_whole_run, sample

WIDTHS = (1366, 390, 320)
SCHEMES = {"light": "default", "dark": "slate"}
VIEWS = tuple((scheme, width) for scheme in SCHEMES for width in WIDTHS)
SOME_VIEWS = sample(VIEWS, 2)
A_VIEW = sample(VIEWS[1::2], 1)  # for what a page does: every width, and both colours
A_WIDTH = sample(WIDTHS, 1)
HEIGHT = 900

# The smallest target that WCAG 2.2 (2.5.8) allows, in CSS pixels. A link within a line of text is excepted there.
TARGET = 24
SMALL_TARGETS = """least => [...document.querySelectorAll(
        'a[href], button, summary, label, input:not([type=hidden]):not(.md-toggle)')]
    .filter(one => one.checkVisibility({visibilityProperty: true, opacityProperty: true}))
    .filter(one => getComputedStyle(one).display !== 'inline')
    .map(one => [one.outerHTML.slice(0, 90), one.getBoundingClientRect()])
    .filter(([_, box]) => box.width && box.height && (box.width < least || box.height < least))
    .map(([what, box]) => `${what} ${box.width} x ${box.height}`)"""

# Waits for the end of every transition that has begun.
NOTHING_MOVES = "Promise.allSettled(document.getAnimations().map(one => one.finished)).then(all => all.length)"

MENU = ".menu > summary"

A_Z = "reference/a-z.html"
UNFOLD = "document.querySelectorAll('details').forEach(one => { one.open = true; })"


def axe_faults(page: Page, part: str | None = None) -> list[str]:
    """What axe finds on a page or, much sooner, in the parts of it that a selector names."""
    response = Axe().run(page, part, options={"resultTypes": ["violations"]}).response
    assert response["passes"], "axe looked at nothing"
    return [
        f"{page.url}: {fault['id']}: {node['target']} {node['failureSummary']}"
        for fault in response["violations"]
        for node in fault["nodes"]
    ]


@pytest.mark.parametrize(("scheme", "width"), SOME_VIEWS)
def test_every_kind_of_page(scheme: str, width: int, chromium: Browser, plain_site: Path, kinds: list[str]) -> None:
    """In every other view, so that each page is seen at every width and in both colours."""
    faults = []
    with visiting(chromium, viewport={"width": width, "height": HEIGHT}, color_scheme=scheme) as visit:
        for page in sample(kinds, 4)[SOME_VIEWS.index((scheme, width)) % 2 :: 2]:
            visit.page.goto((plain_site / page).as_uri())
            if visit.page.locator(".md-header").count():
                assert visit.page.locator("body").get_attribute("data-md-color-scheme") == SCHEMES[scheme]
            if page != A_Z:  # its letters are all alike, and together as long as fifteen other pages
                visit.page.evaluate(UNFOLD)
            faults += axe_faults(visit.page)
            faults += [f"{page}: too small: {target}" for target in visit.page.evaluate(SMALL_TARGETS, TARGET)]
            if visit.page.evaluate("document.documentElement.scrollWidth") > width:
                faults.append(f"{page}: scrolls sideways at {width} pixels")
    assert faults == []


# What is reached for in a hurry, or with a thumb: 44 CSS pixels each way (WCAG 2.2, 2.5.5).
LARGE_TARGET = 44
IN_THE_FRAME = ".head a, .head summary, .head .find, .foot a, .number-cards a, .large-links a, .doors a, .alarm a"
SMALLER = """(targets, least) => targets.map(one => [one.outerHTML.slice(0, 90), one.getBoundingClientRect()])
    .filter(([_, box]) => box.width && (box.width < least || box.height < least))
    .map(([what, box]) => `${what} ${box.width} x ${box.height}`)"""


@pytest.mark.parametrize("width", A_WIDTH)
def test_what_leads_on_is_large_and_help_is_seen_at_once(width: int, chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium, viewport={"width": width, "height": HEIGHT}) as visit:
        for page in ("index.html", "new-here/the-room.html"):
            visit.page.goto((plain_site / page).as_uri())
            visit.page.locator(MENU).click()
            targets = visit.page.locator(IN_THE_FRAME)
            assert targets.count() > 20
            assert targets.evaluate_all(SMALLER, LARGE_TARGET) == []
            visit.page.mouse.wheel(0, 2000)
            expect(visit.page.locator(".emergency")).to_be_in_viewport(ratio=1)


@only_in_a_whole_run
def test_the_book_of_all_pages(chromium: Browser, light_site: Path) -> None:
    with visiting(chromium) as visit:
        visit.page.goto((light_site / BOOK).as_uri())
        for width in WIDTHS:
            visit.page.set_viewport_size({"width": width, "height": HEIGHT})
            assert visit.page.evaluate("document.documentElement.scrollWidth") <= width
        assert axe_faults(visit.page) == []


@pytest.mark.parametrize(("scheme", "width"), A_VIEW)
def test_search_results_and_the_open_menu(scheme: str, width: int, chromium: Browser, site: Path) -> None:
    with visiting(chromium, viewport={"width": width, "height": HEIGHT}, color_scheme=scheme) as visit:
        visit.page.goto((site / "index.html").as_uri())
        visit.page.locator(MENU).click()
        expect(visit.page.locator(".menu-sheet")).to_be_visible()
        assert axe_faults(visit.page) == []
        visit.page.keyboard.press("Escape")
        expect(visit.page.locator(".menu-sheet")).to_be_hidden()
        visit.page.locator(MENU).click()
        visit.page.evaluate("dispatchEvent(new Event('pagehide'))")  # a browser may keep the page as it is left
        expect(visit.page.locator(".menu-sheet")).to_be_hidden()
        if width < 960:
            visit.page.locator("label[for=__search].md-header__button").click()
        visit.search("bank")
        visit.page.evaluate(NOTHING_MOVES)
        assert axe_faults(visit.page) == []


# The palest colours that a school may choose: 4.5 to 1 against white.
PALE = {"header": "#767676", "links": "#767676"}


@only_in_a_whole_run
@pytest.mark.parametrize("scheme", sample(SCHEMES, 1))
def test_a_schools_own_colours_can_be_read(scheme: str, chromium: Browser, light_site: Path, tmp_path: Path) -> None:
    style = school_look.files(Theme(colours=Colours(**PALE)))["css/school.css"].decode()
    copy = altered(light_site, tmp_path / "site", "css/school.css", lambda _: style)
    with visiting(chromium, color_scheme=scheme) as visit:
        visit.page.goto((copy / "index.html").as_uri())
        header = visit.page.locator(".md-header").evaluate("one => getComputedStyle(one).backgroundColor")
        assert header == "rgb(118, 118, 118)"
        for page in ("index.html", "reference/a-z.html"):
            visit.page.goto((copy / page).as_uri())
            assert axe_faults(visit.page) == []


def test_the_reader_can_choose_dark_and_every_page_keeps_to_it(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium, color_scheme="light") as visit:
        visit.page.goto((plain_site / "index.html").as_uri())
        visit.page.locator(MENU).click()
        visit.page.get_by_label("Dark colours").check()
        for page in ("index.html", "reference/a-z.html"):
            visit.page.goto((plain_site / page).as_uri())
            assert visit.page.locator("body").get_attribute("data-md-color-scheme") == "slate"
        assert visit.errors == []


# Says where the focus is: as soon as it is seen there, or at the latest after two seconds.
FOCUS = """async () => {
    const one = document.activeElement;
    const end = performance.now() + 2000;
    while (true) {
        const box = one.getBoundingClientRect();
        const style = getComputedStyle(one);
        const seen = box.right > 0 && box.bottom > 0 && box.left < innerWidth && box.top < innerHeight
            && one.checkVisibility({visibilityProperty: true, opacityProperty: true});
        const outlined = style.outlineStyle === 'solid' && parseFloat(style.outlineWidth) >= 2;
        if (one === document.body || seen && outlined || performance.now() > end) return {
            what: one === document.body ? '' : one.outerHTML.slice(0, 90), text: one.textContent.trim(), seen, outlined
        };
        await new Promise(requestAnimationFrame);
    }
}"""


@pytest.mark.parametrize("width", A_WIDTH)
def test_with_the_keyboard_alone_every_stop_is_seen(width: int, chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium, viewport={"width": width, "height": HEIGHT}, reduced_motion="reduce") as visit:
        visit.page.goto((plain_site / "index.html").as_uri())
        stops = []
        for _ in range(200):
            visit.page.keyboard.press("Tab")
            stops.append(visit.page.evaluate(FOCUS))
            if not stops[-1]["what"]:
                break
        assert not stops.pop()["what"], "the last stop leads out of the page"
        assert stops[0]["text"] == "Skip to content"
        assert len(stops) > 6
        assert [stop for stop in stops if not (stop["seen"] and stop["outlined"])] == []


WIDER_THAN_THE_PAGE = """() => [...document.querySelectorAll('table')]
    .filter(one => one.checkVisibility() && !one.closest('.ledger'))
    .filter(one => one.getBoundingClientRect().width > one.closest('article').clientWidth + 1)
    .map(one => one.caption.textContent)"""


class Opened(NamedTuple):
    """A page on a desk: where the first press of Tab leads, and the tables that are wider than it, by its width."""

    first_stop: dict[str, Any]
    too_wide: dict[int, list[str]]


@pytest.fixture(scope="module")
def opened(chromium: Browser, plain_site: Path, kinds: list[str]) -> dict[str, Opened]:
    """Every kind of page, and two with much in the heads of their rows, each opened once for all that is asked here."""
    opened = {}
    with visiting(chromium, reduced_motion="reduce") as visit:
        for page in ("new-here/watching.html", "for-the-school/change-the-shelf.html", *sample(kinds, 4)):
            visit.page.goto((plain_site / page).as_uri())
            visit.page.keyboard.press("Tab")
            first_stop = visit.page.evaluate(FOCUS)
            too_wide = {}
            for width in (1000, 1366):
                visit.page.set_viewport_size({"width": width, "height": HEIGHT})
                too_wide[width] = visit.page.evaluate(WIDER_THAN_THE_PAGE)
            opened[page] = Opened(first_stop, too_wide)
    return opened


def test_the_first_stop_of_every_kind_of_page_skips_to_what_it_is_about(opened: dict[str, Opened]) -> None:
    stops = {page: (seen.first_stop["text"], seen.first_stop["seen"]) for page, seen in opened.items()}
    assert stops == dict.fromkeys(opened, ("Skip to content", True))


def test_where_there_is_room_a_table_of_words_is_seen_whole(opened: dict[str, Opened]) -> None:
    """A row's name may be a sentence, in a school's own pages too."""
    assert {page: seen.too_wide for page, seen in opened.items() if any(seen.too_wide.values())} == {}


def walk_to(page: Page, what: str, key: str = "Tab") -> None:
    """Press a key until the focus is on something that can be seen."""
    for _ in range(150):
        page.keyboard.press(key)
        if page.evaluate("what => document.activeElement.matches(what)", what):
            assert page.evaluate(FOCUS)["seen"]
            return
    pytest.fail(f"no way to {what}")


@only_in_a_whole_run
@pytest.mark.parametrize("width", A_WIDTH)
def test_with_the_keyboard_alone_the_menu_opens_and_leads_to_a_page(
    width: int, chromium: Browser, plain_site: Path
) -> None:
    with visiting(chromium, viewport={"width": width, "height": HEIGHT}, reduced_motion="reduce") as visit:
        menu = visit.page.locator(".menu")
        visit.page.goto((plain_site / "index.html").as_uri())
        walk_to(visit.page, MENU)
        visit.page.keyboard.press("Enter")
        expect(menu).to_have_attribute("open", "")
        visit.page.keyboard.press("Escape")
        expect(menu).not_to_have_attribute("open", "")
        expect(visit.page.locator(MENU)).to_be_focused()
        visit.page.keyboard.press("Space")
        expect(menu).to_have_attribute("open", "")
        walk_to(visit.page, ".menu nav summary")
        visit.page.keyboard.press("Space")
        expect(visit.page.locator(".menu nav details").first).to_have_attribute("open", "")
        walk_to(visit.page, ".menu nav details a")
        target = visit.page.locator(":focus").evaluate("link => link.href")
        visit.page.keyboard.press("Enter")
        visit.page.wait_for_url(target)
        assert target != (plain_site / "index.html").as_uri()
        assert visit.errors == []


@only_in_a_whole_run
@pytest.mark.parametrize("width", A_WIDTH)
def test_with_the_keyboard_alone_from_home_to_a_table_of_movements_and_back_to_search(
    width: int, chromium: Browser, site: Path
) -> None:
    with visiting(chromium, viewport={"width": width, "height": HEIGHT}, reduced_motion="reduce") as visit:
        page = visit.page
        page.goto((site / "index.html").as_uri())
        for target in ("lessons/index", "several-exchanges/index", "5372-among-4"):
            walk_to(page, f'article a[href$="{target}.html"]')
            page.keyboard.press("Enter")
            page.wait_for_url(f"**/{target}.html")
        walk_to(page, "#every-movement summary")
        page.keyboard.press("Enter")
        walk_to(page, ".table-scroll.steps")
        table = page.locator(":focus")
        assert "In the middle" in table.inner_text()
        if table.evaluate("one => one.scrollWidth > one.clientWidth"):
            page.keyboard.press("ArrowRight")
            page.wait_for_function("() => document.activeElement.scrollLeft > 0")
        walk_to(page, ".md-search__input", "Shift+Tab")
        page.keyboard.type("left over")
        page.locator(result_for("left over")).first.wait_for()
        page.keyboard.press("ArrowDown")
        found = page.locator(":focus").get_attribute("href")
        page.keyboard.press("Enter")
        page.wait_for_url(f"{found}**")
        assert visit.errors == []


def test_a_long_word_for_a_person_breaks_where_the_screen_is_narrow(chromium: Browser, plain_site: Path) -> None:
    """Else it takes the room of what is said about that person."""
    room = """word => { const table = document.querySelector('#roles-table').parentElement
        table.querySelector('tbody th').textContent = word
        return table.parentElement.clientWidth - table.offsetWidth }"""
    with visiting(chromium, viewport={"width": 390, "height": HEIGHT}) as visit:
        visit.page.goto((plain_site / "new-here" / "the-roles.html").as_uri())
        assert visit.page.evaluate(room, "Dezimalsystemlernbegleiterin") >= 0


def test_nothing_moves_for_a_reader_who_asks_for_that(chromium: Browser, plain_site: Path) -> None:
    longest = """Math.max(...[...document.querySelectorAll('*')].map(
        one => Math.max(...getComputedStyle(one).transitionDuration.split(',').map(parseFloat))))"""
    with visiting(chromium) as visit:
        visit.page.goto((plain_site / "index.html").as_uri())
        assert visit.page.evaluate(longest) > 0.01
        visit.page.emulate_media(reduced_motion="reduce")
        assert visit.page.evaluate(longest) <= 0.01


FONT_SIZE = "parseFloat(getComputedStyle(document.documentElement).fontSize)"


def test_with_larger_text_a_phone_shows_the_whole_head(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium, own=True, viewport={"width": 390, "height": 844}) as visit:
        session = visit.page.context.new_cdp_session(visit.page)
        for page in ("index.html", "today.html"):
            visit.page.goto((plain_site / page).as_uri())
            for size in (22, 32):
                session.send("Page.setFontSizes", {"fontSizes": {"standard": size, "fixed": size}})
                assert visit.page.evaluate(FONT_SIZE) > size  # the theme takes a little more than what is asked for
                assert visit.page.evaluate("document.documentElement.scrollWidth") <= 390, (page, size)
                expect(visit.page.locator(".emergency")).to_be_in_viewport(ratio=1)


# What a reader may ask for without losing anything (WCAG 2.2, 1.4.12).
SPACED_WIDE = """() => {
    const spaced = new CSSStyleSheet();
    spaced.replaceSync(`* { line-height: 1.5 !important; letter-spacing: .12em !important;
        word-spacing: .16em !important; } p { margin-bottom: 2em !important; }`);
    document.adoptedStyleSheets = [spaced];
}"""


@only_in_a_whole_run
def test_with_text_set_wide_the_whole_head_is_shown(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium) as visit:
        visit.page.goto((plain_site / "today.html").as_uri())
        visit.page.evaluate(SPACED_WIDE)
        for width in (320, 390, 1024, 1280, 1366):
            visit.page.set_viewport_size({"width": width, "height": HEIGHT})
            assert visit.page.evaluate("document.documentElement.scrollWidth") <= width, width
            expect(visit.page.locator(".emergency")).to_be_in_viewport(ratio=1)
            brand = visit.page.locator(".brand").bounding_box()
            assert brand
            assert brand["width"] >= (140 if width >= 1280 else LARGE_TARGET)


@only_in_a_whole_run
def test_a_long_name_of_a_school_is_not_cut(chromium: Browser, plain_site: Path) -> None:
    """At widths where its head has little room; below the smallest the name is only heard."""
    named = """name => { const shown = document.querySelector(".brand span"); shown.textContent = name;
        return shown.scrollHeight <= shown.clientHeight + 1 && shown.scrollWidth <= shown.clientWidth; }"""
    with visiting(chromium, own=True) as visit:
        visit.page.goto((plain_site / "new-here/the-room.html").as_uri())
        for width in (390, 768, 1024, 1200, 1280, 1366):
            visit.page.set_viewport_size({"width": width, "height": HEIGHT})
            for name in ("Quillbrook Free School Community", "The Old Orchard Lane Primary School"):
                assert visit.page.evaluate(named, name), (width, name)


def test_a_phone_shows_what_may_have_happened_without_scrolling_a_table(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium, viewport={"width": 320, "height": 640}) as visit:
        visit.page.goto((plain_site / "when-it-goes-wrong" / "total-does-not-come-back.html").as_uri())
        for table in visit.page.locator(".slips").all():
            assert table.evaluate("one => one.scrollWidth <= one.clientWidth")
