"""Printed sheets: numbered, titled, on both paper sizes, nothing cut, nothing folded away; looked at in the PDF."""

import re
from dataclasses import replace
from itertools import product
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from generator.site.book import BOOK
from tests.browser.printing import MARGIN, OFF_BY, PAPERS, Sheet, cut, links, mark, print_to, stated
from tests.sampling import only_in_a_whole_run, sample, times
from tests.site import samples

SETTINGS = replace(samples.SETTINGS, site_name="Hazel Lane")
IMPRINT = "Hazel Lane, version 1.2.3, 2026-03-01"
LESSON = "lessons/place-by-place.html"
CARDS = "lessons/cards.html"
CARDS_OF_A_STEP = "lessons/left-over/cards.html"
STOCK = (
    "lessons/left-over/6217-among-5.html",
    "lessons/ten-ribbons/3432-for-12.html",
    CARDS_OF_A_STEP,
    "choosing/group-4.html",
    "new-here/sign-off.html",
)
FULL_OF_HELP = "lessons/one-exchange/4648-among-4.html"
EMERGENCY = "when-it-goes-wrong/emergency.html"
BOOK_OF_HELP = "book-when-it-goes-wrong.html"
ON_ONE_SHEET = [f"new-here/{name}.html" for name in ("index", "cautions", "the-roles", "words", "what-next")]
MOST_SHEETS = 260
"""Of the book of everything, as the plan for this handbook asks; it was 849 when lessons were bound as their pages."""

HEIGHTS = (200, 260, 330, 410, 500, 600)
CARD_NUMBERS = (5230, 5231, 5232, 5233, 5234)


def lesson() -> str:
    """A lesson whose figures and tables are so long that sheets end in the middle of most of them."""
    parts = ["# 5,230 among four: two left over", '<p class="trail"><a href="../index.html">Home</a></p>']
    parts.append('<dl class="glance"><div><dt>Number</dt><dd>5,230</dd></div></dl>')
    trays = "".join(f'<li><label><input type="checkbox"> Put out tray {tray}</label></li>' for tray in range(9))
    parts.append(f'## Set out\n\n<ul class="checklist">{trays}</ul>')
    for figure, height in enumerate(HEIGHTS):
        rows = "".join(
            f'<tr><th scope="row">{row}</th><td>Deal one to each tray, in turn; stop when everybody has one, and look '
            f"whether all trays are the same before going on</td><td>{5230 - row}</td></tr>"
            for row in range(12)
        )
        parts.append(
            f"## Place {figure}\n\nDeal, then look. See [the check](#check).\n\n"
            f'<figure class="work"><img src="figure-{figure}.svg" alt="Figure" width="700" height="{height}" '
            f'loading="lazy"><figcaption>Caption of figure {figure}.</figcaption></figure>\n\n'
            f'<div class="table-scroll" role="region" tabindex="0" aria-labelledby="rounds-{figure}"><table>'
            f'<caption id="rounds-{figure}">Rounds at place {figure}</caption><thead><tr><th scope="col">Round</th>'
            f'<th scope="col">Do</th><th scope="col">To share</th></tr></thead><tbody>{rows}</tbody></table></div>\n\n'
            f'??? question "Why?"\n    Folded answer {figure}.'
        )
    parts.append('## Check {#check}\n\n!!! warning "Small beads"\n    Count them back in.')
    return "\n\n".join(parts)


def cards() -> str:
    sections = "".join(
        f'<section class="card"><h2 id="n{number}">{number} among four</h2><p>Share 1,307</p></section>'
        for number in CARD_NUMBERS
    )
    return f'# Cards to cut out\n\nFold once.\n\n<div class="cards">{sections}</div>'


def figure(number: int, height: int) -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="700" height="{height}" viewBox="0 0 700 {height}">'
        f'<text x="20" y="40">upper{number}</text><text x="20" y="{height - 20}">lower{number}</text></svg>'
    )


@pytest.fixture(scope="module")
def printable(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site with a long lesson, cards and the book of both, ready for print."""
    docs = tmp_path_factory.mktemp("docs")
    pages = {"index.md": "# Start\n\n[Lesson](lessons/place-by-place.md)", "reference/a-z.md": "# A-Z\n"}
    pages |= {"lessons/place-by-place.md": lesson(), "lessons/cards.md": cards()}
    pages |= {f"lessons/figure-{number}.svg": figure(number, height) for number, height in enumerate(HEIGHTS)}
    for name, text in pages.items():
        (docs / name).parent.mkdir(exist_ok=True)
        (docs / name).write_text(text, "utf-8")
    return samples.build(tmp_path_factory.mktemp("printable") / "site", docs, [{"Start": "index.md"}], SETTINGS)


def check_sheets(sheets: tuple[Sheet, ...], paper: str, title: str, imprint: str = IMPRINT) -> None:
    """Every sheet has the paper's size, its number, title and version, and nothing over its edge."""
    for number, sheet in enumerate(sheets, start=1):
        assert (sheet.width, sheet.height) == pytest.approx(PAPERS[paper], abs=1.5)
        assert sheet.head.startswith(title)
        assert sheet.foot == f"{imprint} {number} / {len(sheets)}"
        assert all(word.left > 20 and word.right < sheet.width - 20 for word in sheet.words)


@pytest.mark.parametrize(("shift", "paper"), sample(product([0, 90, 180, 270], PAPERS), 1))
def test_a_lesson_is_cut_nowhere(shift: int, paper: str, page: Page, printable: Path, tmp_path: Path) -> None:
    page.goto((printable / LESSON).as_uri())
    page.evaluate("(shift) => { document.querySelector('h1').style.paddingTop = `${shift}px`; }", shift)
    marked = mark(page)
    assert marked == 1 + 9 + len(HEIGHTS) * (1 + 12) + 1
    sheets = print_to(tmp_path / "lesson.pdf", page, paper)
    assert cut(sheets, marked) == []
    check_sheets(sheets, paper, "5,230 among four: two left over")


def test_the_check_sees_what_is_cut(page: Page, printable: Path, tmp_path: Path) -> None:
    page.goto((printable / LESSON).as_uri())
    page.evaluate("""() => document.querySelectorAll("figure, tr").forEach((element) => {
        element.style.breakInside = "auto";
        if (element.matches("figure")) element.querySelector("img").replaceWith("word ".repeat(600));
    })""")
    marked = mark(page)
    assert cut(print_to(tmp_path / "lesson.pdf", page, "A4"), marked)


@pytest.mark.parametrize("name", sample([LESSON, BOOK], 1))
def test_figures_and_folded_answers_are_printed_without_scripts(
    name: str, chromium: Browser, printable: Path, tmp_path: Path
) -> None:
    context = chromium.new_context(java_script_enabled=False, color_scheme="dark")
    page = context.new_page()
    page.goto((printable / name).as_uri())
    text = " ".join(sheet.text for sheet in print_to(tmp_path / "x.pdf", page, "A4"))
    context.close()
    for number in range(len(HEIGHTS)):
        assert f"Folded answer {number}." in text
        assert f"upper{number}" in text
        assert f"lower{number}" in text


@pytest.mark.parametrize("name", [LESSON, BOOK])
def test_who_prefers_dark_prints_black_on_white_all_the_same(name: str, page: Page, printable: Path) -> None:
    page.emulate_media(media="print", color_scheme="dark")
    page.goto((printable / name).as_uri())
    colours = """element => {
        const style = getComputedStyle(document.querySelector(element));
        return [style.color, style.backgroundColor, style.colorScheme];
    }"""
    assert page.evaluate(colours, "html") == ["rgb(0, 0, 0)", "rgb(255, 255, 255)", "light only"]
    assert page.evaluate(colours, "article p")[:2] == ["rgb(0, 0, 0)", "rgba(0, 0, 0, 0)"]


def test_what_serves_the_screen_only_is_not_printed(page: Page, printable: Path, tmp_path: Path) -> None:
    page.goto((printable / LESSON).as_uri())
    text = " ".join(sheet.text for sheet in print_to(tmp_path / "x.pdf", page, "A4"))
    for word in ("Search", "Home", "Skip", "file:", "A-Z"):
        assert word not in text


@pytest.mark.parametrize(
    ("name", "ways"),
    [("choosing/group-6.html", "Other groups"), ("lessons/left-over/6217-among-5.html", "Before and after")],
)
def test_ways_to_other_pages_are_not_printed(name: str, ways: str, page: Page, plain_site: Path) -> None:
    page.goto((plain_site / name).as_uri())
    expect(page.get_by_role("navigation", name=ways)).to_be_visible()
    page.emulate_media(media="print")
    expect(page.get_by_role("navigation", name=ways)).to_have_count(0)


@pytest.mark.parametrize("paper", PAPERS)
def test_cards_stand_two_to_a_sheet(paper: str, page: Page, printable: Path, tmp_path: Path) -> None:
    page.goto((printable / CARDS).as_uri())
    marked = mark(page)
    sheets = print_to(tmp_path / "cards.pdf", page, paper)
    assert marked == len(CARD_NUMBERS)
    assert cut(sheets, marked) == []
    check_sheets(sheets, paper, "Cards to cut out")
    on_sheets = [[number for number in CARD_NUMBERS if str(number) in sheet.text] for sheet in sheets]
    assert on_sheets == [[5230, 5231], [5232, 5233], [5234]]
    second = next(word for word in sheets[0].words if word.text == "5231")
    assert second.top == pytest.approx(sheets[0].height / 2, abs=40)


@pytest.mark.parametrize("paper", PAPERS)
def test_cards_are_of_one_height_and_each_says_what_it_belongs_to(paper: str, page: Page, plain_site: Path) -> None:
    """The line to cut along lies in the middle of the sheet; a card alone has it too."""
    page.goto((plain_site / CARDS_OF_A_STEP).as_uri())
    page.evaluate("(paper) => { document.documentElement.dataset.paper = paper; }", paper)
    page.emulate_media(media="print")
    cards = page.locator(".card")
    heights = cards.evaluate_all("cards => cards.map(card => card.offsetHeight)")
    half = PAPERS[paper][1] / 2 - MARGIN  # in points
    assert heights == [pytest.approx(half * 96 / 72, abs=2)] * len(heights)
    for said in cards.all_inner_texts():
        assert "Left over. Larkfield Children\N{RIGHT SINGLE QUOTATION MARK}s House, version 1.0.0, 20" in said
    page.goto((plain_site / CARDS_OF_A_STEP).as_uri() + f"#{cards.nth(1).get_attribute('id')}")
    expect(page.locator(".card:visible")).to_have_count(1)
    line = "card => [getComputedStyle(card).borderBottomStyle, getComputedStyle(card).paddingTop]"
    assert page.locator(".card:visible").evaluate(line) == ["dashed", "0px"]


@pytest.mark.parametrize("paper", sample(PAPERS, 1))
def test_the_book_is_cut_nowhere_and_its_links_lead_to_their_sheets(
    paper: str, page: Page, printable: Path, tmp_path: Path
) -> None:
    page.goto((printable / BOOK).as_uri())
    marked = mark(page)
    sheets = print_to(tmp_path / "book.pdf", page, paper)
    assert cut(sheets, marked) == []
    check_sheets(sheets, paper, "Hazel Lane")
    found = dict(links(tmp_path / "book.pdf"))
    for chapter in ("1 Start", "2 Cards to cut out", "3 5,230 among four: two left over"):
        sheet = found[chapter] - 1
        assert sheets[sheet].head == f"Hazel Lane {chapter}"
        assert sheets[sheet - 1].head != sheets[sheet].head
    assert "Count them back in." in sheets[found["the check."] - 1].text


@only_in_a_whole_run
@pytest.mark.parametrize("paper", PAPERS)
def test_the_school_can_set_its_paper(paper: str, page: Page, printable: Path, tmp_path: Path) -> None:
    page.goto((printable / CARDS).as_uri())
    page.evaluate("(paper) => { document.documentElement.dataset.paper = paper; }", paper)
    check_sheets(print_to(tmp_path / "x.pdf", page), paper, "Cards to cut out")


@pytest.mark.parametrize(("name", "paper"), sample(product(STOCK, PAPERS), 1))
def test_the_stock_handbook_is_cut_nowhere(name: str, paper: str, page: Page, site: Path, tmp_path: Path) -> None:
    page.goto((site / name).as_uri())
    marked = mark(page)
    assert marked
    sheets = print_to(tmp_path / "page.pdf", page, paper)
    assert cut(sheets, marked) == []
    check_sheets(sheets, paper, *said(page))


@only_in_a_whole_run
def test_a_printed_lesson_has_no_large_help_and_no_nearly_empty_sheet(page: Page, site: Path, tmp_path: Path) -> None:
    page.goto((site / FULL_OF_HELP).as_uri())
    sheets = print_to(tmp_path / "lesson.pdf", page, "A4")
    assert [len(sheet.words) for sheet in sheets if len(sheet.words) < 40] == []
    page.emulate_media(media="print")
    size = "elements => Math.max(...elements.map(element => parseFloat(getComputedStyle(element).fontSize)))"
    text = page.locator("article").evaluate_all(size)
    assert page.locator(".symptoms li, details dd, figcaption").evaluate_all(size) <= text


def test_in_an_emergency_two_sheets_hold_all_and_nobody_turns_over_within_the_steps(
    page: Page, site: Path, tmp_path: Path
) -> None:
    page.goto((site / EMERGENCY).as_uri())
    assert not page.locator(".on-this-page").is_visible()  # buttons say the same
    firsts, lasts = (page.locator(f"h2 + ol > li:{edge}-child").all_inner_texts() for edge in ("first", "last"))
    assert len(firsts) > 5
    for paper in PAPERS:
        sheets = print_to(tmp_path / "emergency.pdf", page, paper)
        assert len(sheets) == 2, paper
        for first, last in zip(firsts, lasts, strict=True):
            begins, ends = " ".join(first.split()[:3]), " ".join(last.split()[-3:])
            assert any(begins in sheet.text and ends in sheet.text for sheet in sheets), (paper, first)


def test_who_practises_on_paper_has_the_numbers_before_the_answers(
    page: Page, plain_site: Path, tmp_path: Path
) -> None:
    page.goto((plain_site / "new-here/practice.html").as_uri())
    expect(page.locator("ol.printed-only")).to_be_hidden()
    asked = page.locator("details.answer > summary").all_text_contents()
    first, *answers = print_to(tmp_path / "practice.pdf", page, "A4")
    assert [number for number in asked if number not in first.text] == []
    assert "Each has" not in first.text
    assert "Each has" in answers[0].text


def test_the_a_to_z_takes_as_many_sheets_as_is_said(page: Page, plain_site: Path, tmp_path: Path) -> None:
    page.goto((plain_site / "for-the-school/print.html").as_uri())
    (said,) = re.findall(r"on paper it takes about (\d+) sheets", page.locator("article").inner_text())
    page.goto((plain_site / "reference/a-z.html").as_uri())
    sheets = print_to(tmp_path / "a-z.pdf", page, "A4")
    assert len(sheets) == pytest.approx(int(said), rel=OFF_BY)


@only_in_a_whole_run
@pytest.mark.parametrize("paper", PAPERS)
def test_a_lesson_takes_few_sheets_and_what_is_put_back_stands_under_its_heading(
    paper: str, page: Page, plain_site: Path, tmp_path: Path
) -> None:
    page.goto((plain_site / STOCK[0]).as_uri())
    sheets = print_to(tmp_path / "lesson.pdf", page, paper)
    assert len(sheets) == 7
    heading = next(sheet for sheet in sheets if "Put it back together" in sheet.text)
    assert "From the trays back to 6,217 among five" in heading.text


@only_in_a_whole_run
@pytest.mark.parametrize("paper", sample(PAPERS, 1))
def test_a_page_does_not_take_a_sheet_for_its_last_lines(
    paper: str, page: Page, plain_site: Path, tmp_path: Path
) -> None:
    for name in ON_ONE_SHEET:
        page.goto((plain_site / name).as_uri())
        assert len(print_to(tmp_path / "page.pdf", page, paper)) == 1, name


@only_in_a_whole_run
def test_what_ends_at_the_edge_of_the_sheet_has_all_its_border(page: Page, plain_site: Path) -> None:
    page.emulate_media(media="print")
    edges = """elements => Math.max(...elements.map(element => element.getBoundingClientRect().right))
        - document.documentElement.clientWidth"""
    for name, boxes in ((STOCK[0], "table, details, .symptoms li"), (BOOK_OF_HELP, "table, .symptoms li")):
        page.goto((plain_site / name).as_uri())
        assert page.locator("body").locator(boxes).evaluate_all(edges) <= -1, name


@only_in_a_whole_run
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("name", "most"), [("book-new-here.html", 32), (BOOK_OF_HELP, 29)])
def test_the_book_of_a_part_takes_few_sheets_about_as_many_as_it_says(
    name: str, most: int, paper: str, page: Page, plain_site: Path, tmp_path: Path
) -> None:
    page.goto((plain_site / name).as_uri())
    sheets = print_to(tmp_path / "book.pdf", page, paper)
    assert len(sheets) <= most
    assert [sheet.text for sheet in sheets[1:] if len(sheet.words) < 40] == []  # the first is the title
    assert len(sheets) == pytest.approx(stated(page), rel=OFF_BY)
    emergency = [sheet for sheet in sheets if sheet.head.endswith("Emergency")]
    assert len(emergency) == (2 if name == BOOK_OF_HELP else 0)


@only_in_a_whole_run
def test_the_whole_book_is_numbered_throughout_and_short_enough(page: Page, light_site: Path, tmp_path: Path) -> None:
    """Marks slow printing down much, so not every chapter has them."""
    page.goto((light_site / BOOK).as_uri())
    marked = mark(page, f".chapter:nth-of-type({times(whole=20, sampled=6)}n)")
    assert marked
    for paper in PAPERS:
        sheets = print_to(tmp_path / "book.pdf", page, paper)
        assert cut(sheets, marked) == [], paper
        check_sheets(sheets, paper, *said(page))
        assert len(sheets) == pytest.approx(stated(page), rel=OFF_BY)
        assert len(sheets) <= MOST_SHEETS
        assert "Cautions and emergency: the last sheets" in sheets[0].text
        assert [sheet.head[-9:] == "Emergency" for sheet in sheets[-3:]] == [False, True, True]


def said(page: Page) -> tuple[str, str]:
    """The title and the imprint that a page gives to its margins."""
    title, imprint = page.evaluate(
        "() => [document.documentElement.dataset.title, document.documentElement.dataset.imprint]"
    )
    return title, imprint
