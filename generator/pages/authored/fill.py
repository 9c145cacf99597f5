"""Markdown that people wrote -> pages: its numbers and figures come from the engine, through the sandbox.

What a school wrote is filled in by a process of its own, and refused if anything in it would run or load.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

from generator.errors import Fault, SourceError
from generator.figures.picture import Picture
from generator.pages.authored.confined import SECONDS, TakesTooLongError, confined
from generator.pages.authored.content import Refused, links, refusals
from generator.pages.authored.own_links import OwnLink
from generator.pages.writing.environment import TEMPLATES, Writer
from generator.pages.writing.links import LessonLink, StepLink
from generator.pages.writing.page import Page, from_page, front_matter
from generator.pages.writing.template_faults import template_fault
from generator.source.models import AuthoredPage, Note

_HEADING = re.compile(r"^(?:#\s|={3,}\s*$|<h1\b)", re.MULTILINE)
_CODE = re.compile(r"\{[{%].*?[}%]\}", re.DOTALL)
_LESSONS = re.compile(r"\blessons\b")
_ABOVE_A_NOTE = "## At our school { #at-our-school }"


@dataclass(frozen=True)
class Desk:
    """What authored pages are written with: a writer, and the names they may use besides the common ones.

    Pages that do not speak of lessons are written without, so that they stay as they are when a lesson changes.
    """

    writer: Writer
    steps: tuple[StepLink, ...]
    lessons: tuple[LessonLink, ...] | None = None

    @property
    def names(self) -> Mapping[str, Any]:
        names = {"steps": self.steps}
        return names if self.lessons is None else {**names, "lessons": self.lessons}


@dataclass(frozen=True)
class Draft:
    """A page, what is wrong with the words that somebody wrote for it, and the links in a school's words.

    With faults the page is not whole.
    """

    page: Page
    faults: tuple[Fault, ...] = ()
    links: tuple[OwnLink, ...] = ()


@dataclass(frozen=True)
class Noted:
    """A page that is written, and what a school adds to it."""

    page: Page
    note: Note


@dataclass(frozen=True)
class _Words:
    """Markdown as it stands in a file from a line on."""

    text: str
    file: str
    first_line: int = 1

    def line_of(self, sought: str) -> int:
        """The first line that holds some text, whatever its case; 0 if none does."""
        lines = self.text.casefold().split("\n") if sought else ()
        return next((at for at, line in enumerate(lines, self.first_line) if sought.casefold() in line), 0)


@dataclass(frozen=True)
class _Filled:
    text: str = ""
    pictures: tuple[Picture, ...] = ()
    faults: tuple[Fault, ...] = ()
    links: tuple[OwnLink, ...] = ()
    stopped: bool = False


def speaks_of_lessons(page: AuthoredPage) -> bool:
    """Whether the name stands in the code of the page's template, or in a template of ours that is named there."""
    code = " ".join(_CODE.findall(page.body))
    return bool(_LESSONS.search(code)) or any(name in code for name in _templates_about_lessons())


@cache
def _templates_about_lessons() -> tuple[str, ...]:
    return tuple(file.name for file in TEMPLATES.iterdir() if _LESSONS.search(file.read_text("utf-8")))


def write_authored(desk: Desk, page: AuthoredPage) -> Draft:
    """One authored page. Raises SourceError if a school's page takes too long; that may be otherwise another day."""
    meta = front_matter(page.meta.description, page.meta.tags, page.meta.reviewed, desk.writer.school.review.months)
    if page.meta.boost != 1:
        meta["search"] = {"boost": page.meta.boost}
    blank = Page(page.path, page.meta.title, meta, "")
    words = _Words(page.body, page.file, page.body_line)
    return _with(blank, _guarded(desk, blank, words) if page.from_school else _fill(desk, blank, words))


def write_note(desk: Desk, noted: Noted) -> Draft:
    """A page with what a school adds to it, below a heading of its own. Raises SourceError like write_authored."""
    page = replace(noted.page, body=f"{noted.page.body.rstrip()}\n\n{_ABOVE_A_NOTE}\n\n")
    return _with(page, _guarded(desk, page, _Words(noted.note.text, noted.note.file)))


def _with(page: Page, filled: _Filled) -> Draft:
    pictures = tuple(dict.fromkeys((*page.pictures, *filled.pictures)))
    return Draft(replace(page, body=page.body + filled.text, pictures=pictures), filled.faults, filled.links)


def _guarded(desk: Desk, page: Page, words: _Words) -> _Filled:
    """What a school wrote, filled in and held to what may be on a page, in a process that can be stopped."""
    try:
        filled = confined(_fill_and_check, desk, page, words, seconds=SECONDS)
    except TakesTooLongError:
        fault = Fault(words.file, 0, "", "takes too long or too much memory", "take out what repeats so often")
        raise SourceError([fault]) from None
    if filled.stopped:
        raise SourceError(filled.faults)
    return filled


def _fill_and_check(desk: Desk, page: Page, words: _Words) -> _Filled:
    try:
        filled = _fill(desk, page, words)
        figures = {from_page(page.path, picture.path) for picture in (*page.pictures, *filled.pictures)}
        ours = set(refusals(page.body, figures))
        refused = [each for each in refusals(page.body + filled.text, figures) if each not in ours]
        faults = [*filled.faults, *(_fault(each, words) for each in refused)]
        if not (page.body or filled.faults or _HEADING.search(filled.text)):
            remedy = 'begin the page with "# " and what it is about'
            faults.append(Fault(words.file, words.first_line, "", "has no heading of the first level", remedy))
        found = [OwnLink(page.path, to, words.file, words.line_of(to)) for to in links(filled.text)]
        return replace(filled, faults=tuple(faults), links=tuple(found))
    except (Exception, KeyboardInterrupt) as error:
        fault = template_fault(error, words.file, words.first_line)
        return _Filled(faults=(fault,), stopped=isinstance(error, KeyboardInterrupt))


def _fill(desk: Desk, page: Page, words: _Words) -> _Filled:
    try:
        return _Filled(*desk.writer.render_text(words.text, page.path, desk.names, words.file, words.first_line))
    except SourceError as error:
        return _Filled(faults=error.faults)


def _fault(refused: Refused, words: _Words) -> Fault:
    """What must not be on a page, with the line where it seems to be written."""
    return Fault(words.file, words.line_of(refused.sought), refused.key, refused.problem, refused.remedy)
