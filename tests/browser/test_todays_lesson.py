"""Under "Today's number" a lesson of the handbook reads as on its own page: worked out in the browser, and built."""

from pathlib import Path
from typing import Any

from lxml import html
from playwright.sync_api import Browser, expect

from generator.engine.sharing import share
from generator.words.phrases import Phrases
from generator.words.titles import division_name
from tests.browser.conftest import visiting
from tests.sampling import sample

READ = ("h2", "h3", "p", "label", "caption", "th", "td", "summary", "dt", "dd", "figcaption", "img")
NOT_HERE = ("screen-only", "lesson-head")


def told(source: str) -> list[tuple[str, str]]:
    """All that is read of a lesson, in order: what it is (a figure is what is said of it), and its text."""
    (lesson,) = html.document_fromstring(source).find_class("lesson")
    others = [part for name in NOT_HERE for part in lesson.find_class(name)]
    for part in [*others, *lesson.xpath(".//*[@id='more-or-less']")]:
        part.drop_tree()
    return [read(part) for part in lesson.iter(*READ)]


def read(part: Any) -> tuple[str, str]:
    if part.tag == "img":
        return "figure", " ".join(part.get("alt").split())
    kind = {"figcaption": "figure"}.get(part.tag, part.tag + (f" {part.get('id')}" if part.tag == "h2" else ""))
    return kind, " ".join(part.text_content().split())


def test_a_lesson_of_the_handbook_reads_as_on_its_own_page(chromium: Browser, plain_site: Path) -> None:
    """Headings, checklist, figures in words, what is said and done, cards, tables, what may not be right."""
    with visiting(chromium) as visit:
        page = visit.page
        page.goto((plain_site / "today.html").as_uri())
        for lesson in sample(page.evaluate("sharing.handbook.lessons")[::2], 4):
            asked = "#number={dividend}&children={divisor}".format(**lesson)
            sharing = share(lesson["dividend"], lesson["divisor"], ribbons="ribbons" in lesson)
            name = division_name(Phrases("en"), sharing)
            page.evaluate("asked => { location.hash = asked; }", asked + ("&ribbons" if "ribbons" in lesson else ""))
            expect(page.locator("#answer-name")).to_have_text(name)
            page.locator("#every-movement").wait_for()
            worked = told(page.content())
            assert worked == told((plain_site / lesson["page"]).read_text("utf-8")), name
            assert {"h2 set-out", "h2 units", "h2 check", "figure", "td"} <= {kind for kind, _ in worked}
        for link in page.locator("#todays-lesson a:not([href^='#'])").all():
            assert (plain_site / str(link.get_attribute("href"))).is_file()
        assert visit.errors == []


def test_the_finished_layout_shows_the_cards_as_they_lie(chromium: Browser, plain_site: Path) -> None:
    """A zero is that of the card beneath."""
    with visiting(chromium) as visit:
        visit.page.goto((plain_site / "today.html").as_uri() + "#number=5230&children=4")
        cards = visit.page.locator("#present-finished .in-cards")
        expect(cards.locator(".number-card > span")).to_have_text(["5", "2", "30", "1", "30", "7"])
        expect(cards).to_contain_text("Left over2 units")
