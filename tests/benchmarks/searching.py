"""What a reader waits for while searching from disk: the stock handbook, and one with a thousand lessons.

A browser slows down the page alone, not the search worker. So the worker is timed by itself, and on a machine four
times slower an answer takes the slowed page's time and three times more of the worker's.
"""

import shutil
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from statistics import median

from playwright.sync_api import Browser, Page, Playwright, sync_playwright

from generator import HANDBOOK
from tests.benchmarks.building import run
from tests.benchmarks.made_up import write_handbook
from tests.benchmarks.measuring import Measured
from tests.browser.search import index_of, worker_of

_MANY = 1000
_SLOWER = 4
_VISITS = 3
_FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update"]
_MISSPELT = ("choaking", "remaindor", "exchagne the ribons", "swalowed a baed")

# Puts an index into a worker of its own, then asks it; milliseconds for the one and for the other.
_WORKER = """async ([source, index, asked]) => {
  const worker = new Worker(URL.createObjectURL(new Blob([source], { type: "text/javascript" })));
  const timed = message => new Promise(done => {
    const begun = performance.now();
    worker.onmessage = () => done(performance.now() - begun);
    worker.postMessage(message);
  });
  const ready = await timed({ type: 0, data: { ...index, options: {} } });
  const answered = await timed({ type: 2, data: asked });
  worker.terminate();
  return [ready, answered];
}"""
_WATCH = """() => {
  window.tasks = [0];
  new PerformanceObserver(list => tasks.push(...list.getEntries().map(task => task.duration)))
    .observe({ type: "longtask" });
}"""


def search() -> Iterator[Measured]:
    with tempfile.TemporaryDirectory() as top:
        made_up = Path(top, "handbook")
        write_handbook(made_up, _MANY)
        for name, handbook in (("stock handbook", HANDBOOK), (f"{_MANY:,} lessons", made_up)):
            site = Path(top, name)
            run("build", handbook, Path(top, f"workshop of {name}"), site)
            yield from searched(name, site)


def searched(name: str, site: Path) -> Iterator[Measured]:
    """A fresh browser for each visit."""
    with sync_playwright() as playwright:

        def visits(slower: int, *, is_at_rest: bool) -> tuple[float, float]:
            found = [_visit(_browser(playwright), site, slower, is_at_rest) for _ in range(_VISITS)]
            return median(first for first, _ in found), min(longest for _, longest in found)

        ready, answered = _worker_alone(_browser(playwright), site)
        just_opened, longest = visits(1, is_at_rest=False)
        at_rest, _ = visits(1, is_at_rest=True)
        slowed, longest_slowed = visits(_SLOWER, is_at_rest=True)
    yield Measured(f"{name}: search worker takes in the index", ready, "ms")
    yield Measured(f"{name}: search worker answers a misspelling", answered, "ms")
    yield Measured(f"{name}: first answer on a page just opened", just_opened, "ms", "under 1,000")
    yield Measured(f"{name}: first answer on a page that has been read", at_rest, "ms", "under 1,000")
    slower = slowed + (_SLOWER - 1) * answered
    yield Measured(f"{name}: the same on a machine four times slower", slower, "ms", "under 1,000")
    yield Measured(f"{name}: longest task while misspellings are typed", longest, "ms", "under 100; 0 is under 50")
    yield Measured(f"{name}: the same on a page four times slower", longest_slowed, "ms")


def _browser(playwright: Playwright) -> Browser:
    return playwright.chromium.launch(executable_path=shutil.which("chromium"), args=_FLAGS)


def _worker_alone(browser: Browser, site: Path) -> tuple[float, float]:
    """Milliseconds to take in the index and to answer a misspelling."""
    page = browser.new_page()
    asked = [worker_of(site), index_of(site), _MISSPELT[0]]
    times = [page.evaluate(_WORKER, asked) for _ in range(_VISITS)]
    browser.close()
    ready, answered = (median(column) for column in zip(*times, strict=True))
    return ready, answered


def _visit(browser: Browser, site: Path, slower: int, is_at_rest: bool) -> tuple[float, float]:
    """Milliseconds from the last key to the first answer, and of the longest task from there to the last answer."""
    page = browser.new_page()
    page.goto((site / "index.html").as_uri())
    if is_at_rest:  # the worker has the index: the theme has asked it for nothing, and shows the answer
        page.locator(".md-search-result__meta").filter(has_text="Type to start").wait_for(state="attached")
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slower})
    page.evaluate(_WATCH)
    first, *_ = [_milliseconds_to_answer(page, words) for words in _MISSPELT]
    longest = page.evaluate("async () => (await new Promise(requestAnimationFrame), Math.max(...tasks))")
    browser.close()
    return first, longest


def _milliseconds_to_answer(page: Page, words: str) -> float:
    """From the last key until what is shown answers these words, typed ten letters a second."""
    page.locator(".md-search__input").click()
    page.keyboard.press("Control+a")
    page.keyboard.type(words, delay=100)
    begun = time.perf_counter()
    page.locator("#search-note .asked").filter(has_text=words).wait_for()
    page.locator(".md-search-result__link").first.wait_for()
    return 1000 * (time.perf_counter() - begun)
