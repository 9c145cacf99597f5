"""An installed Chromium, the pages of the built site, and a reader who notes whatever goes wrong."""

import json
import os
import re
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from re import Pattern
from typing import Any, NamedTuple
from urllib.parse import quote_plus

import pytest
from playwright.sync_api import Browser, Page, ViewportSize, expect, sync_playwright

from tests.browser.nginx import nginx_path, serving
from tests.conftest import build_once
from tests.pages.reading import is_book
from tests.sampling import WHOLE
from tests.small_handbook import write_small_handbook

NAMES = ("chromium", "chromium-browser", "google-chrome", "chrome", "msedge")
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--no-first-run",
)
SCREEN: ViewportSize = {"width": 1280, "height": 720}
PATIENCE = 120_000  # milliseconds: on a busy machine the book of all pages takes its time
INDEX_IS = "var __index = "
INSIDE = ("file:", "blob:", "data:", "http://127.0.0.1:")


def result_for(words: str) -> str:
    """Finds an answer to all of the words: a result says in its address which of them it holds."""
    return f'.md-search-result__link[href*="h={quote_plus(words)}"]'


def ends(address: str) -> Pattern[str]:
    """What the address of a page ends with; to be expected, for the browser tells of a new address a moment later."""
    return re.compile(re.escape(address) + "$")


class Visit(NamedTuple):
    """A page that a reader has open; `outside` and `errors` grow as it asks for things and complains."""

    page: Page
    outside: list[str]
    errors: list[str]

    def search(self, words: str) -> list[str]:
        """Type into the search field as a person does, and return the addresses found."""
        self.page.locator(".md-search__input").click()
        self.page.keyboard.type(words)
        self.page.locator(result_for(words)).first.wait_for()
        found = self.page.locator(".md-search-result__link").evaluate_all("links => links.map(link => link.href)")
        return [str(address).partition("?")[0] for address in found]


Launch = Callable[..., Browser]


def chromium_path() -> str | None:
    return next((path for name in NAMES if (path := shutil.which(name))), None)


@pytest.fixture(scope="session")
def launch() -> Iterator[Launch]:
    """Start the installed Chromium, with further flags of the command line."""
    path = chromium_path()
    if path is None:
        pytest.skip(f"no Chromium found; install one so that the path holds one of {', '.join(NAMES)}")
    expect.set_options(timeout=PATIENCE)
    started: list[Browser] = []
    with sync_playwright() as playwright:

        def start(*flags: str, **options: Any) -> Browser:
            started.append(playwright.chromium.launch(executable_path=path, args=[*FLAGS, *flags], **options))
            return started[-1]

        yield start
        for browser in started:
            browser.close()


@pytest.fixture(scope="session")
def chromium(launch: Launch) -> Browser:
    """A Chromium for which no host can be reached."""
    return launch("--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1")


@pytest.fixture
def page(chromium: Browser) -> Iterator[Page]:
    """An empty page for what is printed: a book takes its time."""
    with visiting(chromium) as visit:
        visit.page.set_default_timeout(300_000)
        yield visit.page


@pytest.fixture(scope="session")
def address(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of the site on a real server, with a slash at its end."""
    program = nginx_path()
    if program is None:
        pytest.skip("no nginx found; install it to try the generated configuration for real")
    with serving(site, program, tmp_path_factory.mktemp("nginx")) as address:
        yield address


@pytest.fixture(scope="session")
def pages(site: Path) -> list[str]:
    """Every page that can be opened from disk, but in a sample not the very long books of the others.

    The page for wrong addresses cannot be opened from disk.
    """
    found = sorted(page.relative_to(site).as_posix() for page in site.rglob("*.html"))
    assert len(found) > 5
    return [page for page in found if page != "404.html" and (WHOLE or not is_book(page))]


@pytest.fixture(scope="session")
def kinds(site: Path, pages: list[str]) -> list[str]:
    """The smallest and the largest page of every kind, at its emptiest and at its fullest, but for the books."""
    by_size = sorted((page for page in pages if not is_book(page)), key=lambda page: (site / page).stat().st_size)
    smallest = {kind(page): page for page in reversed(by_size)}
    largest = {kind(page): page for page in by_size}
    return sorted({*smallest.values(), *largest.values()})


@pytest.fixture(scope="session")
def plain_site(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """For tests that do not search: the site with one entry in its index.

    A page that is opened from disk takes the whole index in at once, which costs a browser more than all else on it.
    """

    def with_one_entry(script: str) -> str:
        index = json.loads(script.removeprefix(INDEX_IS).rstrip(";\n"))
        return f"{INDEX_IS}{json.dumps(index | {'docs': index['docs'][:1]})};\n"

    return altered(site, tmp_path_factory.mktemp("plain") / "site", "search/search_index.js", with_one_entry)


@pytest.fixture(scope="session")
def light_site(request: pytest.FixtureRequest, shared: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """For tests of very long pages: in a whole run the stock handbook, else a small one with every kind of page.

    To look at a page twice as long takes a browser more than twice the time.
    """
    if WHOLE:
        return Path(request.getfixturevalue("site"))
    return build_once(shared / "light", write_small_handbook(tmp_path_factory.mktemp("light") / "handbook"))


def kind(page: str) -> tuple[str, int, str]:
    """Pages of one part of the handbook at one depth are of a kind, but for overviews, cards and plans."""
    parts = page.split("/")
    name = parts[-1].removesuffix(".html")
    return parts[0], len(parts), next((word for word in ("index", "cards", "plans") if name.endswith(word)), "")


def altered(site: Path, copy: Path, path: str, change: Callable[[str], str]) -> Path:
    """Return a copy of the site in which one file is changed; the others are the same files under a second name."""
    shutil.copytree(site, copy, copy_function=os.link)
    text = (copy / path).read_text("utf-8")
    (copy / path).unlink()
    (copy / path).write_text(change(text), "utf-8")
    return copy


_LEFT: dict[tuple[Browser, str], Page] = {}  # by what they were opened with


@contextmanager
def visiting(
    browser: Browser,
    *,
    own: bool = False,
    viewport: ViewportSize = SCREEN,
    color_scheme: str = "light",
    reduced_motion: str = "no-preference",
    **options: Any,
) -> Iterator[Visit]:
    """Give an empty page that notes requests to outside and complaints.

    To open one costs a browser more than most tests do with it. So it is left, with nothing stored in it, to the next
    test that asks for the same options, unless a test failed, or wants it for its `own` because it changes more of it.
    """
    key = (browser, repr(sorted(options.items())))
    page = (None if own else _LEFT.pop(key, None)) or browser.new_context(**options).new_page()
    page.set_viewport_size(viewport)
    page.emulate_media(media="null", color_scheme=color_scheme, reduced_motion=reduced_motion)  # type: ignore[arg-type]
    page.set_default_timeout(PATIENCE)
    visit = Visit(page, [], [])
    noted: dict[str, Callable[[Any], None]] = {
        "request": lambda request: None if request.url.startswith(INSIDE) else visit.outside.append(request.url),
        "pageerror": lambda error: visit.errors.append(f"{page.url}: {error}"),
        "console": lambda said: (
            visit.errors.append(f"{page.url}: {said.text}") if said.type in ("error", "warning") else None
        ),
    }
    for event, note in noted.items():
        page.on(event, note)  # type: ignore[call-overload]
    reusable = False
    try:
        yield visit
        reusable = not own
    finally:
        for event, note in noted.items():
            page.remove_listener(event, note)
        if reusable and key not in _LEFT:
            _forget(page)
            _LEFT[key] = page
        else:
            page.context.close()


@pytest.fixture(autouse=True)
def _nothing_is_left_after_a_failure(request: pytest.FixtureRequest) -> Iterator[None]:
    failed = request.session.testsfailed
    yield
    if request.session.testsfailed > failed:
        while _LEFT:
            _LEFT.popitem()[1].context.close()


def _forget(page: Page) -> None:
    for other in page.context.pages:
        if other is not page:
            other.close()
    if page.url.startswith(("file:", "http:")):
        # The theme stores its colours a moment after a page has loaded: from here on it stores nothing more.
        page.evaluate("() => { Storage.prototype.setItem = () => {}; localStorage.clear(); sessionStorage.clear(); }")
    page.goto("about:blank")
    page.context.clear_cookies()
