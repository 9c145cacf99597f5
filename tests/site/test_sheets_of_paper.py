"""How many sheets chapters take, and the sheets that the contents of a book name."""

from generator.site.book_contents import Chapter, contents_of
from generator.site.html import parse
from generator.site.sheets_of_paper import Sheets, sheets, with_sheets

PLAN = '<section class="plan"><h2>96 among three</h2></section>'


def chapter(number: int, taken: int, *, known: bool, plans: int = 0) -> Chapter:
    sheets_of_plans = [(f"c{number}:{plan}", f"plan {plan}") for plan in range(plans)]
    return Chapter(number, f"c{number}", f"chapter {number}", "", Sheets(taken, known), sheets_of_plans)


def test_a_chapter_of_plans_takes_a_sheet_for_each() -> None:
    assert sheets(parse(f"<article><h1>Plans</h1>{PLAN * 7}</article>"), "A4") == Sheets(7, known=True)


def test_more_text_takes_more_sheets_and_letter_holds_less_than_a4() -> None:
    def taken(paragraphs: int, paper: str) -> int:
        found = sheets(parse(f"<article><h1>x</h1>{'<p>' + 'word ' * 100 + '</p>'}</article>" * paragraphs), paper)
        assert not found.known
        return found.number

    assert taken(1, "A4") == 1
    assert 2 < taken(30, "A4") < taken(70, "A4")
    assert taken(70, "A4") < taken(70, "Letter")


def test_what_stands_in_a_table_is_counted_once() -> None:
    cell = "<td><p>" + "word " * 20 + "</p></td>"
    with_text = sheets(parse(f"<table>{f'<tr>{cell}</tr>' * 200}</table>"), "A4").number
    without = sheets(parse(f"<table>{f'<tr>{cell}</tr>'.replace('<p>', '').replace('</p>', '') * 200}</table>"), "A4")
    assert with_text == without.number > 3


def test_a_picture_whose_size_is_not_in_pixels_counts_as_a_tall_one() -> None:
    def taken(size: str) -> int:
        return sheets(parse(f"<article>{f'<img {size}>' * 30}</article>"), "A4").number

    assert taken("") == taken('width="50%"') == taken('width="600" height="2000"') > taken('width="600" height="100"')


def test_the_contents_name_the_sheet_of_a_chapter_while_all_before_it_are_known() -> None:
    parts = [
        ("Plans", [chapter(1, 2, known=True, plans=2), chapter(2, 3, known=True)]),
        ("Texts", [chapter(3, 4, known=False), chapter(4, 1, known=True)]),
    ]
    (only,) = contents_of(parts)
    assert [(entry.title, entry.page) for entry in only] == [
        ("Plans", None),
        ("chapter 1", 3),
        ("plan 0", 3),
        ("plan 1", 4),
        ("chapter 2", 5),
        ("Texts", None),
        ("chapter 3", 8),
        ("chapter 4", None),
    ]


def test_longer_contents_push_the_chapters_back() -> None:
    contents = contents_of([("Lessons", [chapter(number, 1, known=True) for number in range(1, 101)])])
    assert len(contents) == 2
    assert contents[0][1].page == 2 + len(contents)


def test_a_page_is_told_the_sheets_of_a_book() -> None:
    page = 'about <span data-sheets="book.html"></span> sheets, <span data-sheets="other.html"></span>'
    assert with_sheets(page, {"book.html": 48}) == (
        'about <span data-sheets="book.html">48</span> sheets, <span data-sheets="other.html"></span>'
    )
