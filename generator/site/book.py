"""The whole handbook as one page to print, made from the finished pages.

Every page becomes a chapter: its article without what only serves the screen. Ids get the page's name in front,
so that they stay unique, and links between pages become links inside the book. The frame is a template of its
own, with the style sheets, policy and language of a page of the site; there are no scripts in it.
"""

from __future__ import annotations

import posixpath
from collections.abc import Mapping, Sequence
from html import escape
from pathlib import Path
from typing import NamedTuple
from urllib.parse import urlsplit, urlunsplit

from jinja2 import Environment
from lxml.etree import strip_elements, tostring

from generator.errors import HandbookError
from generator.site.html import ADDRESSES, LISTS_OF_ADDRESSES, Element, parse, words

BOOK = "book.html"
CHAPTER_PAGES = "css/book-chapters.css"

_TEMPLATE = Path(__file__).with_name("book.html")
_LEFT_OUT = frozenset({"groups", "headerlink", "md-content__button", "md-tags", "page-dates", "screen-only", "trail"})
_NAMES = frozenset(
    {"id", "for", "name", "headers", "list", "aria-controls", "aria-describedby", "aria-labelledby", "aria-owns"}
)
_HEADINGS = ("h1", "h2", "h3", "h4", "h5", "h6")


class BookPart(NamedTuple):
    """Pages that belong together, as paths in the site, in reading order; a part may have no title."""

    title: str
    pages: tuple[str, ...]


class Chapter(NamedTuple):
    """One page in the book, numbered from 1 through all parts. Its anchor stands in front of every id inside it."""

    number: int
    anchor: str
    title: str
    content: str


def bind(rendered: Path, parts: Sequence[BookPart], title: str, imprint: str) -> tuple[str, str]:
    """The book of rendered pages, and the style sheet that puts each chapter's number and title on its printed pages.

    The first page lends the frame. Like any page, the book is then made ready for paper and given its policy. Raises
    HandbookError for a page without an article or heading.
    """
    anchors = {page: page.removesuffix(".html") for part in parts for page in part.pages}
    numbers = {page: number for number, page in enumerate(anchors, start=1)}

    def chapter(page: str, deeper: int) -> Chapter:
        text = (rendered / page).read_text("utf-8")
        return Chapter(numbers[page], anchors[page], *_title_and_content(text, page, deeper, anchors))

    bound = [(part.title, [chapter(page, 2 if part.title else 1) for page in part.pages]) for part in parts]
    first = parts[0].pages[0]
    frame = _frame(parse((rendered / first).read_text("utf-8")), first)
    template = Environment(autoescape=True, trim_blocks=True).from_string(_TEMPLATE.read_text("utf-8"))
    book = template.render(frame, parts=bound, title=title, imprint=imprint, chapter_pages=CHAPTER_PAGES)
    return book, "".join(_page_rule(chapter) for _, chapters in bound for chapter in chapters)


def _title_and_content(text: str, page: str, deeper: int, anchors: Mapping[str, str]) -> tuple[str, str]:
    """A page's heading, and its article as HTML as it stands in the book, its headings so much deeper.

    `anchors` are those of all chapters, by the paths of their pages.
    """
    article = parse(text).find(".//article")
    if article is None:
        raise HandbookError(f"{page}: has no article; the book needs one on each page, as the theme writes it")
    for element in article.iterdescendants():
        if "hidden" in element.attrib or not _LEFT_OUT.isdisjoint(element.get("class", "").split()):
            element.tag = "script"
    strip_elements(article, "script", with_tail=False)
    heading = article.find(".//h1")
    if heading is None:
        raise HandbookError(f"{page}: has no heading of the first level; begin the page with one")
    for element in article.iterdescendants():
        if element.tag in _HEADINGS:
            element.tag = f"h{min(int(element.tag[1]) + deeper, 6)}"
        elif element.tag == "details":
            element.set("open", "")
        _rewrite_attributes(element, page, anchors)
    article.attrib.clear()
    return words(heading), _written(article).removeprefix("<article>").removesuffix("</article>").strip()


def _rewrite_attributes(element: Element, page: str, anchors: Mapping[str, str]) -> None:
    for attribute, value in element.items():
        if attribute in _NAMES:
            element.set(attribute, " ".join(f"{anchors[page]}:{name}" for name in value.split()))
        elif attribute in LISTS_OF_ADDRESSES:
            parts = (part.split(maxsplit=1) for part in value.split(",") if part.strip())
            listed = (" ".join((_address(address, page, anchors), *size)) for address, *size in parts)
            element.set(attribute, ", ".join(listed))
        elif attribute in ADDRESSES:
            element.set(attribute, _address(value.strip(), page, anchors))
        elif attribute == "loading":
            del element.attrib[attribute]
        elif attribute == "role" and value == "region":
            element.set("role", "group")  # in a book of all pages there are too many tables for each to be a landmark


def _address(address: str, page: str, anchors: Mapping[str, str]) -> str:
    """An address on a page as the book must write it."""
    scheme, host, path, query, name = urlsplit(address)
    if scheme or host or path.startswith("/"):
        return address
    target = posixpath.normpath(posixpath.join(posixpath.dirname(page), path)) if path else page
    if target in anchors:
        return f"#{anchors[target]}:{name}" if name else f"#{anchors[target]}"
    return urlunsplit(("", "", target, query, name))


def _frame(root: Element, page: str) -> dict[str, str]:
    """What the book takes over from a page: html and body attributes, policy, style sheets and icon."""
    head = []
    for element in root.iterfind("head/*"):
        relation = element.get("rel", "").split()
        if element.tag == "link" and ("stylesheet" in relation or "icon" in relation):
            _rewrite_attributes(element, page, {})
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
    """Page margins cannot read an element of the page, so each chapter names its own kind of page."""
    number, title = chapter.number, chapter.title.replace("\\", "\\\\").replace('"', '\\"')
    kind = f"chapter-{number}"
    return (
        f'[data-chapter="{number}"] {{ page: {kind} }}\n'
        f'@page {kind} {{ @top-right {{ content: "{number}  {title}" }} }}\n'
    )
