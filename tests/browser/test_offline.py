"""Opened from disk, with no network and with a network that never answers."""

import socket
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from tests.browser.conftest import Launch, altered, visiting
from tests.sampling import only_in_a_whole_run, sample, spread, times


@pytest.fixture(scope="module")
def silent_proxy() -> Iterator[str]:
    """The address of a proxy that takes every connection and never says a word."""
    with socket.socket() as server:
        server.bind(("127.0.0.1", 0))
        server.listen(64)
        yield f"http://127.0.0.1:{server.getsockname()[1]}"


@pytest.fixture(scope="module", params=sample(["unreachable", "silent proxy"], 1))
def offline(request: pytest.FixtureRequest, launch: Launch, chromium: Browser) -> Browser:
    if request.param == "unreachable":
        return chromium
    return launch(f"--proxy-server={request.getfixturevalue('silent_proxy')}", "--proxy-bypass-list=<-loopback>")


PAINTED = """() => new Promise(done => {
  setTimeout(done, 10_000, "nothing in ten seconds");
  new PerformanceObserver(list => done(list.getEntries()[0].name)).observe({ type: "paint", buffered: true });
})"""


def test_pages_open_ask_nobody_and_do_not_complain(
    offline: Browser, chromium: Browser, site: Path, pages: list[str], kinds: list[str]
) -> None:
    """Pages of every part, of the lessons the smallest and the largest; a few where nobody answers.

    Another test opens every lesson, with little to search.
    """
    with visiting(offline) as visit:
        others = [page for page in pages if not Path(page).match("lessons/*/*-*.html")]
        lessons = [page for page in kinds if page not in others]
        asked = [*lessons, *spread(others, times(12, 2))] if offline is chromium else spread(kinds, times(6, 3))
        for page in asked:
            visit.page.goto((site / page).as_uri())
            assert visit.page.locator("h1").first.is_visible(), page
            assert visit.page.evaluate(PAINTED) == "first-paint", page
        assert visit.outside == []
        assert visit.errors == []


def test_search_answers_on_every_kind_of_page(chromium: Browser, site: Path, kinds: list[str]) -> None:
    for page in spread(kinds, times(4, 1)):
        with visiting(chromium) as visit:
            visit.page.goto((site / page).as_uri())
            found = visit.search("bank")
            assert all(address.startswith(site.as_uri()) for address in found)
            assert not visit.page.locator("#search-help").is_visible()
            visit.page.locator(".md-search-result__link").first.click()
            visit.page.wait_for_load_state()
            assert visit.page.url.startswith(site.as_uri())
            assert visit.outside == []
            assert visit.errors == []


@only_in_a_whole_run
def test_search_answers_where_the_browser_keeps_nothing(chromium: Browser, site: Path) -> None:
    """As with cookies blocked, where asking for what is kept is an error."""
    refused = "Object.defineProperty(window, 'localStorage', {configurable: true, get() { throw new DOMException(); }})"
    with visiting(chromium, own=True) as visit:
        visit.page.add_init_script(refused)
        visit.page.goto((site / "index.html").as_uri())
        assert visit.search("exchange")
        assert visit.errors == []


@only_in_a_whole_run
def test_a_result_opens_with_the_keyboard(chromium: Browser, site: Path) -> None:
    with visiting(chromium) as visit:
        visit.page.goto((site / "index.html").as_uri())
        first = visit.search("remainder")[0]
        visit.page.keyboard.press("ArrowDown")
        visit.page.keyboard.press("Enter")
        visit.page.wait_for_url(f"{first}**")
        assert visit.errors == []


BROKEN = {
    "the worker is missing": "window.searchWorker = undefined;",
    "the worker has a fault": 'window.searchWorker = "syntax error(";',
    "the browser has no workers": "delete window.Worker;",
    "the browser refuses workers": "window.Worker = function () { throw new Error('no'); };",
}


@pytest.mark.parametrize("broken", sample(BROKEN, 1))
def test_when_search_cannot_run_a_visible_line_leads_to_the_a_z(
    broken: str, chromium: Browser, site: Path, tmp_path: Path
) -> None:
    copy = altered(site, tmp_path / "site", "js/search-worker.js", lambda text: text + BROKEN[broken])
    with visiting(chromium) as visit:
        visit.page.goto((copy / "index.html").as_uri())
        help_line = visit.page.locator("#search-help")
        help_line.wait_for(state="visible")
        help_line.get_by_role("link").click()
        expect(visit.page).to_have_url((copy / "reference" / "a-z.html").as_uri())
        assert visit.outside == []


@only_in_a_whole_run
def test_nothing_is_said_of_search_and_nothing_moves_before_it_has_started(chromium: Browser, site: Path) -> None:
    """The theme's own script starts the search, and is the last that a page loads."""
    where = "one => one.getBoundingClientRect().toJSON()"
    with visiting(chromium, own=True) as visit:
        visit.page.route("**/assets/javascripts/bundle*", lambda route: route.abort())
        visit.page.goto((site / "index.html").as_uri())
        assert not visit.page.locator("#search-help").is_visible()
        before = visit.page.locator("h1, .ways").evaluate_all(f"all => all.map({where})")
        visit.page.unroute_all()
        visit.page.reload()
        visit.page.locator(".md-search__input").wait_for()
        assert visit.page.locator("h1, .ways").evaluate_all(f"all => all.map({where})") == before


def test_with_scripts_off_the_page_is_whole_and_says_where_to_look(
    chromium: Browser, site: Path, kinds: list[str]
) -> None:
    with visiting(chromium, java_script_enabled=False) as visit:
        for page in sample(kinds, 2):
            visit.page.goto((site / page).as_uri())
            assert visit.page.locator("h1").first.is_visible()
        visit.page.goto((site / "index.html").as_uri())
        assert visit.page.locator("#search-help").is_visible()
        visit.page.locator("article a").first.click()
        assert visit.page.url.startswith(site.as_uri())


@only_in_a_whole_run
def test_the_policy_stops_what_a_page_tries_to_load_or_run(chromium: Browser, site: Path, tmp_path: Path) -> None:
    tries = (
        '<img src="http://127.0.0.1:9/a.png" alt="a"><script src="http://127.0.0.1:9/a.js"></script>'
        '<script>window.ran = 1</script><img src="gone.svg" onerror="window.ran = 1" alt="b">'
        '<iframe src="http://127.0.0.1:9/" title="c"></iframe><a id="evil" href="javascript:window.ran = 1">d</a>'
    )
    copy = altered(site, tmp_path / "site", "index.html", lambda text: text.replace("</article>", tries + "</article>"))
    with visiting(chromium, own=True) as visit:
        asked: list[str] = []
        visit.page.on("response", lambda response: asked.append(response.url))
        visit.page.goto((copy / "index.html").as_uri())
        with visit.page.expect_console_message(lambda said: "JavaScript URL" in said.text):  # refused: the last try
            visit.page.locator("#evil").click()
        assert visit.page.evaluate("window.ran") is None
        assert not [address for address in asked if address.startswith("http")]
        refused = [error for error in visit.errors if "Content Security Policy" in error]
        assert len(refused) >= 6
