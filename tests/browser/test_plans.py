"""Plans and books on paper: a plan fills one sheet, its address prints it alone, and a book keeps to what it says."""

import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from generator import HANDBOOK
from generator.build.straight_line import Request, build
from tests.browser.printing import OFF_BY, PAPERS, Sheet, cut, links, mark, print_to, stated
from tests.conftest import quiet
from tests.sampling import only_in_a_whole_run, sample
from tests.small_handbook import write_small_handbook
from tests.stock import sources

CROWDED = """
name = "A small room"
steps = ["several-exchanges"]
print.paper = "Letter"
roles.guide = "Elementary teacher and head of the group"
roles.assistant = "pedagogical assistant to the teacher"
roles.bank_keeper = "director of the bank, with its own key"
shelf = { hundreds = 20, tens = 20, units = 40, trays = 4, small_sets = 4, small_cards_to = 1000 }
"""
LONGEST = """
dividend = 9998
divisor = 39
ribbons = true
order = 900
reason = "Many rounds, and so many trips to the bank between them that whoever keeps it must be quick and calm."
reviewed = 2026-11-26
"""
STEPS = [step.slug for step in sources().steps]
A4_INSIDE = 703  # pixels: what the margins leave of its width


def opened(page: Page, file: Path) -> None:
    page.goto(file.as_uri())
    page.wait_for_function("[...document.images].every(image => image.complete && image.naturalWidth)")


def printed(page: Page, pdf: Path, paper: str) -> tuple[Sheet, ...]:
    page.evaluate("(paper) => { document.documentElement.dataset.paper = paper; }", paper)
    return print_to(pdf, page, paper)


@pytest.mark.parametrize("step", sample(STEPS, 1))
def test_every_plan_fills_one_sheet(step: str, page: Page, plain_site: Path, tmp_path: Path) -> None:
    opened(page, plain_site / "lessons" / step / "plans.html")
    titles = page.locator(".plan-title").all_text_contents()
    marked = mark(page, ".plans")
    for paper in sample(PAPERS, 1):
        sheets = printed(page, tmp_path / "plans.pdf", paper)
        assert len(sheets) == len(titles) > 2, paper
        assert [title for title, sheet in zip(titles, sheets, strict=True) if title not in sheet.text] == []
        assert all("Small beads." in sheet.text for sheet in sheets)
        assert cut(sheets, marked) == [], paper


@pytest.mark.parametrize("step", sample([step for step in STEPS if "ribbons" in step], 1))
def test_no_card_is_printed_over_the_next(step: str, page: Page, plain_site: Path) -> None:
    """Cards with ribbons have the most to say."""
    page.emulate_media(media="print")
    page.set_viewport_size({"width": A4_INSIDE, "height": 1000})
    opened(page, plain_site / "lessons" / step / "cards.html")
    assert (
        page.locator(".card").evaluate_all(
            "cards => cards.filter(card => card.scrollHeight > card.clientHeight).map(card => card.id)"
        )
        == []
    )


def plans_of(folder: Path, settings: str, step: str) -> Path:
    """The plans of a step in a small handbook, for a school with these settings and whatever lies in its folder."""
    (folder / "school").mkdir(exist_ok=True)
    (folder / "school" / "school.toml").write_text(settings, "utf-8")
    handbook = write_small_handbook(folder / "handbook")
    shutil.copytree(HANDBOOK / "lessons" / step, handbook / "lessons" / step, dirs_exist_ok=True)
    build(Request(folder / "school", folder / "site", handbook=handbook, workshop=folder / "workshop"), quiet)
    return folder / "site" / "lessons" / step / "plans.html"


@only_in_a_whole_run
def test_a_plan_keeps_to_one_sheet_where_the_shelf_is_short_and_names_are_long(page: Page, tmp_path: Path) -> None:
    opened(page, plans_of(tmp_path, CROWDED, "several-exchanges"))
    sheets = print_to(tmp_path / "plans.pdf", page)
    assert len(sheets) == page.locator(".plan").count() > 2
    assert all("Small beads." in sheet.text for sheet in sheets)


@only_in_a_whole_run
def test_a_plan_keeps_to_one_sheet_where_the_bank_is_gone_to_between_most_rounds(page: Page, tmp_path: Path) -> None:
    lesson = tmp_path / "school" / "lessons" / "ten-ribbons" / "9998-for-39.toml"
    lesson.parent.mkdir(parents=True)
    lesson.write_text(LONGEST, "utf-8")
    opened(page, plans_of(tmp_path, 'steps = ["ten-ribbons"]\nprint.paper = "Letter"\n', "ten-ribbons"))
    expect(page.locator("[id='9998-for-39']")).to_have_count(1)
    assert len(print_to(tmp_path / "plans.pdf", page)) == page.locator(".plan").count()


@only_in_a_whole_run
def test_an_address_shows_and_prints_one_plan_alone(page: Page, plain_site: Path, tmp_path: Path) -> None:
    file = next(plain_site.glob("lessons/*/plans.html"))
    opened(page, file)
    plans = page.locator(".plan")
    name = plans.nth(1).get_attribute("id")
    assert name
    everything = plans.count()
    page.locator(f'.plan-list a[href="#{name}"]').click()
    assert page.locator(".plan:visible").evaluate_all("plans => plans.map(plan => plan.id)") == [name]
    (sheet,) = printed(page, tmp_path / "plan.pdf", "A4")
    assert sheet.foot.endswith("1 / 1")
    page.emulate_media(media="screen")
    page.locator('.plan-list a[href="#all-plans"]').click()
    assert page.locator(".plan:visible").count() == everything


@pytest.mark.parametrize("kind", ["plans", "cards"])
def test_what_stands_alone_has_a_button_that_prints_it(kind: str, page: Page, plain_site: Path) -> None:
    file = next(plain_site.glob(f"lessons/*/{kind}.html"))
    opened(page, file)
    buttons = page.locator(".print-this button:visible")
    expect(buttons).to_have_count(0)
    page.locator(".plan-list a").first.click()
    page.evaluate("window.print = () => { document.title = 'printed'; }")
    buttons.click()
    expect(page).to_have_title("printed")
    expect(page.get_by_role("link", name="This sheet alone")).to_have_count(0)


@only_in_a_whole_run
def test_the_contents_of_the_plans_name_the_sheets_they_lead_to(page: Page, light_site: Path, tmp_path: Path) -> None:
    opened(page, light_site / "book-plans.html")
    numbers = page.locator(".book-contents .book-page").all_text_contents()
    assert len(numbers) > 5
    for paper in PAPERS:
        sheets = printed(page, tmp_path / "plans.pdf", paper)
        led_to = {text: sheet for text, sheet in links(tmp_path / "plans.pdf") if text.isdigit()}
        assert led_to == {number: int(number) for number in numbers}, paper
        assert stated(page) == len(sheets)


@pytest.mark.parametrize("paper", sample(PAPERS, 1))
@pytest.mark.parametrize("name", sample(["when-it-goes-wrong", "new-here", "reference"], 1))
def test_a_book_takes_about_as_many_sheets_as_it_says(
    name: str, paper: str, page: Page, plain_site: Path, tmp_path: Path
) -> None:
    opened(page, plain_site / f"book-{name}.html")
    sheets = printed(page, tmp_path / "book.pdf", paper)
    assert len(sheets) == pytest.approx(stated(page), rel=OFF_BY)
