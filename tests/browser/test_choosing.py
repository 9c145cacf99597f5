"""A number for today: one that is asked on the first page, or ready ones, of which a reader can see one kind alone."""

from pathlib import Path

from playwright.sync_api import Browser, expect

from tests.browser.conftest import visiting
from tests.sampling import only_in_a_whole_run

SHOWN = "parts => parts.filter(part => part.checkVisibility()).map(part => part.id)"


@only_in_a_whole_run
def test_each_kind_can_be_seen_alone(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium) as visit:
        visit.page.goto((plain_site / "choosing" / "group-4.html").as_uri())
        parts = visit.page.locator(".numbers tbody")
        every = parts.evaluate_all("parts => parts.map(part => part.id)")
        kinds = visit.page.get_by_role("radio")
        assert kinds.count() == len(every) + 1 > 5
        assert parts.evaluate_all(SHOWN) == every
        for number, kind in enumerate(every, start=1):
            kinds.nth(number).check()
            assert parts.evaluate_all(SHOWN) == [kind]
        kinds.first.check()
        assert parts.evaluate_all(SHOWN) == every


def test_first_numbers_are_on_the_first_screen_and_heads_stay_in_view(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium) as visit:
        visit.page.set_viewport_size({"width": 1366, "height": 768})
        visit.page.goto((plain_site / "choosing" / "group-4.html").as_uri())
        expect(visit.page.locator(".numbers tbody a").nth(1)).to_be_in_viewport(ratio=1)
        visit.page.locator(".numbers tbody a").last.scroll_into_view_if_needed()
        head = visit.page.get_by_role("columnheader", name="Each has")
        expect(head).to_be_in_viewport(ratio=1)
        at_its_corner = """head => {
          const { left, top } = head.getBoundingClientRect();
          return document.elementFromPoint(left + 5, top + 5) === head;
        }"""
        assert head.evaluate(at_its_corner), "the head of the page does not cover it"


def test_how_many_pieces_are_out_is_shown_to_those_who_ask(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium) as visit:
        visit.page.goto((plain_site / "choosing" / "group-4.html").as_uri())
        head = visit.page.get_by_role("columnheader", name="Out of the bank at most")
        expect(head).to_be_hidden()
        visit.page.get_by_role("checkbox").check()
        expect(head).to_be_visible()


def test_a_number_on_the_first_page_leads_to_its_answer(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium) as visit:
        visit.page.goto((plain_site / "index.html").as_uri())
        visit.page.locator("#today-number").fill(" 4\u202f327 ")  # as another handbook writes it
        visit.page.locator("#today-children").fill("13")
        visit.page.keyboard.press("Enter")
        visit.page.wait_for_url("**/today.html#number=4327&children=13")
        expect(visit.page.locator("#ask-children-fault")).to_contain_text("To divide by more, tick “with ribbons”.")
        expect(visit.page.locator("#ask-number")).to_have_value("4327")
        visit.page.get_by_label("with ribbons").check()
        expect(visit.page.locator("#answer-name")).to_contain_text("4,327 for 13")
        visit.page.get_by_label("ten", exact=True).fill("x")
        expect(visit.page.locator("#ask-for-one-fault")).not_to_be_empty()
        visit.page.goto((plain_site / "index.html").as_uri())
        visit.page.locator("#today-number").fill("\uff14,\uff13\uff12\uff17")  # digits as wide as Japanese signs
        visit.page.locator("#today-children").fill("6")
        visit.page.keyboard.press("Enter")
        visit.page.wait_for_url("**/today.html#number=4327&children=6")
        expect(visit.page.locator("#answer-name")).to_contain_text("4,327")


@only_in_a_whole_run
def test_a_number_where_something_is_not_right_leads_to_its_trays(chromium: Browser, plain_site: Path) -> None:
    with visiting(chromium) as visit:
        visit.page.goto((plain_site / "when-it-goes-wrong" / "trays-differ.html").as_uri())
        visit.page.get_by_role("link", name="Type in what is on the trays").click()
        visit.page.locator("#today-number").fill("5,230")
        visit.page.locator("#today-children").fill("4")
        visit.page.keyboard.press("Enter")
        visit.page.wait_for_url("**/today.html#number=5230&children=4&not-right")
        expect(visit.page.get_by_label("Tray 1", exact=True)).to_be_in_viewport(ratio=1)
        visit.page.get_by_role("button", name="Tray 3: one less").click()
        visit.page.get_by_role("button", name="Left over, or still in the middle: one more").click()
        expect(visit.page.locator("#not-right-told .cause").first).to_be_in_viewport()
        assert visit.errors == []
