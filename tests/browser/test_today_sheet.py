"""What was worked out under "Today's number", on paper: one sheet with all that a plan has, or a card."""

from itertools import combinations, product
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.printing import PAPERS, Sheet, print_to
from tests.browser.test_today import TODAY
from tests.sampling import only_in_a_whole_run, sample

# The fullest sheets that we know, by trying: an exchange at every place, a zero in the share, ribbons.
SMALL_GROUPS = [
    "#number=4327&children=6",
    "#number=8448&children=2",
    "#number=5230&children=4",
    "#number=9999&children=7",
    "#number=5969&children=3",
    "#number=9505&children=6",
    "#number=7&children=8",
    "#number=9999&children=9",
    "#number=3432&children=12&ribbons",
    "#number=4873&children=135&ribbons",
    "#number=5000&children=14&ribbons",
]
LARGE_GROUPS = [
    "#number=8888&children=12",
    "#number=7083&children=11",
    "#number=9873&children=12&ribbons",
    "#number=6784&children=123&ribbons",
    "#number=9999&children=345&ribbons",
]
STOP = "Stop, and count all unit beads. If one is missing, nobody goes on until it is found. Put the unit bead"
A_TOUCH = 0.3  # points


def printed(page: Page, plain_site: Path, asked: str, pdf: Path, paper: str) -> tuple[Sheet, ...]:
    page.goto((plain_site / TODAY).as_uri() + asked)
    page.locator("#every-movement").wait_for(state="attached")
    page.evaluate("(paper) => { document.documentElement.dataset.paper = paper; }", paper)
    return print_to(pdf, page, paper)


def printed_over(sheet: Sheet) -> list[tuple[str, str]]:
    """Words of one line that lie over one another."""
    return [
        (word.text, other.text)
        for word, other in combinations(sheet.words, 2)
        if abs(word.bottom - other.bottom) < 1 and min(word.right, other.right) - max(word.left, other.left) > A_TOUCH
    ]


@pytest.mark.parametrize(("asked", "paper"), sample(product([*SMALL_GROUPS, *LARGE_GROUPS], PAPERS), 1))
def test_it_fills_one_sheet_and_two_at_most_for_a_large_group(
    asked: str, paper: str, page: Page, plain_site: Path, tmp_path: Path
) -> None:
    sheets = printed(page, plain_site, asked, tmp_path / "sheet.pdf", paper)
    assert len(sheets) <= (2 if asked in LARGE_GROUPS else 1)
    assert [printed_over(sheet) for sheet in sheets] == [[] for _ in sheets]
    text = " ".join(sheet.text for sheet in sheets)
    name = page.locator("#answer-name").text_content()
    parts = page.locator("#todays-lesson h2:not(#all-shared)").all_text_contents()  # that picture stands beside them
    assert len(parts) >= 4
    for told in (name, *parts, f"To open this again: {TODAY}{asked}", "Day", "Children", "Small beads.", "Hands"):
        assert " ".join(str(told).split()) in text
    for seen in page.locator("#todays-lesson .not-right > ul h3").all_text_contents():
        assert seen.split()[0] in text


@only_in_a_whole_run
@pytest.mark.parametrize("paper", sample(PAPERS, 1))
def test_it_is_printed_whole_before_all_of_it_was_worked_out(
    paper: str, page: Page, plain_site: Path, tmp_path: Path
) -> None:
    """The slips come after the answer, one at a time; who prints at once waits for them."""
    page.goto((plain_site / TODAY).as_uri())
    page.evaluate("setTimeout = () => 0")
    page.get_by_label("The number").fill("8888")
    page.get_by_label("Children sharing").fill("12")
    expect(page.locator("#every-movement")).to_have_count(0)
    page.evaluate("(paper) => { document.documentElement.dataset.paper = paper; }", paper)
    sheets = print_to(tmp_path / "sheet.pdf", page, paper)
    assert len(sheets) <= 2
    assert "If it is not right" in " ".join(sheet.text for sheet in sheets)


def test_a_card_has_the_number_and_what_lies_beside_the_mat(page: Page, plain_site: Path, tmp_path: Path) -> None:
    page.goto((plain_site / TODAY).as_uri() + SMALL_GROUPS[0])
    page.evaluate("window.print = () => {}")
    page.get_by_role("button", name="Print as a card").click()
    (card,) = print_to(tmp_path / "card.pdf", page, "A4")
    assert "4,327 among six" in card.text
    assert "Each has 721, and 1 is left over." in card.text
    assert f"{TODAY}{SMALL_GROUPS[0]}" in card.text
    for told in (
        "In the middle:",
        "The bank also needs:",
        "Sets of small cards:",
        "Thousands: too few to go round, 4 to the bank",
        "Hundreds: 7 each, 1 to the bank",
        "Units: 1 each, 1 left over",
        "6 + 1 = 4,327",
        "Small beads.",
    ):
        assert told in card.text
    assert "Bring the pieces" not in card.text
    assert "The guide says" not in card.text


def test_what_is_seen_on_the_trays_is_in_the_address_on_paper(page: Page, plain_site: Path, tmp_path: Path) -> None:
    page.goto((plain_site / TODAY).as_uri() + SMALL_GROUPS[0])
    seen = page.locator("#trays-seen input")
    seen.nth(5).fill("711")
    seen.last.fill("1")
    page.wait_for_url("**left=1")
    (sheet,) = print_to(tmp_path / "sheet.pdf", page, "A4")
    assert f"{TODAY}{SMALL_GROUPS[0]}&seen=721,721,721,721,721,711&left=1" in sheet.text


@only_in_a_whole_run
def test_where_a_unit_bead_may_be_lost_counting_comes_first(page: Page, plain_site: Path, tmp_path: Path) -> None:
    (sheet,) = printed(page, plain_site, "#number=4632&children=2", tmp_path / "sheet.pdf", "A4")
    assert STOP in sheet.text


def test_with_nothing_worked_out_the_sheet_says_so(page: Page, plain_site: Path, tmp_path: Path) -> None:
    page.goto((plain_site / TODAY).as_uri())
    page.locator("#ask-number").wait_for()
    (sheet,) = print_to(tmp_path / "sheet.pdf", page, "A4")
    assert "No number has been worked out." in sheet.text
    page.goto((plain_site / TODAY).as_uri() + SMALL_GROUPS[0])
    page.locator("#every-movement").wait_for(state="attached")
    (sheet,) = print_to(tmp_path / "sheet.pdf", page, "A4")
    assert "No number has been worked out." not in sheet.text
