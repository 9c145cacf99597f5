"""Finished pages read a stretch at a time: what the audit can find in a stretch alone.

A page is one stretch. The whole book is one for every chapter, so that a new word in one lesson does not make it
necessary to read all of it anew.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, field
from hashlib import sha256
from itertools import accumulate

from generator.errors import Fault, Problem
from generator.site.audit.tagcheck import INTO_FILE, NOTHING, STRUCTURE, Link, Table, is_known, look_at
from generator.site.html import telling, words

_TELLING = telling(opening=sorted(STRUCTURE), closing=("table",))
_LINE = re.compile(r".*\n")
_CHAPTER = '<article class="chapter"'


@dataclass(frozen=True)
class Stretch:
    """A page, or the next part of a long one."""

    first: bool
    text: str = field(repr=False)
    digest: str


@dataclass(frozen=True)
class Seen:
    """What was found in a stretch; lines count from 0 within it, `lines` is how many line ends it has.

    anchors: sorted
    links: line, attribute and address of each
    wrongs: line, key, problem and remedy of each
    title: line and words of the page's title
    language, heading: whether the language is stated, and a heading of the first level is there
    """

    lines: int
    anchors: list[str]
    links: list[tuple[int, str, str]]
    wrongs: list[tuple[int, str, str, str]]
    title: tuple[int, str] | None
    language: bool
    heading: bool


@dataclass
class Page:
    """What was found on a whole page, each with its line, counted from 1."""

    path: str
    anchors: set[str] = field(default_factory=set)
    links: list[tuple[int, Link]] = field(default_factory=list)
    wrongs: list[tuple[int, Problem]] = field(default_factory=list)
    title: str = ""
    title_line: int = 0

    def faults(self) -> Iterator[Fault]:
        for line, wrong in self.wrongs:
            yield wrong.at(self.path, line)


def stretches(text: str) -> list[Stretch]:
    """The stretches of a page, in order."""
    first, *chapters = text.split(_CHAPTER)
    parts = (first, *(_CHAPTER + chapter for chapter in chapters))
    return [Stretch(not at, part, sha256(part.encode()).hexdigest()) for at, part in enumerate(parts)]


def read(allowed_scripts: Collection[str], stretch: Stretch) -> Seen:
    """Read one stretch; `allowed_scripts` are hashes of the scripts that the content policy allows."""
    text = stretch.text
    anchors: set[str] = set()
    links: list[tuple[int, Link]] = []
    wrongs: list[tuple[int, Problem]] = []
    title: tuple[int, str] | None = None
    heading = language = False
    in_body = not stretch.first
    tables: list[Table] = []
    for token in _TELLING.finditer(text):
        seen = look_at(token[0])
        if seen is NOTHING:
            continue
        tag, start = seen.tag, token.start()
        for anchor in seen.anchors:
            if anchor in anchors:
                wrongs.append((start, _twice(anchor)))
            anchors.add(anchor)
        links += [(start, link) for link in seen.links]
        wrongs += [(start, wrong) for wrong in seen.wrongs]
        match tag.name:
            case "table" if tag.closes:
                wrongs += tables.pop().wrongs() if tables else ()
            case _ if tag.closes:
                pass
            case "html":
                language = bool(tag.attributes.get("lang"))
            case "title" if not in_body:
                title = start, " ".join(tag.inner.split())
            case "body":
                in_body = True
            case "h1":
                heading = heading or bool(words(text[token.end() : text.find("</h1", token.end())]))
            case "script" if not is_known(tag, allowed_scripts):
                wrong = Problem("script", "is written into the page and the content policy does not know it", INTO_FILE)
                wrongs.append((start, wrong))
            case "table":
                tables.append(Table(tag, start))
            case "caption" | "th" if tables:
                tables[-1].take(tag, start, text)
    ends = list(accumulate(map(len, _LINE.findall(text))))
    return Seen(
        len(ends),
        sorted(anchors),
        [(bisect_right(ends, at), *link) for at, link in links],
        [(bisect_right(ends, at), *wrong) for at, wrong in wrongs],
        (bisect_right(ends, title[0]), title[1]) if title else None,
        language,
        heading,
    )


def put_together(path: str, parts: Iterable[Seen]) -> Page:
    """What was found on a page, from its stretches in order."""
    whole = Page(path)
    language = heading = False
    line = 1
    for part in parts:
        whole.wrongs += [(line, _twice(anchor)) for anchor in part.anchors if anchor in whole.anchors]
        whole.wrongs += [(line + at, Problem(*wrong)) for at, *wrong in part.wrongs]
        whole.links += [(line + at, Link(*link)) for at, *link in part.links]
        whole.anchors.update(part.anchors)
        if part.title:
            whole.title_line, whole.title = line + part.title[0], part.title[1]
        language, heading = language or part.language, heading or part.heading
        line += part.lines
    for there, key, remedy in (
        (language, "lang", "state the language in the html tag"),
        (bool(whole.title), "title", "give the page a title"),
        (heading, "h1", "begin the page with a heading of the first level"),
    ):
        if not there:
            whole.wrongs.append((1, Problem(key, "is missing", remedy)))
    return whole


def _twice(anchor: str) -> Problem:
    return Problem(f'id="{anchor}"', "is on this page twice", "give each its own")
