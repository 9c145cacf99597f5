""" "Today's number" from a real server under the strict policy: all works, and nothing but pictures is asked for."""

from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import visiting
from tests.browser.test_today import TODAY, ask
from tests.sampling import only_in_a_whole_run


@only_in_a_whole_run
def test_all_of_it_works_without_a_request_a_message_or_a_violation(address: str, chromium: Browser) -> None:
    """Worked by hand: 6 x 721 = 4,326."""
    with visiting(chromium, own=True) as visit:
        page = visit.page
        violations: list[str] = []
        page.expose_function("noted", lambda directive: violations.append(directive))
        page.add_init_script(
            "addEventListener('securitypolicyviolation', ({ violatedDirective }) => noted(violatedDirective))"
        )
        messages: list[str] = []
        page.on("console", lambda said: messages.append(said.text))
        page.goto(address + TODAY)
        page.wait_for_load_state("networkidle")
        requests: list[str] = []
        page.on("request", lambda request: requests.append(request.url))

        ask(page, "4327", "6")
        expect(page.locator("#answer-each")).to_have_text("Each has 721, and 1 is left over.")
        page.locator("#every-movement").wait_for()
        go_through_movements(page)
        practise(page)
        change_the_shelf(page)
        page.get_by_role("button", name="Tray 3: one less").click()
        page.get_by_role("button", name="Left over, or still in the middle: one more").click()
        expect(page.locator("#not-right-told .cause").first).to_contain_text(
            "Give one unit bead from what is left over"
        )
        page.get_by_label("Kind").select_option("exchange-tens")
        page.locator("#found a").first.click()
        expect(page.locator("#answer-way")).to_have_text("How it goes: exchange out of tens.")

        drawn = page.locator(".mat .bead").first.evaluate("bead => getComputedStyle(bead).backgroundImage")
        assert "sprite.svg" in drawn
        pictures = [url for url in requests if url.startswith(address) and url.partition("#")[0].endswith(".svg")]
        assert requests == pictures
        assert (violations, messages, visit.errors, visit.outside) == ([], [], [], [])


def go_through_movements(page: Page) -> None:
    now = page.locator("#movement-now")
    page.locator("[data-go=next]").click()
    expect(now).to_contain_text("Movement 1 of 22")
    page.get_by_role("button", name="Last").click()
    expect(now).to_contain_text("Movement 22 of 22")
    page.get_by_role("button", name="First").click()


def practise(page: Page) -> None:
    page.get_by_label("Practise").check()
    page.get_by_role("button", name="Share out a round").click()
    expect(page.locator("#practise-told")).to_have_text("Right.")
    page.get_by_role("button", name="Share out a round").click()
    expect(page.locator("#practise-told")).to_contain_text("Look again.")
    page.get_by_role("button", name="Take the round back").click()
    expect(page.locator("#practise-told")).to_contain_text("Right")
    page.get_by_label("Practise").uncheck()


def change_the_shelf(page: Page) -> None:
    page.get_by_text("Type in what is here today").click()
    page.get_by_label("Squares").fill("12")
    expect(page.locator("#shelf-verdict")).to_contain_text("hundreds (43 needed, we have 12)")
    page.get_by_role("button", name="Back to the school").first.click()
    expect(page.locator("#shelf-verdict")).to_have_text("The shelf has enough for this number.")
