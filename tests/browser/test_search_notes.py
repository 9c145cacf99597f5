"""Where the handbook does not have a word: the search asks for the nearest it has and says so, or shows ways on."""

import random
import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import visiting
from tests.browser.search import TYPE, answers, index_of, worker_of
from tests.sampling import only_in_a_whole_run, sample, times

PAGES = ("when-it-goes-wrong/emergency", "when-it-goes-wrong/index", "today", "reference/a-z")
WAYS = [f"{page}.html" for page in PAGES]

# Notes every text that the line which is read aloud has had.
HEAR = """() => {
  window.heard = [];
  const line = document.getElementById("search-heard");
  new MutationObserver(() => heard.push(line.textContent)).observe(line, { childList: true });
}"""
SAID = {
    "choaking": r"^Nothing for choaking\. Showing choking\. \d+ pages found",
    "choking": r"^\d+ pages found",
    "zzzzzz": r"^Nothing found\. Try fewer or different words, or go to:",
}


def type_in(page: Page, words: str) -> None:
    page.locator(".md-search__input").click()
    page.keyboard.press("Control+a")
    page.keyboard.type(words)


@only_in_a_whole_run
@pytest.mark.parametrize(
    ("typed", "shown"),
    sample([("choaking", "choking"), ("Exchagne", "exchange"), ("ribon for ten", "ribbon for ten")], 1),
)
def test_a_near_word_is_shown_and_the_note_says_so(typed: str, shown: str, chromium: Browser, site: Path) -> None:
    with visiting(chromium) as visit:
        visit.page.goto((site / "index.html").as_uri())
        type_in(visit.page, typed)
        visit.page.locator("#search-note").filter(has_text=f"Nothing for {typed}. Showing {shown}.").wait_for()
        assert visit.page.locator(".md-search-result__link").first.is_visible()
        type_in(visit.page, shown)
        visit.page.locator("#search-note:empty").wait_for(state="attached")
        assert visit.errors == []


def test_nothing_found_leads_on_by_mouse_and_by_keyboard(chromium: Browser, site: Path) -> None:
    with visiting(chromium) as visit:
        visit.page.goto((site / "new-here" / "index.html").as_uri())
        type_in(visit.page, "zzzzzz")
        links = visit.page.locator("#search-note a")
        links.first.wait_for()
        addresses = links.evaluate_all("links => links.map(link => link.href)")
        assert addresses == [(site / page).as_uri() for page in WAYS]
        visit.page.keyboard.press("ArrowDown")
        assert visit.page.evaluate("document.activeElement.href") == addresses[0]
        visit.page.keyboard.press("Enter")
        visit.page.wait_for_url(addresses[0])
        type_in(visit.page, "zzzzzz")
        links.first.wait_for()
        visit.page.keyboard.press("Enter")
        visit.page.wait_for_url(addresses[-1])
        assert visit.errors == []


@only_in_a_whole_run
@pytest.mark.parametrize(
    ("words", "opened"), sample([("broom", "when-it-goes-wrong/beads-on-the-floor"), ("3208", "today")], 1)
)
def test_enter_before_the_answer_opens_what_answers_all_that_was_typed(
    words: str, opened: str, chromium: Browser, site: Path
) -> None:
    with visiting(chromium) as visit:
        visit.page.goto((site / "index.html").as_uri())
        type_in(visit.page, words[0])
        visit.page.locator(".md-search-result__link").first.wait_for()
        visit.page.keyboard.insert_text(words[1:])
        visit.page.keyboard.press("Enter")
        visit.page.wait_for_url(re.compile(re.escape((site / opened).as_uri()) + r"\.html.*"))
        assert visit.errors == []


def test_who_hears_the_page_is_told_the_name_of_every_result(chromium: Browser, site: Path) -> None:
    with visiting(chromium) as visit:
        visit.page.goto((site / "index.html").as_uri())
        type_in(visit.page, "bead in mouth")
        visit.page.locator(".md-search-result__link article[role=presentation]").first.wait_for()
        tree = visit.page.context.new_cdp_session(visit.page).send("Accessibility.getFullAXTree")["nodes"]
        links = [node["name"]["value"] for node in tree if node.get("role", {}).get("value") == "link"]
    assert any("Emergency" in name for name in links)
    assert all(links)


@only_in_a_whole_run
def test_who_hears_the_page_is_told_once_what_is_found(chromium: Browser, site: Path) -> None:
    """And nothing of what was found on the way there."""
    with visiting(chromium) as visit:
        visit.page.goto((site / "index.html").as_uri())
        visit.page.evaluate(HEAR)
        for words, said in SAID.items():
            visit.page.evaluate(TYPE, [words[:-1], words])
            expect(visit.page.locator("#search-heard")).to_have_text(re.compile(said))
        heard = [line for line in visit.page.evaluate("heard") if line]
        assert len(heard) == len(SAID), heard
        assert visit.errors == []


@only_in_a_whole_run
def test_words_of_the_handbook_are_asked_as_they_are_typed(chromium: Browser, site: Path) -> None:
    """Whole, unfinished, with capitals or several together; the words are taken from titles and other words.

    What is no word of it stays as well where only single letters would make it words: "lot i on".
    """
    index = index_of(site)
    told = sorted({words for entry in index["docs"] for words in (entry["title"], *entry.get("tags", ())) if words})
    chance = random.Random(13)
    asked = [words for words in chance.sample(told, times(len(told) // 2, 60)) if "&" not in words]
    asked += [words[: chance.randint(1, len(words))].upper() for words in asked]
    answered = answers(chromium, worker_of(site), index, [*asked, "lotion", "exchagne"])
    shown = {words: answer.shown for words, answer in answered.items()}
    assert shown == dict.fromkeys([*asked, "lotion"]) | {"exchagne": "exchange"}
