"""Markdown that people wrote -> pages: its numbers and figures come from the engine, through the sandbox.

What a school wrote is filled in by a process of its own, and refused if anything in it would run or load.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TypeAlias

from generator.errors import Fault, SourceError
from generator.figures.picture import Picture
from generator.pages.authored.confined import SECONDS, TakesTooLongError, confined
from generator.pages.authored.content import refusals
from generator.pages.authored.source_text import SourceText
from generator.pages.writing.links import LessonLink, StepLink
from generator.pages.writing.page import Page, from_page, front_matter
from generator.pages.writing.template_faults import template_fault
from generator.pages.writing.template_names import Writer
from generator.source.models import AuthoredPage, Note

_HEADING = re.compile(r"^(?:#\s|={3,}\s*$|<h1\b)", re.MULTILINE)


@dataclass(frozen=True)
class WritingContext:
    """What authored pages and notes are written with: a writer, and what they may name besides the common names."""

    writer: Writer
    steps: tuple[StepLink, ...]
    lessons: tuple[LessonLink, ...]


# A page, and what is wrong with the words that somebody wrote for it; with faults the page is not whole.
WrittenPage: TypeAlias = tuple[Page, tuple[Fault, ...]]


@dataclass(frozen=True)
class _FilledText:
    """Markdown with its template filled in, and its figures; `stopped` tells that there was no time to end."""

    text: str = ""
    pictures: tuple[Picture, ...] = ()
    faults: tuple[Fault, ...] = ()
    stopped: bool = False


def write_authored(context: WritingContext, to_write: tuple[AuthoredPage, tuple[Picture, ...]]) -> WrittenPage:
    """One authored page, which may show the given pictures of the page whose place it takes.

    Raises SourceError if a school's page takes too long; that may be otherwise another day.
    """
    page, pictures = to_write
    meta = front_matter(page.meta.description, page.meta.tags, page.meta.reviewed, context.writer.school.review.months)
    if page.meta.boost != 1:
        meta["search"] = {"boost": page.meta.boost}
    if page.meta.asks:
        meta["scripts"] = "ask"
    blank = Page(page.path, page.meta.title, meta, "", pictures)
    words = SourceText(page.body, page.file, page.body_line)
    return _with(blank, _guarded(context, blank, words) if page.from_school else _fill(context, blank, words))


def write_note(context: WritingContext, noted: tuple[Page, Note]) -> WrittenPage:
    """A page with what a school adds to it, below a heading of its own. Raises SourceError like write_authored."""
    heading = context.writer.phrases.say("page.note")
    bare, note = noted
    page = replace(bare, body=f"{bare.body.rstrip()}\n\n## {heading} {{ #at-our-school }}\n\n")
    return _with(page, _guarded(context, page, SourceText(note.text, note.file)))


def _with(page: Page, filled: _FilledText) -> WrittenPage:
    pictures = tuple(dict.fromkeys((*page.pictures, *filled.pictures)))
    return replace(page, body=page.body + filled.text, pictures=pictures), filled.faults


def _guarded(context: WritingContext, page: Page, words: SourceText) -> _FilledText:
    """What a school wrote, filled in and held to what may be on a page, in a process that can be stopped."""
    try:
        filled = confined(_fill_and_check, context, page, words, seconds=SECONDS)
    except TakesTooLongError:
        fault = Fault.of_file(words.file, "takes too long or too much memory", "take out what repeats so often")
        raise SourceError([fault]) from None
    if filled.stopped:
        raise SourceError(filled.faults)
    return filled


def _fill_and_check(context: WritingContext, page: Page, words: SourceText) -> _FilledText:
    try:
        filled = _fill(context, page, words)
        figures = {from_page(page.path, picture.path) for picture in (*page.pictures, *filled.pictures)}
        ours = set(refusals(page.body, figures))
        refused = [refusal for refusal in refusals(page.body + filled.text, figures) if refusal not in ours]
        faults = [*filled.faults, *(problem.at(words.file, words.line_of(sought)) for problem, sought in refused)]
        if not (page.body or filled.faults or _HEADING.search(filled.text)):
            remedy = 'begin the page with "# " and what it is about'
            faults.append(Fault(words.file, words.first_line, "", "has no heading of the first level", remedy))
        return replace(filled, faults=tuple(faults))
    except (Exception, KeyboardInterrupt) as error:
        fault = template_fault(error, words.file, words.first_line)
        return _FilledText(faults=(fault,), stopped=isinstance(error, KeyboardInterrupt))


def _fill(context: WritingContext, page: Page, words: SourceText) -> _FilledText:
    names = {"steps": context.steps, "lessons": context.lessons}
    try:
        return _FilledText(*context.writer.render_text(words.text, page.path, names, words.file, words.first_line))
    except SourceError as error:
        return _FilledText(faults=error.faults)
