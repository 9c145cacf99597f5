"""Everything that was read -> every page of the handbook, and the navigation between them."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from difflib import get_close_matches
from itertools import chain, islice
from posixpath import dirname
from typing import Any

from generator.errors import Fault, Faults
from generator.figures.picture import Picture
from generator.pages.authored.fill import WritingContext, write_authored, write_note
from generator.pages.kinds.choosing import write_choosing, write_group
from generator.pages.kinds.lesson import placed_lessons, write_cards, write_lesson_and_plan, write_plans
from generator.pages.kinds.overviews import A_Z, HOME, write_a_z, write_home, write_path, write_step
from generator.pages.kinds.today import TODAY, write_today
from generator.pages.run_many import RunMany
from generator.pages.writing.links import lesson_link, step_link
from generator.pages.writing.page import Page
from generator.pages.writing.writer import Writer
from generator.source.library import Sources
from generator.source.models import Note, PathStep

_SECTIONS = (TODAY, "choosing", "when-it-goes-wrong", "new-here", "reference", "for-the-school")


@dataclass(frozen=True)
class Section:
    """Pages that belong together, in reading order; the first leads to the others."""

    title: str
    pages: tuple[Page, ...]


@dataclass(frozen=True)
class Handbook:
    """Every page in reading order; all but the first page in sections.

    `nav` is what stands beside every page: titles with a page or with more of the same. Lessons, plans and
    cards stay out of it, because it would grow with them on every page.
    """

    pages: tuple[Page, ...]
    sections: tuple[Section, ...]
    nav: list[dict[str, Any]]

    @property
    def pictures(self) -> tuple[Picture, ...]:
        """Every figure that pages show, each once."""
        return tuple(dict.fromkeys(picture for page in self.pages for picture in page.pictures))


def write_handbook(sources: Sources, writer: Writer, run_many: RunMany) -> Handbook:
    """Every page of the handbook; `run_many` works out many pages at once.

    Raises SourceError with every fault in what people wrote, `sources.faults` among them.
    """
    faults = Faults(sources.faults)
    steps = sources.steps
    if not steps:
        faults.raise_if_any()
    links = tuple(lesson_link(lesson, writer) for lesson in sources.lessons)
    context = WritingContext(writer, tuple(map(step_link, steps)), links)
    reviewed = max(step.reviewed for step in steps)
    about_lessons, about_numbers = _written_by_the_program(steps, context, reviewed, run_many)
    home = write_home(writer, links, steps[0], reviewed)
    generated = _by_path((home, *about_lessons, *about_numbers))

    # What people wrote, some of it in the place of what the program wrote.
    by_order = sorted(sources.pages, key=lambda page: (page.section, page.meta.order))
    to_write = ((page, generated[page.path].pictures if page.path in generated else ()) for page in by_order)
    pages = generated | _by_path(_gathered(run_many(write_authored, context, to_write), faults))
    a_z = pages.pop(A_Z, None)
    pages[A_Z] = a_z or write_a_z(writer, [page for page in pages.values() if page.path != HOME], reviewed)

    # What schools add to any of them.
    noted = run_many(write_note, context, _with_notes(pages, sources.notes, faults))
    pages |= _by_path(_gathered(noted, faults))

    faults.extend(_same_titles(pages, sources))
    faults.raise_if_any()
    on_the_path = tuple(pages.pop(page.path) for page in about_lessons)
    first = pages.pop(HOME)
    sections = (Section(writer.phrases.say("page.lessons"), on_the_path), *_sections(pages.values()))
    in_order = (first, *chain.from_iterable(section.pages for section in sections))
    return Handbook(in_order, sections, _nav(first, sections))


def _written_by_the_program(
    steps: tuple[PathStep, ...], context: WritingContext, reviewed: date, run_many: RunMany
) -> tuple[list[Page], list[Page]]:
    """The pages about lessons, in the order of the path, and those about numbers.

    The longest work is begun first, and goes on while what comes before it in the handbook is put together.
    """
    writer, to_steps, links = context.writer, context.steps, context.lessons
    lessons_and_plans = run_many(write_lesson_and_plan, writer, placed_lessons(steps, links))
    sizes = writer.school.groups.sizes
    by_size = [(size, [link for link in links if link.divisor == size and not link.ribbons]) for size in sizes]
    groups = run_many(write_group, (writer, reviewed), by_size)
    choose = run_many(write_choosing, writer, [reviewed])
    cards = run_many(write_cards, writer, steps)
    overviews = run_many(write_step, (writer, to_steps), steps)
    about_lessons = [write_path(writer, to_steps, links, reviewed)]
    for step, overview, cards_to_print in zip(steps, overviews, cards, strict=True):
        lessons, plans = zip(*islice(lessons_and_plans, len(step.lessons)), strict=True)
        about_lessons += (overview, *lessons, write_plans(writer, step, plans), cards_to_print)
    return about_lessons, [write_today(writer, reviewed), *choose, *groups]


def _by_path(pages: Iterable[Page]) -> dict[str, Page]:
    return {page.path: page for page in pages}


def _gathered(written: Iterator[Page | list[Fault]], faults: Faults) -> Iterator[Page]:
    """The pages among some results; the faults among them are added to `faults`."""
    for page in written:
        if isinstance(page, Page):
            yield page
        else:
            faults.extend(page)


def _same_titles(pages: Mapping[str, Page], sources: Sources) -> Iterator[Fault]:
    """A fault for every page and step of a school with the title of another page."""
    own = [(page.path, "title", page.file, page.title_line) for page in sources.pages if page.from_school]
    for step in sources.steps:
        if step.from_school:
            own.append((step_link(step).path, "title", step.file, step.title_line))
            own.append((step_link(step).cards_path, "short", step.file, step.short_line))
    for path, key, file, line in own:
        title = pages[path].title if path in pages else None
        others = (page.path for page in pages.values() if page.title == title and page.path != path)
        if other := next(others, None):
            called = re.sub(r"lessons/([^/]+)/(?:index|cards)\.md", r"the step \1", other)
            yield Fault(file, line, key, f"is also that of {called}", "begin it with what differs")


def _with_notes(pages: Mapping[str, Page], notes: Sequence[Note], faults: Faults) -> Iterator[tuple[Page, Note]]:
    """Every page with the note that a school adds to it.

    A note for a page that does not exist is a fault, unless a file with a fault in that folder may be the page.
    """
    below_notes = tuple({note.file.removesuffix(note.path) for note in notes})
    with_faults = [f"/{dirname(fault.file)}" for fault in faults if not fault.file.startswith(below_notes)]
    for note in notes:
        folder = dirname(note.path) or "pages"
        if note.path in pages:
            yield pages[note.path], note
        elif not any(path.endswith(f"/{folder}") for path in with_faults):
            index = f"{note.path.removesuffix('.md')}/index.md"
            close = [index] if index in pages else get_close_matches(note.path, pages, n=1)
            remedy = (
                f"did you mean {close[0]}?" if close else "give it the path of a page, such as new-here/the-room.md"
            )
            faults.append(Fault.of_file(note.file, "is a note for a page that does not exist", remedy))


def _sections(pages: Iterable[Page]) -> tuple[Section, ...]:
    """Pages by the folder they lie in, called by the title of its index; folders of a school's own come last."""
    folders: dict[str, list[Page]] = {folder: [] for folder in _SECTIONS}
    for page in pages:
        folders.setdefault(page.path.split("/")[0], []).append(page)
    sections = [sorted(own, key=lambda page: not page.path.endswith("/index.md")) for own in folders.values() if own]
    return tuple(Section(own[0].title, tuple(own)) for own in sections)


def _nav(home: Page, sections: tuple[Section, ...]) -> list[dict[str, Any]]:
    lessons, *others = sections
    overviews = [page for page in lessons.pages if page.path.endswith("/index.md")]
    return [
        {home.title: home.path},
        {lessons.title: [{page.title: page.path} for page in overviews]},
        *({section.title: _entries(section)} for section in others),
    ]


def _entries(section: Section) -> str | list[dict[str, str]]:
    """The navigation of a section: its pages, or the path of its only page if that lies in no folder."""
    first = section.pages[0].path
    return first if "/" not in first else [{page.title: page.path} for page in section.pages]
