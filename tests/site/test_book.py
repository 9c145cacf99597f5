"""The book holds every page once, unique ids, links that work inside it, and nothing that only serves the screen."""

from pathlib import Path

import pytest

from generator.errors import HandbookError
from generator.site.audit.audit import audit, html_files
from generator.site.audit.page import read_page
from generator.site.book import BOOK, Book, BookPart, bind
from generator.site.html import parse, words

PARTS = (BookPart("First", ("index.html",)), BookPart("As it lies", ("steps/first.html", "steps/second.html")))
WHOLE_BOOK = Book(BOOK, "Sharing & handbook", PARTS)

FIRST = """<h1 id="first">8,448 among four</h1>
<p hidden>other words: halves</p>
<p class="trail screen-only"><a href="../index.html">Home</a><span><span>x</span></span></p>
<h2 id="set-out">Set out</h2>
<ul class="checklist"><li><label for="c1"><input type="checkbox" id="c1"> Trays</label></li></ul>
<figure><img src="../images/a.svg" srcset="../images/a.svg 1x, b.svg 2x" alt="eight" loading="lazy"></figure>
<details><summary>Why?</summary><p id="why">Because.</p></details>
<svg aria-labelledby="set-out why"><use href="#why"/></svg>
<p><a href="#why">here</a> <a href="second.html">next</a> <a href="second.html#set-out">its things</a>
<a href="#top">up</a> <a href="second.html#top">its head</a> <a href="../tags.html#bows">words</a> <a href="https://www.w3.org/">standard</a></p>
<h4>Deep</h4><h5>Deeper</h5>
<script>alert(1)</script><p class="page-dates">Version 1</p>"""
SECOND = '<h1 id="first">9,999 \\ "all" among <em>nine</em></h1><h2 id="set-out">Set out</h2><details open>x</details>'
HOME = '<h1 id="home">Home</h1><p><a href="steps/first.html#set-out">Begin</a></p>'


def page(title: str, content: str, up: str = "") -> str:
    return f"""<!doctype html>
<html lang="en" class="no-js"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'self'"><meta name="description" content="no">
<link rel="stylesheet" href="{up}css/look.css"><link rel="next" href="{up}steps/first.html">
<title>{title}</title></head>
<body data-md-color-scheme="default"><nav><a href="{up}index.html">x</a></nav>
<article class="md-content__inner md-typeset">{content}</article><script src="{up}js/a.js"></script></body></html>"""


@pytest.fixture
def site(tmp_path: Path) -> Path:
    files = {
        "index.html": page("Home", HOME),
        "steps/first.html": page("First", FIRST, "../"),
        "steps/second.html": page("Second", SECOND, "../"),
        "tags.html": page("Words", '<h1 id="bows">Words</h1>'),
        **dict.fromkeys(("css/look.css", "css/book.css", "js/a.js", "images/a.svg", "steps/b.svg"), ""),
    }
    for name, text in files.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text, "utf-8")
    return tmp_path


@pytest.fixture
def book(site: Path) -> str:
    whole = bind(site, WHOLE_BOOK, "Version 1", "A4")
    (site / BOOK).write_text(whole.page, "utf-8")
    (site / WHOLE_BOOK.chapter_pages).write_text(whole.chapter_pages, "utf-8")
    return whole.page


def test_every_address_and_id_in_the_book_is_sound(site: Path, book: str) -> None:
    pages = [read_page((), file) for file in html_files(site)]
    assert [fault for fault in audit(site, pages) if fault.file in (BOOK, WHOLE_BOOK.chapter_pages)] == []


def test_chapters_stand_in_reading_order_with_their_numbers(book: str) -> None:
    (contents,) = parse(book).iter("nav")
    assert (contents[1].text or "").startswith("The number before a title is the chapter")
    contents[1].text = ""
    assert words(contents) == 'Contents First 1 Home As it lies 2 8,448 among four 3 9,999 \\ "all" among nine'
    links = [link.get("href") for link in contents.iter("a")]
    assert links == ["#index", "#steps/first", "#steps/second"]
    assert not {line.get("class") for line in contents.iter("li")} & {"chapter", "plan"}  # they would look like these
    chapters = parse(book).iter("article")
    assert [(chapter.get("id"), chapter.get("data-chapter")) for chapter in chapters] == [
        ("index", "1"),
        ("steps/first", "2"),
        ("steps/second", "3"),
    ]


def test_headings_lie_below_the_title_of_the_book_and_of_their_part(book: str) -> None:
    levels = [(heading.tag, words(heading)) for heading in parse(book).iter("h1", "h2", "h3", "h4", "h5", "h6")]
    assert levels == [
        ("h1", "Sharing & handbook"),
        ("h2", "Contents"),
        ("h2", "First"),
        ("h3", "Home"),
        ("h2", "As it lies"),
        ("h3", "8,448 among four"),
        ("h4", "Set out"),
        ("h6", "Deep"),
        ("h6", "Deeper"),
        ("h3", '9,999 \\ "all" among nine'),
        ("h4", "Set out"),
    ]
    assert book.count("</h3>") == 3
    assert book.count("</h4>") == 2


@pytest.mark.parametrize(
    "expected",
    [
        '<a href="#steps/first:set-out">Begin</a>',
        '<a href="#steps/first:why">here</a>',
        '<a href="#steps/second">next</a>',
        '<a href="#steps/second:set-out">its things</a>',
        '<a href="#steps/first">up</a>',
        '<a href="#steps/second">its head</a>',
        '<a href="tags.html#bows">words</a>',
        '<a href="https://www.w3.org/">standard</a>',
        '<label for="steps/first:c1"><input type="checkbox" id="steps/first:c1"> Trays</label>',
        '<img src="images/a.svg" srcset="images/a.svg 1x, steps/b.svg 2x" alt="eight">',
        '<details open=""><summary>Why?</summary><p id="steps/first:why">Because.</p></details>',
        '<svg aria-labelledby="steps/first:set-out steps/first:why"><use href="#steps/first:why"></use></svg>',
        '<details open="">x</details>',
        """<meta http-equiv="Content-Security-Policy" content="default-src 'self'">""",
        '<link rel="stylesheet" href="css/look.css">',
        '<html lang="en" class="no-js">',
        '<body data-md-color-scheme="default">',
    ],
)
def test_the_book_holds(expected: str, book: str) -> None:
    assert expected in book


@pytest.mark.parametrize(
    "gone",
    ["<script", "halves", "trail", "page-dates", "loading", "description", 'rel="next"'],
)
def test_the_book_leaves_out(gone: str, book: str) -> None:
    assert gone not in book


def test_each_chapter_names_its_pages(site: Path, book: str) -> None:
    rules = (site / WHOLE_BOOK.chapter_pages).read_text("utf-8").splitlines()
    assert rules[4:] == [
        '[data-chapter="3"] { page: chapter-3 }',
        '@page chapter-3 { @top-right { content: "3  9,999 \\\\ \\"all\\" among nine" } }',
    ]


def test_a_page_that_cannot_be_a_chapter_is_named(site: Path) -> None:
    (site / "steps/first.html").write_text("<html><body></body></html>", "utf-8")
    with pytest.raises(HandbookError, match=r"^steps/first\.html: has no article"):
        bind(site, WHOLE_BOOK, "y", "A4")
