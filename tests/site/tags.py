"""The tags of a page and where each stands in its text, as the standard library's parser sees them."""

import re
from collections.abc import Iterator, Mapping
from html.parser import HTMLParser
from itertools import accumulate
from typing import NamedTuple

VOID = frozenset(["area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"])
_BARE_TEXT = ("script", "style", "textarea", "title")


class Tag(NamedTuple):
    """An opening or closing tag; `text[start:end]` is the tag as written.

    The elements that hold bare text (script, style, textarea, title) come as one tag: `inner` is their text, and
    `end` lies behind their closing tag.
    """

    name: str
    closes: bool
    attributes: Mapping[str, str]
    start: int
    end: int
    inner: str = ""

    @property
    def classes(self) -> frozenset[str]:
        return frozenset(self.attributes.get("class", "").split())


class _Reader(HTMLParser):
    def __init__(self, text: str) -> None:
        super().__init__()
        self.text = text
        self.found: list[Tag] = []
        self.lines = [0, *accumulate(len(line) + 1 for line in text.split("\n"))]
        self.feed(text)
        self.close()

    def position(self) -> int:
        line, column = self.getpos()
        return self.lines[line - 1] + column

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        start = self.position()
        end = start + len(self.get_starttag_text() or "")
        attributes = {name: value or "" for name, value in reversed(attrs)}
        inner = ""
        if tag in _BARE_TEXT:
            after = re.compile(rf"</{tag}\s*>", re.IGNORECASE).search(self.text, end)
            inner = self.text[end : after.start() if after else None]
            end = after.end() if after else len(self.text)
        self.found.append(Tag(tag, False, attributes, start, end, inner))

    def handle_endtag(self, tag: str) -> None:
        start = self.position()
        if tag not in _BARE_TEXT:
            self.found.append(Tag(tag, True, {}, start, self.text.find(">", start) + 1))


def tags(text: str, start: int = 0, end: int | None = None) -> Iterator[Tag]:
    """Every tag between two positions of a page."""
    for tag in _Reader(text[start:end]).found:
        yield tag._replace(start=tag.start + start, end=tag.end + start)


def line_at(text: str, position: int) -> int:
    """The line, counted from 1, on which a position lies."""
    return text.count("\n", 0, position) + 1
