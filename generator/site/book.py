"""The handbook, or a part of it, as one page to print, made from the finished pages.

Every page becomes a chapter: its article without what only serves the screen. Ids get the page's name in front,
so that they stay unique, and links between pages become links inside the book. The frame is a template beside those
of pages, with the style sheets, policy and language of a page of the site; there are no scripts in it. A book says how
many sheets it takes; its contents give the page where all chapters before it have a known number of sheets.
"""

import posixpath
from collections.abc import Mapping, Sequence
from html import escape
from pathlib import Path
from typing import NamedTuple
from urllib.parse import urlsplit, urlunsplit

from jinja2 import Environment, FileSystemLoader
from lxml.etree import strip_elements, tostring

from generator import HANDBOOK
from generator.errors import HandbookError
from generator.site.book_contents import Chapter, contents_of
from generator.site.html import ADDRESSES, LISTS_OF_ADDRESSES, Element, parse, words
from generator.site.sheets_of_paper import Sheets, plans_in, sheets

BOOK = "book.html"

_TEMPLATES = Environment(loader=FileSystemLoader(HANDBOOK / "en" / "templates"), autoescape=True, trim_blocks=True)
_LEFT_OUT = frozenset({"groups", "page-dates", "screen-only", "trail"})
_NAMES = frozenset(
    {"id", "for", "name", "headers", "list", "aria-controls", "aria-describedby", "aria-labelledby", "aria-owns"}
)
_DEEPER = 2  # a chapter stands below its part, and a part below the title
_HEADINGS = ("h1", "h2", "h3", "h4", "h5", "h6")


class BookPart(NamedTuple):
    """Pages that belong together, as paths in the site, in reading order."""

    title: str
    pages: tuple[str, ...]


class Book(NamedTuple):
    """What a book binds. `path` is its own in the site; the book of everything is at BOOK.

    `in_place_of` maps pages that the book leaves out to the address in it to which links to them lead.
    `first_seen` is the title of the part that its first sheet refers to: where to turn in a hurry.
    """

    path: str
    title: str
    parts: Sequence[BookPart]
    in_place_of: Mapping[str, str] = {}
    first_seen: str = ""

    @property
    def chapter_pages(self) -> str:
        """The style sheet that puts each chapter's number and title on its printed pages."""
        return f"css/{self.path.removesuffix('.html')}-chapters.css"


class Bound(NamedTuple):
    """A book as it is printed: its page, the style sheet of its chapters, and its sheets."""

    page: str
    chapter_pages: str
    sheets: Sheets


def bind(rendered: Path, book: Book, imprint: str, paper: str) -> Bound:
    """A book of rendered pages, on A4 or Letter, not yet marked for print and without its policy (`finish.py`).

    Head and body are those of the first page. Raises HandbookError for a page without an article; a page without a
    heading is left to the audit.
    """
    pages = [page for part in book.parts for page in part.pages]
    places = _Places({page: page.removesuffix(".html") for page in pages}, book.in_place_of)
    chapters = {
        page: _chapter((rendered / page).read_text("utf-8"), page, number, places, paper)
        for number, page in enumerate(pages, start=1)
    }
    bound = [(part.title, [chapters[page] for page in part.pages]) for part in book.parts]
    contents = contents_of(bound)
    numbers, known = zip(*(chapter.sheets for chapter in chapters.values()), strict=True)
    taken = Sheets(1 + len(contents) + sum(numbers), all(known))
    frame = _frame(parse((rendered / pages[0]).read_text("utf-8")), pages[0])
    page = _TEMPLATES.get_template("book.html.jinja").render(
        frame,
        parts=bound,
        contents=contents,
        title=book.title,
        first_seen=book.first_seen,
        imprint=imprint,
        sheets=taken,
        paper=paper,
        chapter_pages=book.chapter_pages,
    )
    return Bound(page, "".join(map(_page_rule, chapters.values())), taken)


class _Places(NamedTuple):
    """Addresses in a book: the anchors of its chapters by the paths of their pages, and Book.in_place_of."""

    anchors: Mapping[str, str]
    in_place_of: Mapping[str, str]

    def of(self, target: str, name: str) -> str | None:
        """The address in the book of a place on a page of the site; None if the book does not have it.

        "top" is no anchor: on any page it leads to the page's head.
        """
        if target not in self.anchors:
            target, _, name = self.in_place_of.get(target, "").partition("#")
        if target not in self.anchors:
            return None
        return f"#{self.anchors[target]}:{name}" if name not in ("", "top") else f"#{self.anchors[target]}"


def _chapter(text: str, page: str, number: int, places: _Places, paper: str) -> Chapter:
    article = parse(text).find(".//article")
    if article is None:
        raise HandbookError(f"{page}: has no article; the book needs one on each page, as the theme writes it")
    for element in article.iterdescendants():
        if "hidden" in element.attrib or not _LEFT_OUT.isdisjoint(element.get("class", "").split()):
            element.tag = "script"
    strip_elements(article, "script", with_tail=False)
    heading = article.find(".//h1")
    title, taken = "" if heading is None else words(heading), sheets(article, paper)
    for element in article.iterdescendants():
        if element.tag in _HEADINGS:
            element.tag = f"h{min(int(element.tag[1]) + _DEEPER, 6)}"
        elif element.tag == "details":
            element.set("open", "")
        _rewrite_attributes(element, page, places)
    article.attrib.clear()
    plans = [
        (plan.get("id", ""), words(named)) for plan in plans_in(article) for named in plan.findall(f".//h{2 + _DEEPER}")
    ]
    content = _written(article).removeprefix("<article>").removesuffix("</article>").strip()
    return Chapter(number, places.anchors[page], title, content, taken, plans)


def _rewrite_attributes(element: Element, page: str, places: _Places) -> None:
    for attribute, value in element.items():
        if attribute in _NAMES:
            element.set(attribute, " ".join(f"{places.anchors[page]}:{name}" for name in value.split()))
        elif attribute in LISTS_OF_ADDRESSES:
            parts = (part.split(maxsplit=1) for part in value.split(",") if part.strip())
            listed = (" ".join((_address(address, page, places), *size)) for address, *size in parts)
            element.set(attribute, ", ".join(listed))
        elif attribute in ADDRESSES:
            element.set(attribute, _address(value.strip(), page, places))
        elif attribute == "loading":
            del element.attrib[attribute]
        elif attribute == "role" and value == "region":
            element.set("role", "group")  # in a book of all pages there are too many tables for each to be a landmark


def _address(address: str, page: str, places: _Places) -> str:
    """An address on a page as the book must write it."""
    scheme, host, path, query, name = urlsplit(address)
    if scheme or host or path.startswith("/"):
        return address
    target = posixpath.normpath(posixpath.join(posixpath.dirname(page), path)) if path else page
    return places.of(target, name) or urlunsplit(("", "", target, query, name))


def _frame(root: Element, page: str) -> dict[str, str]:
    """What the book takes over from a page: html and body attributes, policy, style sheets and icon."""
    head = []
    for element in root.iterfind("head/*"):
        relation = element.get("rel", "").split()
        if element.tag == "link" and ("stylesheet" in relation or "icon" in relation):
            _rewrite_attributes(element, page, _Places({}, {}))
            head.append(_written(element))
        elif element.tag == "meta" and element.get("name") != "description":
            head.append(_written(element))
    return {"html": _attributes(root), "head": "\n".join(head), "body": _attributes(root.find("body"))}


def _attributes(element: Element | None) -> str:
    """The attributes of an element as they stand in its tag."""
    items = [] if element is None else element.items()
    return " ".join(f'{name}="{escape(value)}"' for name, value in items)


def _written(element: Element) -> str:
    return tostring(element, encoding="unicode", method="html", with_tail=False)


def _page_rule(chapter: Chapter) -> str:
    """The CSS for the head of a chapter's sheets: margins cannot read the page, so each chapter has its own @page."""
    number, title = chapter.number, chapter.title.replace("\\", "\\\\").replace('"', '\\"')
    kind = f"chapter-{number}"
    return (
        f'[data-chapter="{number}"] {{ page: {kind} }}\n'
        f'@page {kind} {{ @top-right {{ content: "{number}  {title}" }} }}\n'
    )
