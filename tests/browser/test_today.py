""" "Today's number": any number and group, today's shelf and trays, worked out in the page from disk."""

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, ViewportSize, expect

from tests.browser.conftest import Visit, ends, visiting
from tests.browser.test_accessible import A_VIEW, SMALL_TARGETS, TARGET, UNFOLD, axe_faults
from tests.sampling import only_in_a_whole_run, sample
from tests.stock import sources

TODAY = "today.html"
SHELF = sources().school.shelf


@pytest.fixture
def visit(chromium: Browser, plain_site: Path) -> Iterator[Visit]:
    with visiting(chromium) as visit:
        visit.page.goto((plain_site / TODAY).as_uri())
        yield visit
        assert visit.outside == []
        assert visit.errors == []


NINE_THOUSAND = "9,000 numbers for 12 children, the best first. These are the first 8."


def ask(page: Page, number: str, children: str) -> None:
    page.get_by_label("The number").fill(number)
    page.get_by_label("Children sharing").fill(children)


def test_a_number_and_a_group_are_answered_while_they_are_typed(visit: Visit) -> None:
    """Worked by hand: 6 x 721 = 4,326."""
    page = visit.page
    expect(page.locator("#answer")).to_be_hidden()
    ask(page, "4,327", "6")
    expect(page.locator("#answer-each")).to_have_text("Each has 721, and 1 is left over.")
    expect(page.locator("#answer-name")).to_have_text("4,327 among six")
    expect(page).to_have_url(ends("#number=4327&children=6"))
    expect(page.locator("#answer-length")).to_contain_text("minutes")
    expect(page.locator("#shelf-verdict")).to_have_text("The shelf has enough for this number.")
    expect(page.locator("#nearest")).to_contain_text("4,326 nothing left over")
    page.get_by_role("button", name="One child fewer").click()
    expect(page.locator("#answer-each")).to_have_text("Each has 865, and 2 are left over.")


WRONG = [
    ("10000", "4", "ask-number"),
    ("three", "4", "ask-number"),
    ("3.5", "4", "ask-number"),
    ("-4", "4", "ask-number"),
    ("0", "4", "ask-number"),
    ("1e3", "4", "ask-number"),
    ("4,32", "4", "ask-number"),
    ("0,005", "4", "ask-number"),
    ("", "4", "ask-number"),
    ("5230", "0", "ask-children"),
    ("5230", "13", "ask-children"),
    ("5230", "1", "ask-children"),
    ("5230", "six", "ask-children"),
    ("5230", "", "ask-children"),
]


def test_who_goes_on_from_the_number_to_ribbons_hits_the_box(visit: Visit) -> None:
    """No fault of the group appears while the mouse is pressed and moves the box away."""
    page = visit.page
    page.get_by_label("The number").click()
    page.keyboard.type("3432")
    box = page.locator("#ask-ribbons")
    where = box.bounding_box()
    assert where
    page.mouse.move(where["x"] + where["width"] / 2, where["y"] + where["height"] / 2)
    page.mouse.down()
    page.mouse.up()
    expect(box).to_be_checked()
    expect(page.locator("#ask-children-fault")).to_be_empty()


@only_in_a_whole_run
def test_wrong_input_gets_one_line_beside_its_field_and_changes_nothing(visit: Visit) -> None:
    page = visit.page
    for number, children, field in WRONG:
        ask(page, "5230", "4")
        expect(page.locator(f"#{field}")).not_to_have_attribute("aria-invalid", "true")
        ask(page, number, children)
        told = [line for line in page.locator("#asking .fault").all_inner_texts() if line]
        assert told == [page.locator(f"#{field}-fault").inner_text()], (number, children)
        expect(page.locator(f"#{field}")).to_have_attribute("aria-invalid", "true")
        expect(page.locator("#answer-name")).to_have_text("5,230 among four")
        expect(page).to_have_url(ends("#number=5230&children=4"))


@only_in_a_whole_run
def test_while_a_field_has_a_fault_the_answer_says_that_it_is_the_one_from_before(visit: Visit) -> None:
    page = visit.page
    is_old, actions = page.locator(".is-old p"), page.locator(".shared .actions")
    number = page.get_by_label("The number")
    ask(page, "5230", "4")
    number.fill("")
    expect(page.locator("#ask-number-fault")).not_to_be_empty()
    number.fill("417")
    page.wait_for_timeout(1_600)
    expect(is_old).to_be_hidden()  # for so short a moment one may merely be typing
    number.fill("41700")
    expect(is_old).to_be_hidden()
    number.blur()
    expect(is_old).to_have_text(re.compile("still the old one"))
    assert actions.evaluate("all => all.inert")
    number.fill("417")
    expect(is_old).to_be_hidden()
    assert not actions.evaluate("all => all.inert")
    number.fill("41700")
    expect(is_old).to_be_visible()
    page.get_by_label("Children sharing").focus()
    page.evaluate("location.hash = 'number=417&children=3'")
    expect(page.locator("#answer-name")).to_have_text("417 among three")
    expect(is_old).to_be_hidden()


@only_in_a_whole_run
def test_whoever_ticks_ribbons_is_told_what_to_write_or_has_it_written(visit: Visit) -> None:
    """Thirteen children are too many; with ribbons one stands for ten and three for one. 13 x 384 + 7 = 4,999."""
    page = visit.page
    ribbons, fault = page.get_by_label("with ribbons"), page.locator("#ask-for-one-fault")
    ask(page, "4999", "13")
    ribbons.check()
    expect(page.locator("#answer-each")).to_have_text("A child for one has 384, and 7 are left over.")
    assert [page.get_by_label(name, exact=True).input_value() for name in ("a hundred", "ten", "one")] == [
        "0",
        "1",
        "3",
    ]
    expect(fault).to_be_empty()
    for name in ("ten", "one"):
        page.get_by_label(name, exact=True).fill("")
    expect(fault).to_contain_text("how many children stand for each")


FULL_WIDTH = str.maketrans({digit: chr(0xFEE0 + ord(digit)) for digit in "0123456789"})


@only_in_a_whole_run
def test_digits_may_be_in_threes_and_of_any_width(visit: Visit) -> None:
    written = ["4 327", "4,327", "4.327", "4'327", "4\u2019327", "4327".translate(FULL_WIDTH), " 4327 "]
    for number in written:
        ask(visit.page, "5", "2")
        expect(visit.page.locator("#answer-name")).to_have_text("5 between two")
        ask(visit.page, number, "6".translate(FULL_WIDTH))
        expect(visit.page.locator("#answer-name")).to_have_text("4,327 among six")
        assert [line for line in visit.page.locator("#asking .fault").all_inner_texts() if line] == []


@only_in_a_whole_run
def test_an_address_opens_the_same_again_and_back_leads_back(visit: Visit, plain_site: Path) -> None:
    """Worked by hand: 12 x 286 = 3,432; with ribbons one stands for ten and two for one."""
    page = visit.page
    page.goto((plain_site / TODAY).as_uri() + "#number=3432&children=12&ribbons")
    expect(page.locator("#answer-each")).to_have_text("A child for one has 286, and nothing is left over.")
    expect(page.get_by_label("ten", exact=True)).to_have_value("1")
    expect(page.get_by_label("one", exact=True)).to_have_value("2")
    page.get_by_label("one", exact=True).fill("9")
    expect(page.locator("#answer-name")).to_have_text("3,432 for 19 with ribbons")
    page.get_by_label("one", exact=True).fill("2")
    page.evaluate("location.hash = 'number=5230&children=4'")
    expect(page.locator("#answer-name")).to_have_text("5,230 among four")
    page.go_back()
    expect(page.locator("#answer-name")).to_have_text("3,432 for twelve with ribbons")


def test_something_is_not_right(visit: Visit, plain_site: Path) -> None:
    """4,817 among four is 1,204 each and one left over; one tray was passed over in the last round."""
    page = visit.page
    page.goto((plain_site / TODAY).as_uri() + "#number=4817&children=4")
    expect(page.locator("#not-right-total")).to_have_text(
        re.compile("^Every tray is shown as it should be at the end. If the lesson is still going on, type in what")
    )
    expect(page.locator("#not-right-told")).to_be_empty()
    page.get_by_role("button", name="Tray 3: one less").click()
    expect(page.locator("#not-right-total")).to_contain_text("1 is missing")
    page.get_by_label("Left over, or still in the middle", exact=True).fill("2")  # told while the cursor is there
    expect(page.locator("#not-right-total")).to_contain_text("nothing is lost")
    first = page.locator("#not-right-told .cause").first
    expect(first).to_contain_text("Give one unit bead from what is left over to the tray that reads 1,203.")
    expect(page).to_have_url(ends("&seen=1204,1204,1203,1204&left=2"))
    page.reload()
    expect(first).to_contain_text("tray that reads 1,203")
    page.evaluate("location.hash = 'number=4817&children=4&seen=1204,1204,1204,1203&left=2'")  # as another sends it
    expect(page.get_by_label("Tray 3", exact=True)).to_have_value("1204")
    expect(page.get_by_label("Tray 4", exact=True)).to_have_value("1203")
    page.go_back()
    expect(page.get_by_label("Tray 3", exact=True)).to_have_value("1203")
    fault = "Type a whole number of at most four digits in every field; 0 for a child without a tray."
    for cannot_be in ("beads", "12040"):
        page.get_by_label("Tray 1", exact=True).fill(cannot_be)
        expect(page.locator("#seen-fault")).to_have_text(fault)
        expect(page.locator("#not-right-told")).to_be_empty()
    page.evaluate("location.hash = 'number=4817&children=4&seen=1204,1204,1203,1204&left=20002'")
    expect(page.locator("#seen-fault")).to_have_text(fault)
    page.get_by_label("Left over, or still in the middle", exact=True).fill("2")
    page.get_by_label("Tray 1", exact=True).fill("1204")
    page.get_by_label("Tray 3", exact=True).fill("1204")
    page.get_by_role("button", name="Left over, or still in the middle: one less").click()
    expect(page.locator("#not-right-told")).to_have_text("This is right. Every tray has its fair share.")


# From here on whatever an element says is noted, as those who hear the page hear it where it is told at once.
NOTE_WORDS = """id => {
  window.heard = [];
  const line = document.getElementById(id);
  new MutationObserver(() => window.heard.push(line.textContent)).observe(line, { childList: true });
}"""


@only_in_a_whole_run
def test_advice_waits_until_a_number_is_written_to_the_end(visit: Visit, plain_site: Path) -> None:
    """Whoever hears the page would be told what to do about a tray that reads 1, and one that reads 12."""
    page = visit.page
    page.goto((plain_site / TODAY).as_uri() + "#number=4817&children=4")
    total = page.locator("#not-right-total")
    expect(total).to_contain_text("Every tray is shown as it should be")
    page.evaluate(NOTE_WORDS, "not-right-total")
    page.get_by_label("Tray 3", exact=True).fill("")
    page.get_by_label("Tray 3", exact=True).press_sequentially("1203")
    expect(total).to_contain_text("1 is missing")
    assert page.evaluate("heard.length") == 1
    page.get_by_label("Tray 4", exact=True).fill("1202")
    page.evaluate("location.hash = 'number=5230&children=5'")  # what is still to come was about another number
    expect(page.locator("#answer-name")).to_have_text("5,230 among five")
    page.wait_for_timeout(1_100)
    assert page.evaluate("location.hash") == "#number=5230&children=5"


@only_in_a_whole_run
def test_a_fault_of_a_tray_goes_with_the_number_it_was_about(visit: Visit) -> None:
    page = visit.page
    ask(page, "4817", "4")
    page.get_by_label("Tray 1", exact=True).fill("beads")
    expect(page.locator("#seen-fault")).not_to_be_empty()
    ask(page, "5230", "5")
    expect(page.locator("#seen-fault")).to_be_empty()


@only_in_a_whole_run
def test_the_answer_is_heard_once_and_whether_the_shelf_has_it_whenever_that_changes(visit: Visit) -> None:
    """Worked by hand: 6 x 721 = 4,326."""
    page = visit.page
    page.evaluate(NOTE_WORDS, "answer-heard")
    page.get_by_label("Children sharing").fill("6")
    page.get_by_label("The number").press_sequentially("4327", delay=100)
    heard = page.locator("#answer-heard")
    enough = "The shelf has enough for this number."
    expect(heard).to_have_text(f"4,327 among six: Each has 721, and 1 is left over. {enough}")
    assert page.evaluate("heard.length") == 1  # never what comes of 4, 43 and 432
    assert not page.locator("section.shared, #shelf-verdict").evaluate_all("all => all.some(one => one.ariaLive)")
    page.get_by_text("Type in what is here today").click()
    page.get_by_label("Squares").fill("")
    page.get_by_label("Squares").press_sequentially("43")
    page.get_by_label("Trays", exact=True).fill("5")
    expect(page.locator("#answer-short")).to_have_text("Not enough on the shelf: trays (6 needed, we have 5).")
    expect(heard).to_contain_text("Not enough on the shelf: trays (6 needed, we have 5).")
    page.get_by_label("Trays", exact=True).fill("6")
    expect(page.locator("#answer-short")).to_be_hidden()
    expect(heard).to_contain_text(enough)
    assert page.evaluate("heard.length") == 3  # never of the four squares that stood there for a moment


@only_in_a_whole_run
def test_an_answer_to_what_is_no_longer_typed_is_not_heard_and_is_heard_again_when_it_holds(visit: Visit) -> None:
    """Worked by hand: 6 x 1,440 = 8,640."""
    page = visit.page
    ask(page, "4327", "6")
    heard = page.locator("#answer-heard")
    expect(heard).to_contain_text("4,327 among six")
    page.evaluate(NOTE_WORDS, "answer-heard")
    page.get_by_label("The number").fill("")
    page.get_by_label("The number").press_sequentially("86421", delay=100)
    expect(page.locator("#answer")).to_have_class("old")  # by now it would have been heard
    expect(heard).to_be_empty()
    page.get_by_label("The number").press("Backspace")
    expect(heard).to_contain_text("8,642 among six: Each has 1,440, and 2 are left over.")
    assert page.evaluate("heard.filter(Boolean).length") == 1


@only_in_a_whole_run
def test_besides_the_answer_only_the_part_that_is_used_is_heard(visit: Visit) -> None:
    page = visit.page
    ask(page, "4327", "6")
    parts = page.locator("#todays-number [aria-live]")
    count = parts.count()
    for used, heard in (("The number", 0), ("Tray 1", 1), ("Kind", 1), ("Practise: say", 2)):
        page.get_by_label(used, exact=used != "Practise: say").focus()
        assert page.locator("#todays-number [aria-live=polite]").count() == heard, used
        assert parts.count() == count


@only_in_a_whole_run
def test_who_ticks_ribbons_is_not_told_of_a_fault_before_anything_is_typed(visit: Visit) -> None:
    page = visit.page
    page.get_by_label("with ribbons").press("Space")
    assert [line for line in page.locator("#asking .fault").all_inner_texts() if line] == []
    page.keyboard.press("Tab")
    expect(page.get_by_label("a hundred", exact=True)).to_be_focused()
    page.keyboard.type("x")
    expect(page.locator("#ask-for-one-fault")).not_to_be_empty()


def test_what_is_set_out_lies_there_with_its_cards_and_the_bank_has_pieces_ready(visit: Visit) -> None:
    """4,327 among six: 4 cubes become 40 squares, and one of 43 squares becomes 10 bars."""
    ask(visit.page, "4327", "6")
    mat = visit.page.locator("#present-set-out .mat")
    assert mat.locator(".middle .tally").all_text_contents() == ["4000", "300", "20", "7"]
    assert mat.locator(".bank .tally .in-full").all_text_contents() == ["40 ready", "10 ready"]
    assert visit.page.locator("#present-hundreds figure:not(:has(.mat-key))").count() == 0


@only_in_a_whole_run
def test_where_pieces_are_missing_beads_are_counted_and_the_number_is_fetched_anew(
    visit: Visit, plain_site: Path
) -> None:
    """Worked by hand: 3 x 1,305 + 1,205 + 2 = 5,122, and the number is 5,230."""
    visit.page.goto((plain_site / TODAY).as_uri() + "#number=5230&children=4&seen=1305,1305,1305,1205&left=2")
    told = visit.page.locator("#not-right-told")
    expect(told).to_contain_text("count all unit beads")
    expect(told).to_contain_text("Found? Put them in the middle with what is left over, and type that in.")
    expect(told).to_contain_text("Fetch the number again, following its large cards")
    expect(told).not_to_contain_text("All unit beads go back")
    visit.page.get_by_label("Tray 1", exact=True).fill("1505")
    expect(visit.page.locator("#not-right-total")).to_contain_text("too many")
    expect(told).to_contain_text("Too many in all can hide a lost piece")
    expect(told).not_to_contain_text("None missing?")


def test_in_the_middle_of_a_lesson_what_is_seen_is_put_right(visit: Visit, plain_site: Path) -> None:
    """5,536 among four, after the hundreds: 1,300 each, 336 in the middle. The banker gave nine bars for a square."""
    visit.page.goto((plain_site / TODAY).as_uri() + "#number=5536&children=4&seen=1300,1300,1300,1300&left=326")
    told = visit.page.locator("#not-right-told")
    expect(told).to_contain_text("Count all bars")
    expect(told).to_contain_text("None missing? Bring one bar from the bank to the middle. Then go on sharing.")
    visit.page.get_by_label("Left over, or still in the middle", exact=True).fill("336")
    expect(told).to_have_text("What is left can still go round. Go on sharing first, then count again.")


@only_in_a_whole_run
def test_what_a_tray_was_not_given_comes_from_the_middle_or_is_changed_for(visit: Visit, plain_site: Path) -> None:
    """1,476 among twelve is 123 each: one tray has none, and its 123 lie in the middle, hardly with a square."""
    trays = ",".join(["123"] * 11 + ["0"])
    visit.page.goto((plain_site / TODAY).as_uri() + f"#number=1476&children=12&seen={trays}&left=123")
    told = visit.page.locator("#not-right-told")
    expect(told).to_contain_text("If a piece you need is not there, change others for it at the bank.")
    expect(told).not_to_contain_text("go on sharing")


@only_in_a_whole_run
def test_causes_that_read_alike_are_told_once(visit: Visit, plain_site: Path) -> None:
    """1,790 for thirteen with ribbons, one child passed over: a bar or ten unit beads lie in the middle."""
    visit.page.goto((plain_site / TODAY).as_uri() + "#number=1790&children=13&ribbons&seen=10:1370,136,137,137&left=10")
    told = visit.page.locator("#not-right-told .cause")
    expect(told.first).to_contain_text("If a piece you need is not there, change others for it at the bank.")
    expect(told).to_have_count(1)
    expect(told.locator("p").first).to_contain_text("A tray was passed over in one round, and missed its unit bead.")


@only_in_a_whole_run
def test_what_happened_has_one_name(visit: Visit, plain_site: Path) -> None:
    """5,230 among four: a piece left over that is on a tray is also a last round that was not taken back."""
    visit.page.goto((plain_site / TODAY).as_uri() + "#number=5230&children=4&seen=1308,1307,1307,1307&left=1")
    told = visit.page.locator("#not-right-told")
    expect(told).to_contain_text("A piece that should have been left over went onto a tray.")
    expect(told).to_contain_text("1 other possible cause")
    expect(told).not_to_contain_text("A round was not finished")


@pytest.mark.parametrize(
    ("trays", "goes_round"), [("2112,2112,2112,1112&left=1000", False), ("2111,2111,2111,2111&left=4", True)]
)
def test_only_where_trays_are_equal_the_rest_is_shared_on(
    visit: Visit, plain_site: Path, trays: str, goes_round: bool
) -> None:
    """8,448 among four is 2,112 each: one cube was not given, or the last round of beads."""
    visit.page.goto((plain_site / TODAY).as_uri() + f"#number=8448&children=4&seen={trays}")
    told = visit.page.locator("#not-right-told")
    expect(told).not_to_be_empty()
    expect(told.get_by_text("can still go round")).to_have_count(int(goes_round))


def test_numbers_are_found_for_the_group_that_is_written_before_any_number_is(visit: Visit) -> None:
    page = visit.page
    expect(page.locator("#found-state")).to_have_text("First type how many children share.")
    page.get_by_label("Children sharing").fill("11")
    expect(page.locator("#found-state")).to_contain_text("for 11 children")
    assert [line for line in page.locator("#asking .fault").all_inner_texts() if line] == []
    page.get_by_label("Kind").select_option("exchange-hundreds")
    page.get_by_label("Digits").select_option("3")
    page.get_by_label("only what the shelf has").uncheck()
    expect(page.locator("#found a", has_text="110")).to_be_visible()


@only_in_a_whole_run
def test_numbers_close_by_have_no_zero_where_this_one_has_none(visit: Visit) -> None:
    """2,684 between two is 1,342 each, as it lies."""
    ask(visit.page, "2684", "2")
    alike = visit.page.locator("#nearest li", has_text="the same kind of work")
    expect(alike).to_have_count(1)
    assert "0" not in alike.inner_text().split(" ")[0]


@only_in_a_whole_run
def test_numbers_close_by_have_a_zero_where_this_one_has_one(visit: Visit) -> None:
    """5,005 among five is 1,001 each, as it lies: two zeros inside the share. 4 x 1,002 = 4,008; 6 x 1,001 = 6,006."""
    ask(visit.page, "5005", "5")
    alike = visit.page.locator("#nearest li", has_text="the same kind of work")
    expect(alike).to_have_count(2)
    assert [words.split(" ")[0] for words in alike.all_inner_texts()] == ["4,008", "6,006"]


@only_in_a_whole_run
def test_an_address_that_a_browser_refuses_to_write_is_gone_to(visit: Visit) -> None:
    """WebKit refuses for a while after a hundred in half a minute. 6 x 871 = 5,226."""
    page = visit.page
    ask(page, "4327", "6")
    page.get_by_role("button", name="Tray 1: one less").click()
    page.get_by_role("button", name="Next place").click()
    expect(page).to_have_url(re.compile("&seen=720,721,.*&movement="))
    page.evaluate("() => { history.replaceState = history.pushState = () => { throw new Error('refused'); }; }")
    page.get_by_label("The number").fill("5230")
    expect(page.locator("#answer-each")).to_have_text("Each has 871, and 4 are left over.")
    expect(page).to_have_url(ends("#number=5230&children=6"))
    expect(page.locator("#movement-now")).to_contain_text("Set out: 5 thousands")
    expect(page.locator("#tray-1")).to_have_value("871")
    page.get_by_role("link", name="Present it").click()
    page.get_by_role("link", name="Not right?").click()
    expect(page).to_have_url(ends("#number=5230&children=6&after=set-out&not-right"))
    assert visit.errors == []


@only_in_a_whole_run
def test_where_only_trays_are_short_a_mat_will_do(visit: Visit) -> None:
    page = visit.page
    page.get_by_text("Type in what is here today").click()
    page.get_by_role("textbox", name="Trays", exact=True).fill("2")
    ask(page, "4239", "3")
    expect(page.locator("#shelf-verdict")).to_contain_text("A table mat with a cup will do for the missing tray.")
    expect(page.locator("#found-state")).to_contain_text("a table mat with a cup in place of a tray, will do for a day")
    page.get_by_role("button", name="Back to the school").first.click()


@only_in_a_whole_run
def test_numbers_close_by_are_those_that_todays_shelf_has(visit: Visit, plain_site: Path) -> None:
    """8,765 among nine is 973 each, and eight are left over: 87 squares are needed at one moment."""
    page = visit.page
    page.goto((plain_site / TODAY).as_uri() + "#number=8765&children=9")
    expect(page.locator("#shelf-verdict")).to_contain_text("hundreds (87 needed")
    before = page.locator("#nearest a").evaluate_all("all => all.map(one => one.hash)")
    assert before
    for address in before:
        page.goto((plain_site / TODAY).as_uri() + address)
        expect(page.locator("#shelf-verdict")).to_have_text("The shelf has enough for this number.")
    page.get_by_text("Type in what is here today").click()
    for kind in ("Cubes", "Squares", "Bars", "Unit beads"):
        page.get_by_role("textbox", name=kind, exact=True).fill("0")
    expect(page.locator("#near")).to_be_hidden()
    page.get_by_role("button", name="Back to the school").first.click()


@only_in_a_whole_run
def test_where_only_cards_are_short_the_way_out_is_said_and_numbers_are_offered(visit: Visit) -> None:
    """1,480 among twelve needs twelve sets of small cards; the school has ten. 12 x 123 = 1,476."""
    page = visit.page
    ask(page, "1480", "12")
    with_substitutes = page.locator("#near-with-substitutes")
    expect(with_substitutes).to_be_visible()
    page.locator("#nearest").get_by_role("link", name="1,476", exact=True).click()
    expect(page.locator("#shelf-verdict")).to_have_text(
        "Not enough on the shelf: sets of small cards (12 needed, we have 10). Write 2 sets on paper."
    )
    ask(page, "4327", "6")
    expect(page.locator("#near")).to_be_visible()
    expect(with_substitutes).to_be_hidden()


@pytest.mark.parametrize(
    ("told", "number", "children", "fault"),
    sample(
        [
            ("number=4816", "4816", "", ""),
            ("children=6", "", "6", ""),
            ("number=12000&children=4", "12000", "4", "one to four digits"),
        ],
        2,
    ),
)
def test_what_an_address_tells_is_filled_in_also_where_it_cannot_be_answered(
    told: str, number: str, children: str, fault: str, visit: Visit, plain_site: Path
) -> None:
    page = visit.page
    page.goto("about:blank")
    page.goto(f"{(plain_site / TODAY).as_uri()}#{told}")
    expect(page.locator("#ask-number")).to_have_value(number)
    expect(page.locator("#ask-children")).to_have_value(children)
    expect(page.locator("#ask-number-fault")).to_have_text(re.compile(fault) if fault else "")
    expect(page.locator("#answer")).to_be_hidden()


@only_in_a_whole_run
def test_find_me_a_number_finds_what_the_command_finds(visit: Visit) -> None:
    page = visit.page
    ask(page, "5230", "5")
    page.get_by_label("Kind").select_option("exchange-tens")
    page.get_by_label("only what the shelf has").uncheck()
    answer = page.evaluate("sharing.choose(5, {exchange_from: ['tens'], remainder: 'none', zeros: 'none'})")
    assert answer["numbers"]
    expect(page.locator("#found a").nth(3)).to_be_visible()
    found = [link.replace(",", "") for link in page.locator("#found a").all_inner_texts()]
    assert found == [str(number) for number in answer["numbers"][: len(found)]]
    page.locator("#found a").first.click()
    expect(page.locator("#answer-way")).to_have_text("How it goes: exchange out of tens.")


@only_in_a_whole_run
def test_the_longest_lesson_is_a_choice_and_every_number_says_its_length(visit: Visit) -> None:
    page = visit.page
    ask(page, "5230", "12")
    page.get_by_label("only what the shelf has").uncheck()
    state = page.locator("#found-state")
    expect(state).to_have_text(NINE_THOUSAND)
    lengths = page.get_by_label("Length").locator("option").evaluate_all("all => all.map(one => one.value)")
    assert lengths[0] == "Infinity"
    for longest in lengths[-3:]:
        page.get_by_label("Length").select_option(longest)
        told = [int(minutes) for minutes in page.locator("#found td:last-child").all_inner_texts()]
        assert all(minutes <= int(longest) for minutes in told)
        expect(state).not_to_have_text(NINE_THOUSAND)


def test_the_answer_is_never_to_another_question_than_the_fields(visit: Visit, plain_site: Path) -> None:
    """Two searches for a number in a row lead to one page, with other words behind its #."""
    page = visit.page
    page.goto((plain_site / TODAY).as_uri() + "#number=4817&children=4")
    expect(page.locator("#answer-name")).to_have_text("4,817 among four")
    for address, right in (
        ("#number=5231", "5,231 among four"),
        ("#children=3", "5,231 among three"),
        ("#number=5231&children=49", ""),
        ("#number=5231&children=3", "5,231 among three"),
    ):
        page.evaluate("address => { location.hash = address; }", address)
        expect(page.locator("#answer:not(.old) #answer-name")).to_have_text([right] if right else [])


def kept_as(site: Path) -> str:
    """Under which name today's shelf is kept: each handbook has its own, for the rooms of a school differ."""
    return f"sharing-handbook-shelf {site.as_uri().removeprefix('file://')}/"


KEEP = "([name, counts]) => localStorage.setItem(name, JSON.stringify(counts))"
KEPT = "name => localStorage.getItem(name)"


@only_in_a_whole_run
def test_pages_that_go_by_the_schools_shelf_say_so_while_another_is_kept(visit: Visit, plain_site: Path) -> None:
    lesson = next(plain_site.glob("lessons/*/5230-among-4.html")).as_uri()
    for page in (lesson, (plain_site / "choosing" / "group-4.html").as_uri()):
        visit.page.goto(page)
        note = visit.page.locator(".other-shelf")
        expect(note).to_be_hidden()
        visit.page.evaluate(KEEP, [kept_as(plain_site), {"thousands": 3}])
        visit.page.reload()
        expect(note).to_contain_text("shelf is different")
        note.get_by_role("link").click()
        visit.page.wait_for_url("**/today.html#*")
        visit.page.evaluate("localStorage.clear()")


@only_in_a_whole_run
def test_todays_shelf_is_the_same_in_two_tabs(visit: Visit, plain_site: Path) -> None:
    """The note of a lesson comes also when the lesson is gone back to as it was left."""
    page = visit.page
    ask(page, "4327", "6")
    with page.context.new_page() as other:
        lesson = next(plain_site.glob("lessons/*/5230-among-4.html"))
        other.goto(lesson.as_uri())
        expect(other.locator(".other-shelf")).to_be_hidden()
        page.get_by_text("Type in what is here today").click()
        page.get_by_label("Squares").fill("12")
        page.get_by_label("Squares").press("Enter")
        expect(other.locator(".other-shelf")).to_be_visible()
        page.get_by_label("Bars").fill("3")  # still being written while something else is kept
        other.evaluate("localStorage.setItem('something-else', '1')")
        other.evaluate(
            "document.documentElement.classList.remove('has-other-shelf'); dispatchEvent(new Event('pageshow'))"
        )
        expect(other.locator(".other-shelf")).to_be_visible()
        other.evaluate(KEEP, [kept_as(plain_site.parent), {"tens": 2}])  # in another room
        other.evaluate(KEEP, [kept_as(plain_site), {"tens": 1}])
        expect(page.get_by_label("Bars")).to_have_value("1")
        expect(page.locator("#shelf-verdict")).to_contain_text("tens (")
        expect(page.get_by_label("Squares")).to_have_value("45")


@only_in_a_whole_run
def test_where_nothing_more_can_be_kept_todays_shelf_holds_as_long_as_the_page(
    chromium: Browser, plain_site: Path
) -> None:
    with visiting(chromium, own=True) as visit:
        visit.page.add_init_script(
            "Storage.prototype.setItem = () => { throw new DOMException('', 'QuotaExceededError'); }"
        )
        visit.page.goto((plain_site / TODAY).as_uri())
        ask(visit.page, "4327", "6")
        visit.page.get_by_text("Type in what is here today").click()
        visit.page.get_by_label("Squares").fill("12")
        expect(visit.page.locator("#shelf-verdict")).to_contain_text("hundreds (43 needed, we have 12)")
        expect(visit.page.locator("#shelf-state")).to_contain_text("this browser keeps nothing")


@only_in_a_whole_run
def test_todays_shelf_is_kept_and_given_back(visit: Visit, plain_site: Path) -> None:
    page = visit.page
    ask(page, "4327", "6")
    page.get_by_text("Type in what is here today").click()
    expect(page.locator(".entered")).to_be_hidden()
    page.get_by_label("Squares").fill("12")
    expect(page.locator("#shelf-verdict")).to_contain_text("hundreds (43 needed, we have 12)")
    expect(page.locator(".entered")).to_be_visible()
    expect(page.locator("#shelf-state")).to_have_text(re.compile("what you typed here. It is kept in this browser"))
    kept = json.loads(page.evaluate(KEPT, kept_as(plain_site)))
    damaged = {**kept, "day": "", "tens": "many", "units": None}  # and of another day
    page.evaluate(KEEP, [kept_as(plain_site), damaged])
    page.reload()
    expect(page.locator("#shelf-state")).to_contain_text("on another day. Is it still right?")
    expect(page.get_by_label("Squares")).to_have_value("12")
    for kind, own in (("Bars", SHELF.tens), ("Unit beads", SHELF.units)):
        expect(page.get_by_role("textbox", name=kind, exact=True, include_hidden=True)).to_have_value(str(own))
    page.get_by_text("Type in what is here today").click()
    fault = page.locator("#shelf-fault")
    page.get_by_label("Squares").fill("many")
    expect(fault).to_contain_text("Type a whole number")
    page.get_by_label("Trays", exact=True).fill("9")
    expect(fault).to_contain_text("Type a whole number")  # the squares are still wrong
    page.locator(".entered").get_by_role("button", name="Back to the school").click()
    expect(page.locator("#shelf-verdict")).to_have_text("The shelf has enough for this number.")
    expect(page.get_by_label("Squares")).to_have_value("45")
    expect(fault).to_be_empty()
    expect(page.get_by_label("Squares")).to_have_attribute("aria-invalid", "false")
    for count in ("44", "45"):  # and back by hand: other pages would say that something else is on the shelf
        page.get_by_label("Squares").fill(count)
    expect(page.locator(".entered")).to_be_hidden()
    assert page.evaluate(KEPT, kept_as(plain_site)) is None
    page.evaluate(KEEP, [kept_as(plain_site), {"units": SHELF.units}])
    page.reload()  # the school's own shelf has become what was kept
    assert page.evaluate(KEPT, kept_as(plain_site)) is None


def test_who_is_led_to_a_part_of_it_stands_there_with_the_keyboard(visit: Visit, plain_site: Path) -> None:
    page = visit.page
    for address, focused in (("#number=4817&children=4&not-right", "not-right"), ("#todays-shelf", "todays-shelf")):
        page.goto("about:blank")
        page.goto((plain_site / TODAY).as_uri() + address)
        expect(page.locator(f"#{focused}")).to_be_focused()
        expect(page.locator(f"#{focused}")).to_be_in_viewport()
    expect(page.get_by_label("Squares")).to_be_visible()


@only_in_a_whole_run
@pytest.mark.parametrize(("scheme", "width"), A_VIEW)
def test_it_is_accessible_while_it_answers(scheme: str, width: int, chromium: Browser, plain_site: Path) -> None:
    address = (
        plain_site / TODAY
    ).as_uri() + "#number=4327&children=12&seen=360,360,361,360,360,360,360,360,360,360,360,359&left=7"
    screen: ViewportSize = {"width": width, "height": 768}
    with visiting(chromium, color_scheme=scheme, viewport=screen, reduced_motion="reduce") as visit:
        visit.page.goto(address)
        visit.page.locator("#answer").wait_for()
        visit.page.evaluate(UNFOLD)
        assert axe_faults(visit.page) == []
        assert visit.page.evaluate(SMALL_TARGETS, TARGET) == []
        assert visit.page.evaluate("document.documentElement.scrollWidth") <= width
        visit.page.get_by_label("Children sharing").fill("13")
        expect(visit.page.locator(".is-old p")).to_be_visible()
        assert axe_faults(visit.page) == []
        visit.page.get_by_label("Children sharing").fill("12")
        for button in visit.page.locator(".to-print .md-button").all():
            button.focus()
            assert axe_faults(visit.page, ".to-print") == []


@only_in_a_whole_run
def test_what_to_set_out_is_led_to_and_what_is_seen_stays_in_the_address(visit: Visit, plain_site: Path) -> None:
    page = visit.page
    seen = "#number=4327&children=6&seen=731,721,721,721,721,711&left=1"
    page.goto((plain_site / TODAY).as_uri() + seen)
    for _ in range(2):
        page.get_by_role("link", name="What to set out", exact=True).click()
        expect(page.locator("#set-out")).to_be_focused()
        expect(page.locator("#set-out")).to_be_in_viewport()
        page.evaluate("scrollTo(0, 0)")
    expect(page).to_have_url(ends(seen))


@only_in_a_whole_run
def test_the_address_is_written_as_the_fields_have_it(visit: Visit, plain_site: Path) -> None:
    page = visit.page
    page.goto((plain_site / TODAY).as_uri() + "#number=4327&children=6")
    page.evaluate("location.hash = 'number=99999&children=6'")
    expect(page.locator("#ask-number-fault")).not_to_be_empty()
    page.locator("#ask-number").fill("4327")
    expect(page).to_have_url(ends("#number=4327&children=6"))
    page.evaluate("location.hash = 'number=500'")
    expect(page).to_have_url(ends("#number=500&children=6"))
    page.evaluate("location.hash = 'children=6&number=4,327&seen=721%2C721%2C721%2C721%2C720%2C720&present-hundreds'")
    expect(page.locator("html")).to_have_class(re.compile("presenting"))
    expect(page).to_have_url(ends("#number=4327&children=6&seen=721,721,721,721,720,720&present-hundreds"))


def test_without_scripts_it_leads_to_the_choosing_pages(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium, java_script_enabled=False) as visit:
        visit.page.goto((plain_site / TODAY).as_uri())
        expect(visit.page.locator("#todays-number")).to_be_hidden()
        visit.page.get_by_role("link", name="Choose a ready number").click()
        expect(visit.page).to_have_url((plain_site / "choosing" / "index.html").as_uri())


@only_in_a_whole_run
def test_one_bead_has_a_line_of_its_own_and_no_numbers_near_to_it(visit: Visit) -> None:
    page = visit.page
    ask(page, "2", "4")
    expect(page.locator("#near")).to_be_visible()
    ask(page, "1", "4")
    expect(page.locator("#answer-way")).to_contain_text("One bead cannot be shared: it is all left over.")
    expect(page.locator("#near")).to_be_hidden()


@only_in_a_whole_run
def test_a_number_near_to_it_is_listed_once_with_all_that_it_does(visit: Visit) -> None:
    """Worked by hand: 848 is the multiple of 4 next to 847, and each of its digits is one too."""
    ask(visit.page, "847", "4")
    near = visit.page.locator("#nearest li")
    expect(near.first).to_have_text("848 nothing left over, shares out as it lies")
    addresses = visit.page.locator("#nearest a").evaluate_all("all => all.map(one => one.hash)")
    assert len(set(addresses)) == len(addresses) == 3


def test_a_number_that_is_found_is_taken_at_the_first_click_and_its_answer_comes_into_view(visit: Visit) -> None:
    page = visit.page
    page.get_by_label("Children sharing").fill("6")
    first = page.locator("#found a").first
    number = first.inner_text()
    first.click()
    expect(page.locator("#answer-name")).to_have_text(f"{number} among six")
    expect(page.locator("#answer-name")).to_be_in_viewport()
    expect(page.locator("#answer-name")).to_be_focused()


@only_in_a_whole_run
def test_with_ribbons_it_lists_no_numbers_that_nobody_asked_for(visit: Visit, plain_site: Path) -> None:
    visit.page.goto((plain_site / TODAY).as_uri() + "#number=3432&children=12&ribbons")
    state = visit.page.locator("#found-state")
    expect(state).to_contain_text("Numbers are found for sharing without ribbons.")
    expect(visit.page.locator("#found a")).to_have_count(0)
    visit.page.locator("#ask-ribbons").uncheck()
    ask(visit.page, "3432", "3")
    expect(state).to_contain_text("for 3 children")
    expect(state).not_to_contain_text("ribbons")


@only_in_a_whole_run
def test_a_fault_in_the_field_of_a_tray_leaves_no_answer_to_what_stood_there_before(visit: Visit) -> None:
    page = visit.page
    ask(page, "4817", "4")
    page.get_by_role("button", name="Tray 1: one less").click()
    expect(page.locator("#not-right-total")).to_contain_text("1 is missing")
    page.get_by_label("Tray 1", exact=True).fill("beads")
    expect(page.locator("#seen-fault")).not_to_be_empty()
    expect(page.locator("#not-right-total")).to_be_empty()
    expect(page.locator("#not-right-told")).to_be_empty()


@only_in_a_whole_run
def test_todays_shelf_decides_at_once_which_slips_may_be_seen(visit: Visit) -> None:
    """What takes more pieces than the sharing needs can be seen only where the shelf has them."""
    page = visit.page
    ask(page, "4326", "2")
    page.locator("#every-movement").wait_for()
    seen = page.locator("#todays-lesson .not-right li h3")
    before = seen.all_text_contents()
    page.get_by_text("Type in what is here today").click()
    for kind in ("Cubes", "Squares", "Bars", "Unit beads"):
        page.get_by_role("textbox", name=kind, exact=True).fill("0")
    expect(page.locator("#shelf-verdict")).to_contain_text("units (")
    page.locator("#every-movement").wait_for()
    assert seen.all_text_contents() != before
    page.get_by_role("button", name="Back to the school").first.click()
    page.locator("#every-movement").wait_for()
    assert seen.all_text_contents() == before
    expect(page.locator("#every-movement")).to_have_count(1)


def test_trays_in_the_address_that_cannot_be_read_are_told(visit: Visit) -> None:
    page = visit.page
    page.evaluate("location.hash = 'number=4816&children=4&seen=a,b,c,d'")
    expect(page.locator("#not-right-total")).to_contain_text("do not fit this group")


@only_in_a_whole_run
def test_where_cards_are_short_numbers_are_found_of_which_everybody_gets_some(visit: Visit) -> None:
    """With ten sets of small cards: only of less than eleven beads does nobody of eleven children need one."""
    page = visit.page
    page.get_by_label("Children sharing").fill("11")
    page.get_by_label("Digits").select_option("2")
    expect(page.locator("#found-state")).to_contain_text("Cards on paper, or a table mat")
    expect(page.locator("#found a", has_text="22")).to_be_visible()


def test_a_number_that_is_found_says_the_share_and_what_is_left_over(visit: Visit) -> None:
    """45 = 4 x 11 + 1, without an exchange."""
    page = visit.page
    page.get_by_label("Children sharing").fill("4")
    page.get_by_label("Digits").select_option("2")
    page.get_by_label("Left over").select_option("some")
    page.get_by_label("Length").select_option("15")
    line = page.locator("#found tr", has=page.get_by_role("link", name="45", exact=True))
    expect(line.locator("td")).to_have_text(["11", "1", "0", "15"])


@pytest.mark.parametrize(("kind", "exchanges"), [("static", "0"), ("exchange-tens", "1")])
def test_something_left_over_is_found_with_every_kind(kind: str, exchanges: str, visit: Visit) -> None:
    """5,556 = 5 x 1,111 + 1 goes out as it lies; 5,566 = 5 x 1,113 + 1 with one ten to the bank."""
    page = visit.page
    page.get_by_label("Children sharing").fill("5")
    page.get_by_label("Kind").select_option(kind)
    page.get_by_label("Left over").select_option("some")
    expect(page.locator("#found-state")).to_have_text(re.compile("^[0-9]+ numbers for 5 children"))
    lines = page.locator("#found tbody tr").evaluate_all("all => all.map(line => line.children[2].textContent)")
    assert lines
    assert all(int(left_over) > 0 for left_over in lines)
    expect(page.locator("#found tbody tr").first.locator("td").nth(2)).to_have_text(exchanges)


def test_who_has_not_exchanged_is_led_only_to_what_there_is(visit: Visit) -> None:
    """No digit goes round among ten."""
    page = visit.page
    for children, is_led in (("9", True), ("10", False)):
        page.get_by_label("Children sharing").fill(children)
        state = page.locator("#found-state")
        expect(state).to_contain_text(f"for {children} children")
        assert ("Has nobody exchanged yet?" in state.inner_text()) is is_led


def test_where_few_numbers_are_found_shorter_ones_are_named(visit: Visit) -> None:
    page = visit.page
    page.get_by_label("Children sharing").fill("4")
    page.get_by_label("Length").select_option("15")
    expect(page.locator("#found-state")).to_have_text(re.compile("^1 number for 4 .* There are [0-9]+ with three"))


@only_in_a_whole_run
def test_where_no_number_is_found_the_fields_that_would_help_are_named(visit: Visit) -> None:
    page, state = visit.page, visit.page.locator("#found-state")
    page.get_by_label("Children sharing").fill("4")
    page.get_by_label("Kind").select_option("remainder")
    page.get_by_label("Left over").first.select_option("none")
    expect(state).to_have_text("No such number for 4 children. To find some, change “Kind” or “Left over”.")
    page.get_by_label("Kind").select_option("static")
    page.get_by_label("Children sharing").fill("10")
    expect(state).to_contain_text("With ten children or more, something always goes to the bank")


@only_in_a_whole_run
@pytest.mark.parametrize(("asked", "near"), [("51&children=11", "11"), ("13&children=12", "11")])
def test_a_number_of_which_nobody_gets_any_is_not_the_same_kind_of_work(
    asked: str, near: str, visit: Visit, plain_site: Path
) -> None:
    visit.page.goto((plain_site / TODAY).as_uri() + f"#number={asked}")
    expect(visit.page.locator("#answer-name")).not_to_be_empty()
    alike = visit.page.locator("#nearest li", has_text="the same kind of work")
    assert near not in [words.split(" ")[0] for words in alike.all_inner_texts()]


@only_in_a_whole_run
def test_where_the_shelf_has_no_number_so_long_shorter_ones_are_named(visit: Visit) -> None:
    page = visit.page
    page.get_by_label("Children sharing").fill("4")
    page.get_by_text("Type in what is here today").click()
    page.get_by_role("textbox", name="Cubes", exact=True).fill("0")
    expect(page.locator("#found-state")).to_have_text(
        re.compile("^No such number for 4 .* There are [0-9]+ with three")
    )
