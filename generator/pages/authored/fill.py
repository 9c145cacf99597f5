"""Markdown that people wrote -> pages: its numbers and figures come from the engine, through the sandbox.

What a school wrote is filled in by a process of its own, and refused if anything in it would run or load.
"""

import re
from dataclasses import dataclass, replace

from generator.errors import Fault
from generator.figures.picture import Picture
from generator.pages.authored.allowed_html import reader, refusals
from generator.pages.authored.confined import SECONDS, confined
from generator.pages.authored.origin import SourceText
from generator.pages.writing.links import LessonLink, StepLink
from generator.pages.writing.page import Page, from_page, front_matter
from generator.pages.writing.template_faults import template_fault
from generator.pages.writing.writer import Writer
from generator.source.models import AuthoredPage, Note

_HEADING = re.compile(r"^(?:#\s|={3,}\s*$|<h1\b)", re.MULTILINE)


@dataclass(frozen=True)
class WritingContext:
    """What authored pages and notes are written with: a writer, and what they may name besides the common names."""

    writer: Writer
    steps: tuple[StepLink, ...]
    lessons: tuple[LessonLink, ...]


def write_authored(context: WritingContext, to_write: tuple[AuthoredPage, tuple[Picture, ...]]) -> Page | list[Fault]:
    """One authored page, which may show the given pictures of the page whose place it takes, or all its faults."""
    page, pictures = to_write
    meta = front_matter(page.meta.description, page.meta.tags, page.meta.reviewed, context.writer.school.review.months)
    if page.meta.boost != 1:
        meta["search"] = {"boost": page.meta.boost}
    blank = Page(page.path, page.meta.title, meta, "", pictures, scripts="ask" if page.meta.asks else "")
    words = SourceText(page.body, page.file, page.body_line)
    if page.from_school:
        return _guarded(context, blank, words)
    try:
        return _filled(context, blank, words)
    except Exception as error:
        return [template_fault(error, words.file, words.first_line)]


def write_note(context: WritingContext, noted: tuple[Page, Note]) -> Page | list[Fault]:
    """A page with what a school adds to it, below a heading of its own, or all its faults."""
    bare, note = noted
    heading = context.writer.phrases.say("page.note")
    page = replace(bare, body=f"{bare.body.rstrip()}\n\n## {heading} {{ #at-our-school }}\n\n")
    return _guarded(context, page, SourceText(note.text, note.file))


def _guarded(context: WritingContext, page: Page, words: SourceText) -> Page | list[Fault]:
    """A page filled in and checked in a process that can be stopped, because a school wrote it."""
    reader()  # made here, so that the copies of this process have it
    written = confined(_filled_and_checked, context, page, words, seconds=SECONDS)
    remedy = "take out what repeats so often"
    return written or [Fault.of_file(words.file, "takes too long or too much memory", remedy)]


def _filled_and_checked(context: WritingContext, page: Page, words: SourceText) -> Page | list[Fault]:
    """The page, or everything that is wrong with it; if the time is up, the line that it had reached."""
    try:
        filled = _filled(context, page, words)
        figures = {from_page(page.path, picture.path) for picture in filled.pictures}
        ours = set(refusals(page.body, figures))
        below = "### " if page.body else "## "
        foreign = [refusal for refusal in refusals(filled.body, figures, below) if refusal not in ours]
        found = [problem.at(words.file, words.line_of(sought)) for problem, sought in foreign]
        if page.body and filled.body.strip() == page.body.strip():
            remedy = "write what is to be added, or take the file away"
            found.append(Fault(words.file, words.first_line, "", "adds nothing to the page", remedy))
        if not (page.body or _HEADING.search(filled.body)):
            remedy = 'begin the page with "# " and what it is about'
            found.append(Fault(words.file, words.first_line, "", "has no heading of the first level", remedy))
        return found or filled
    except (Exception, KeyboardInterrupt) as error:
        return [template_fault(error, words.file, words.first_line)]


def _filled(context: WritingContext, page: Page, words: SourceText) -> Page:
    """The page with the words added to it."""
    names = {"steps": context.steps, "lessons": context.lessons}
    text, shown = context.writer.render_text(words.text, page.path, names, words.file)
    return replace(page, body=page.body + text, pictures=tuple(dict.fromkeys((*page.pictures, *shown))))
