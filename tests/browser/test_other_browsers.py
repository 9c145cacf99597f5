"""Firefox and WebKitGTK open the handbook from disk like Chromium: pages, search, paper, no complaints."""

from __future__ import annotations

import base64
import os
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.other_browsers import BROWSERS, Other
from tests.browser.test_search import QUERIES, TYPE, found
from tests.sampling import WHOLE, spread

pytestmark = pytest.mark.skipif(not WHOLE, reason="other browsers take minutes: in a whole run")

LOOK = """async () => {
  const { scrollWidth, clientWidth } = document.documentElement;
  const heading = document.querySelector("h1").getBoundingClientRect().height > 0;
  return { heading, wider: scrollWidth - clientWidth, heard };
}"""

WATCH = """window.heard = [];
for (const kind of ["error", "securitypolicyviolation"])
  addEventListener(kind, event => heard.push(event.message ?? event.violatedDirective ?? event.target.src), true);
for (const kind of ["error", "warn"]) console[kind] = (...words) => heard.push(words.join(" "));"""


@pytest.fixture(scope="module", params=BROWSERS)
def other(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Other]:
    programs, started = BROWSERS[request.param]
    if not all(map(shutil.which, programs)):
        pytest.skip(f"no {request.param} found; install {' and '.join(programs)}")
    with started(tmp_path_factory.mktemp(request.param)) as running:
        yield running


@pytest.fixture(scope="module")
def watched(site: Path, kinds: list[str], tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the site in which a page of every kind notes what goes wrong in it, from its beginning."""
    copy = tmp_path_factory.mktemp("watched") / "site"
    shutil.copytree(site, copy, copy_function=os.link)
    (copy / "watch.js").write_text(WATCH, "utf-8")
    for page in kinds:
        text = (copy / page).read_text("utf-8")
        (copy / page).unlink()
        watch = f'<script src="{"../" * page.count("/")}watch.js"></script>'
        (copy / page).write_text(text.replace("<head>", f"<head>{watch}", 1), "utf-8")
    return copy


def test_every_kind_of_page_opens_and_fits_and_does_not_complain(other: Other, watched: Path, kinds: list[str]) -> None:
    for page in kinds:
        other.open((watched / page).as_uri())
        assert other.run(LOOK) == {"heading": True, "wider": 0, "heard": []}, page
    other.run('async () => console.error("said")')
    assert other.run(LOOK)["heard"] == ["said"], "the watch has missed a message"
    if other.console:
        assert [line for line in other.console() if watched.as_uri() in line and "said" not in line] == []


def test_the_search_answers_as_in_chromium(other: Other, chromium: Browser, site: Path) -> None:
    queries = spread(QUERIES, 40)
    other.open((site / "index.html").as_uri())
    answers = {
        query: [url.removeprefix(f"{site.as_uri()}/") for url in other.run(TYPE, query.words)] for query in queries
    }
    assert answers == found(chromium, site.as_uri(), queries)


def test_what_is_not_found_is_shown_a_way(other: Other, site: Path) -> None:
    note = 'async () => document.getElementById("search-note").textContent.trim()'
    other.open((site / "index.html").as_uri())
    assert other.run(TYPE, "choaking")
    assert other.run(note) == "Nothing for choaking. Showing choking."
    assert other.run(TYPE, "zzzzzz") == []
    assert "A-Z of situations" in other.run(note)


def test_a_lesson_on_paper_has_its_words_and_not_the_buttons(other: Other, site: Path, tmp_path: Path) -> None:
    if other.printed is None:
        pytest.skip("this browser cannot be told to print")
    lesson = next(page for page in sorted(site.glob("lessons/left-over/*-among-*.html")))
    other.open(lesson.as_uri())
    paper = tmp_path / "lesson.pdf"
    paper.write_bytes(base64.b64decode(other.printed()))
    text = subprocess.run(["pdftotext", "-layout", paper, "-"], capture_output=True, text=True, check=True).stdout
    assert "among" in text
    assert "Emergency" not in text.splitlines()[0]
    assert "Type to start searching" not in text
