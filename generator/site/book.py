"""The whole handbook as one page to print, made from the finished pages.

Every page becomes a chapter: its article without what only serves the screen. Ids get the page's name in front,
so that they stay unique, and links between pages become links inside the book. The frame is a template of its
own, with the style sheets, policy and language of a page of the site; there are no scripts in it.
"""

from __future__ import annotations

import posixpath
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from hashlib import sha256
from html import escape
from itertools import islice
from pathlib import Path
from typing import NamedTuple
from urllib.parse import urlsplit, urlunsplit

from jinja2 import Environment

from generator.errors import HandbookError
from generator.pages.run_many import RunMany, run_in_turn
from generator.site.html import ADDRESSES, LISTS_OF_ADDRESSES, VOID, Tag, closing, tags, telling, words

BOOK = "book.html"
_AT_ONCE = 300
CHAPTER_PAGES = "css/book-chapters.css"

_TEMPLATE = Path(__file__).with_name("book.html")
_HEAD_LINKS = frozenset({"stylesheet", "icon"})
_LEFT_OUT = frozenset({"groups", "headerlink", "md-content__button", "md-tags", "page-dates", "screen-only", "trail"})
_NAMES = frozenset(
    {"id", "for", "name", "headers", "list", "aria-controls", "aria-describedby", "aria-labelledby", "aria-owns"}
)
_HEADINGS = ("h1", "h2", "h3", "h4", "h5", "h6")
_TELLING = telling(opening=(*_HEADINGS, "details"), closing=_HEADINGS)
_CHANGED = _NAMES | ADDRESSES | {"loading"}


class Part(NamedTuple):
    """Pages that belong together, as paths in the site, in reading order; a part may have no title."""

    title: str
    pages: tuple[str, ...]


@dataclass(frozen=True)
class Leaf:
    """A finished page, and how much deeper its headings lie in the book."""

    page: str
    deeper: int
    text: str = field(repr=False)
    digest: str


class Chapter(NamedTuple):
    """One page in the book. Its anchor stands in front of every id inside it."""

    anchor: str
    title: str
    content: str


class _Bound(NamedTuple):
    """A part with its finished chapters, each with its number."""

    title: str
    chapters: tuple[tuple[int, Chapter], ...]


class _Place(NamedTuple):
    """Where a page comes from, how much deeper its headings lie in the book, and the anchors of all chapters."""

    page: str
    deeper: int
    anchors: Mapping[str, str]


def bind(
    rendered: Path, parts: Sequence[Part], title: str, imprint: str, run_many: RunMany = run_in_turn
) -> tuple[str, str]:
    """The book of rendered pages, and the style sheet that puts each chapter's number and title on its printed pages.

    The first page lends the frame. Like any page, the book is then made ready for paper and given its policy. Raises
    HandbookError for a page without an article.
    """
    bound = _chapters(rendered, parts, run_many)
    first = parts[0].pages[0]
    frame = _frame((rendered / first).read_text("utf-8"), first)
    template = Environment(autoescape=True, trim_blocks=True).from_string(_TEMPLATE.read_text("utf-8"))
    book = template.render(frame, parts=bound, title=title, imprint=imprint, chapter_pages=CHAPTER_PAGES)
    rules = "".join(_page_rule(number, chapter.title) for part in bound for number, chapter in part.chapters)
    return book, rules


def _chapters(site: Path, parts: Sequence[Part], run_many: RunMany) -> tuple[_Bound, ...]:
    """Make every page a chapter, numbered from 1 through all parts; not all pages are in memory at once."""
    anchors = {page: page.removesuffix(".html") for part in parts for page in part.pages}
    pages = [(page, 2 if part.title else 1) for part in parts for page in part.pages]
    made: list[Chapter] = []
    for start in range(0, len(pages), _AT_ONCE):
        made += run_many(chapter, anchors, (_leaf(site, *page) for page in pages[start : start + _AT_ONCE]))
    chapters = enumerate(made, start=1)
    return tuple(_Bound(part.title, tuple(islice(chapters, len(part.pages)))) for part in parts)


def _leaf(site: Path, page: str, deeper: int) -> Leaf:
    text = (site / page).read_text("utf-8")
    return Leaf(page, deeper, text, sha256(text.encode()).hexdigest())


def chapter(anchors: dict[str, str], leaf: Leaf) -> Chapter:
    """One page as it stands in the book, where `anchors` lead to the pages of the book."""
    place, text = _Place(leaf.page, leaf.deeper, anchors), leaf.text
    start, end = text.find("<article"), text.rfind("</article>")
    if not 0 <= start < end:
        raise HandbookError(f"{leaf.page}: has no article; the book needs one on each page, as the theme writes it")
    content = _content(text, next(tags(text, start)).end, end, place)
    heading = next((tag for tag in tags(content) if tag.name == f"h{1 + leaf.deeper}"), None)
    if heading is None:
        raise HandbookError(f"{leaf.page}: has no heading of the first level; begin the page with one")
    title = words(content[heading.end : content.index("</h", heading.end)])
    return Chapter(anchors[leaf.page], title, content)


def _content(text: str, start: int, end: int, place: _Place) -> str:
    """A stretch of a page as it stands in the book."""
    pieces: list[str] = []
    copied = start
    for tag in tags(text, start, end, _TELLING):
        if tag.start < copied:
            continue
        if not tag.closes and _is_left_out(tag):
            after = tag if tag.inner or tag.name in VOID else closing(text, tag)
            pieces.append(text[copied : tag.start])
            copied = after.end if after else end
        elif (written := _rewritten(tag, place)) is not None:
            pieces += (text[copied : tag.start], written)
            copied = tag.end
    return "".join((*pieces, text[copied:end])).strip()


def _is_left_out(tag: Tag) -> bool:
    return tag.name == "script" or bool(
        tag.source and ("hidden" in tag.attributes or not _LEFT_OUT.isdisjoint(tag.classes))
    )


def _rewritten(tag: Tag, place: _Place) -> str | None:
    """A tag as it stands in the book, or None if that is as it was."""
    name = f"h{min(int(tag.name[1]) + place.deeper, 6)}" if tag.name in _HEADINGS else tag.name
    if tag.closes:
        return f"</{name}>" if name != tag.name else None
    if name == tag.name != "details" and tag.attributes.keys().isdisjoint(_CHANGED):
        return None
    said = {attribute: _value(attribute, value, place) for attribute, value in tag.attributes.items()}
    said.pop("loading", None)
    if tag.name == "details":
        said["open"] = ""
    if name == tag.name and said == tag.attributes:
        return None
    written = "".join(f' {attribute}="{escape(value)}"' for attribute, value in said.items())
    return f"<{name}{written}{'/' if tag.source.endswith('/') else ''}>"


def _value(attribute: str, value: str, place: _Place) -> str:
    if attribute == "role" and value == "region":
        return "group"  # in a book of all pages there are too many tables for each to be a landmark
    if attribute in _NAMES:
        return " ".join(f"{place.anchors[place.page]}:{name}" for name in value.split())
    if attribute in LISTS_OF_ADDRESSES:
        parts = (part.split(maxsplit=1) for part in value.split(",") if part.strip())
        return ", ".join(" ".join((_address(address, place), *size)) for address, *size in parts)
    return _address(value.strip(), place) if attribute in ADDRESSES else value


def _address(address: str, place: _Place) -> str:
    """An address on a page as the book must write it."""
    scheme, host, path, query, name = urlsplit(address)
    if scheme or host or path.startswith("/"):
        return address
    target = posixpath.normpath(posixpath.join(posixpath.dirname(place.page), path)) if path else place.page
    if target in place.anchors:
        return f"#{place.anchors[target]}:{name}" if name else f"#{place.anchors[target]}"
    return urlunsplit(("", "", target, query, name))


def _frame(text: str, page: str) -> dict[str, str]:
    """What the book takes over from a page: html and body attributes, policy, style sheets and icon."""
    frame = {"html": "", "head": "", "body": ""}
    place = _Place(page, 0, {})
    head = []
    for tag in tags(text):
        if tag.name in ("html", "body") and not tag.closes:
            frame[tag.name] = tag.source.strip()
        if tag.name == "body":
            break
        if tag.name == "meta" and tag.attributes.get("name") != "description":
            head.append(text[tag.start : tag.end])
        elif tag.name == "link" and not _HEAD_LINKS.isdisjoint(tag.attributes.get("rel", "").split()):
            head.append(_rewritten(tag, place) or text[tag.start : tag.end])
    frame["head"] = "\n".join(head)
    return frame


def _page_rule(number: int, title: str) -> str:
    """Page margins cannot read an element of the page, so each chapter names its own kind of page."""
    title = title.replace("\\", "\\\\").replace('"', '\\"')
    kind = f"chapter-{number}"
    return (
        f'[data-chapter="{number}"] {{ page: {kind} }}\n'
        f'@page {kind} {{ @top-right {{ content: "{number}  {title}" }} }}\n'
    )
