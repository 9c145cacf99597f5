"""Built pages as a reader meets them: every stretch of text with where it stands and which division it speaks of."""

import re
from collections.abc import Iterator, Mapping
from functools import cache
from html import unescape
from typing import NamedTuple

from generator.engine.places import place_name
from generator.engine.sharing import Sharing, share
from tests.site.tags import VOID, Tag, tags

PLACES = {place_name(place): place for place in range(4)}
_SECTIONS = {**PLACES, "all-shared": PLACES["units"]}  # when all has been shared, the units have been

_BLOCKS = frozenset(
    (
        *("html", "head", "body", "header", "nav", "main", "article", "aside", "section", "footer", "div"),
        *("h1", "h2", "h3", "h4", "h5", "h6", "p", "pre", "blockquote", "figure", "figcaption", "hr", "address"),
        *("ul", "ol", "li", "dl", "dt", "dd", "details", "summary", "form", "fieldset", "option"),
        *("table", "caption", "thead", "tbody", "tfoot", "tr", "th", "td"),
    )
)
_COMMENT = re.compile(r"<!--.*?-->", re.DOTALL)
_GLANCE = re.compile(r"<dl\b[^>]* data-dividend=[^>]*>")
_OF_A_PLAN = re.compile(r"^.+-(?=(?:units|tens|hundreds|thousands)$)")  # a place on a sheet: 5230-among-4-tens
_HEADINGS = frozenset({"h2", "h3", "h4", "h5"})


class Block(NamedTuple):
    """One stretch of text, the division it is about and that of its page, and the texts and addresses of its links.

    `label` says what the text is a value of: the term before it, or the heads of its column joined by " > ".
    `row` is the head of its table row, `caption` that of its table, `place` the place whose section it stands in.
    `what_if` marks what would be seen after a slip, `moment` names the part of a place that is told, `heads` marks the
    heads of columns.
    """

    position: int
    text: str
    division: Sharing | None = None
    of_page: Sharing | None = None
    place: int | None = None
    label: str = ""
    row: str = ""
    caption: str = ""
    what_if: bool = False
    moment: str = ""
    heads: bool = False
    links: tuple[tuple[str, str], ...] = ()


class _Element(NamedTuple):
    name: str
    division: Sharing | None
    what_if: bool
    moment: str
    aside: bool


def division_of(page: str, start: int = 0) -> Sharing | None:
    """The division that the lesson page, or the chapter of a book that begins at a position, is about."""
    end = page.find("</article>", start)
    found = _GLANCE.search(page, start, end if end >= 0 else len(page))
    if not found:
        return None
    glance = next(tags(page, *found.span()))
    return _division(page, glance, glance.attributes)


def blocks(page: str) -> Iterator[Block]:
    """Every stretch of text in order: what is shown, alternative texts, the title and the description."""
    reader = _Reader(page)
    for tag in tags(page):
        yield from reader.pass_over(tag)


class _Reader:
    """Where in the page we are."""

    def __init__(self, page: str) -> None:
        self.page = page
        self.open: list[_Element] = []
        self.text = ""
        self.read_to = 0
        self.of_page = division_of(page)
        self.links: list[tuple[str, str]] = []
        self.link: tuple[int, str] | None = None
        self.place: int | None = None
        self.term = ""
        self.caption = ""
        self.columns: list[str] = []
        self.head_rows: list[list[tuple[str, int, int]]] = []
        self.row = ""
        self.column = 0

    def pass_over(self, tag: Tag) -> Iterator[Block]:
        self.text += self.page[self.read_to : tag.start]
        self.read_to = tag.end
        if tag.name in ("script", "style"):
            return
        if tag.name == "title":
            yield Block(tag.start, _plain(tag.inner), self.of_page, self.of_page)
        said = tag.attributes if not tag.closes else {}
        for name in ("alt", "aria-label", "content"):
            if said.get(name) and (name != "content" or said.get("name") == "description"):
                yield self.block(" ".join(said[name].split()), tag.start)
        if tag.name == "a":
            if self.link and tag.closes:
                self.links.append((_plain(self.text[self.link[0] :]), self.link[1]))
            self.link = None if tag.closes else (len(self.text), said.get("href", ""))
        if tag.name not in _BLOCKS and not self.is_marked(tag, said):
            return
        text, self.text = _plain(self.text), ""
        inside = self.open[-1].name if self.open else ""
        if text:
            yield self.block(text, tag.start)
            if inside == "dt":
                self.term = text
            elif inside == "caption":
                self.caption = text
        if tag.closes:
            self.leave(tag, text)
        elif tag.name not in VOID:
            self.enter(tag, said)
        self.links, self.link = [], None

    def is_marked(self, tag: Tag, said: Mapping[str, str]) -> bool:
        """Whether a tag within a text opens, closes or lies in an element that says what the text is about."""
        inside = tag.name not in VOID and any(element.name == tag.name for element in self.open)
        return inside or not said.keys().isdisjoint(("data-what-if", "data-dividend", "data-moment"))

    def block(self, text: str, position: int) -> Block:
        inside = {element.name for element in self.open}
        label = ""
        if "dd" in inside:
            label = self.term
        elif inside & {"td", "th"} and self.column < len(self.columns):
            label = self.columns[self.column]
        of_element = next((element.division for element in reversed(self.open) if element.division), None)
        division = None if any(element.aside for element in self.open) else of_element or self.of_page
        row, caption = (self.row, self.caption) if "table" in inside else ("", "")
        after_slip = caption.startswith("What you may see") and "tbody" in inside
        what_if = after_slip or any(element.what_if for element in self.open)
        if "th" in inside and not row:
            row = text
        moment = next((element.moment for element in reversed(self.open) if element.moment), "")
        place, heads, links = self.place, "thead" in inside, tuple(self.links)
        return Block(position, text, division, self.of_page, place, label, row, caption, what_if, moment, heads, links)

    def enter(self, tag: Tag, said: Mapping[str, str]) -> None:
        division = _division(self.page, tag, said)
        aside = tag.name == "nav" or "page-dates" in tag.classes
        self.open.append(_Element(tag.name, division, "data-what-if" in said, said.get("data-moment", ""), aside))
        match tag.name:
            case "body":
                self.of_page = None
            case "article":
                self.of_page, self.place = division_of(self.page, tag.start), None
            case "table":
                self.columns, self.head_rows, self.caption = [], [], ""
            case "tr":
                self.row, self.column = "", 0
                self.head_rows.append([])
            case name if name in _HEADINGS:
                self.place = _SECTIONS.get(_OF_A_PLAN.sub("", said.get("id", "").rsplit(":", 1)[-1]))
        if tag.name in ("th", "td"):
            self.head_rows[-1].append(("", int(said.get("colspan", 1)), int(said.get("rowspan", 1))))

    def leave(self, tag: Tag, text: str) -> None:
        while self.open and self.open[-1].name != tag.name:
            self.open.pop()
        if self.open:
            self.open.pop()
        match tag.name:
            case "th" | "td":
                _, width, height = self.head_rows[-1].pop()
                self.head_rows[-1].append((text, width, height))
                self.column += width
                if tag.name == "th" and not self.row:
                    self.row = text
            case "thead":
                self.columns = [" > ".join(filter(None, heads)) for heads in _columns(self.head_rows)]
            case "table":
                self.columns, self.caption, self.row = [], "", ""


def _columns(rows: list[list[tuple[str, int, int]]]) -> list[list[str]]:
    """The heads above each column, from rows of (text, columns covered, rows covered)."""
    grid: dict[tuple[int, int], str] = {}
    for down, row in enumerate(rows):
        across = 0
        for text, width, height in row:
            while (down, across) in grid:
                across += 1
            for right in range(width):
                for below in range(height):
                    grid[down + below, across + right] = text if below == 0 else ""
            across += width
    return [
        [grid.get((down, across), "") for down in range(len(rows))] for across in range(1 + max(a for _, a in grid))
    ]


def _division(page: str, tag: Tag, said: Mapping[str, str]) -> Sharing | None:
    if "data-dividend" not in said:
        return None
    ribbons = said.get("data-ribbons", "")
    if not ribbons:
        ribbons = "true" if "with ribbons" in _inside(page, tag) else "false"
    return divide(int(said["data-dividend"]), int(said["data-divisor"]), ribbons == "true")


def _inside(page: str, opening: Tag) -> str:
    """The text of an element, up to the tag that closes it."""
    depth = 0
    for tag in tags(page, opening.start):
        if tag.name == opening.name:
            depth += -1 if tag.closes else 1
            if not depth:
                return page[opening.end : tag.start]
    return page[opening.end :]


@cache
def divide(dividend: int, divisor: int, ribbons: bool, look_first: bool = False) -> Sharing:
    """Work out a division once, however often pages speak of it."""
    return share(dividend, divisor, ribbons=ribbons, look_first=look_first)


def _plain(text: str) -> str:
    return " ".join(unescape(_COMMENT.sub("", text)).split())
