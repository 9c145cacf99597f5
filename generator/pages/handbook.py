"""Everything that was read -> every page of the handbook, and the navigation between them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from difflib import get_close_matches
from functools import cached_property
from itertools import filterfalse
from typing import Any

from generator.errors import Fault, SourceError
from generator.figures.picture import Picture
from generator.pages.authored.fill import Desk, Draft, Noted, speaks_of_lessons, write_authored, write_note
from generator.pages.authored.own_links import OwnLink, dead_links
from generator.pages.kinds.a_z import PATH as A_Z
from generator.pages.kinds.a_z import entries, write_a_z
from generator.pages.kinds.choosing import group_lessons, write_choosing, write_group
from generator.pages.kinds.lesson import placed_lessons, write_lesson
from generator.pages.kinds.steps import WholePath, placed_steps, write_cards, write_path, write_step
from generator.pages.run_many import RunMany
from generator.pages.writing.environment import Writer
from generator.pages.writing.links import lesson_link, step_link
from generator.pages.writing.page import Page
from generator.source.library import Sources
from generator.source.models import Note
from generator.source.overlay import Faults

_SECTIONS = ("choosing", "when-it-goes-wrong", "new-here", "reference", "for-the-school")


@dataclass(frozen=True)
class Section:
    """Pages that belong together, in reading order; the first leads to the others."""

    title: str
    pages: tuple[Page, ...]


@dataclass(frozen=True)
class Handbook:
    """The first page, and all others in sections.

    `nav` is what stands beside every page: titles with a page or with more of the same. Lessons and cards
    stay out of it, because it would grow with them on every page.
    """

    home: Page
    sections: tuple[Section, ...]
    nav: list[dict[str, Any]]

    @cached_property
    def pages(self) -> tuple[Page, ...]:
        """Every page in reading order."""
        return (self.home, *(page for section in self.sections for page in section.pages))

    @cached_property
    def pictures(self) -> tuple[Picture, ...]:
        """Every figure that pages show, each once."""
        return tuple(dict.fromkeys(picture for page in self.pages for picture in page.pictures))


@dataclass(frozen=True)
class Beginning:
    """What the first page tells: how many lessons there are, and when it was last read through."""

    lessons: int
    reviewed: date


def write_handbook(sources: Sources, writer: Writer, run_many: RunMany) -> Handbook:
    """Every page of the handbook; `run_many` works out many pages at once.

    Raises SourceError with every fault in the words that people wrote for it.
    """
    faults = Faults()
    own_links: list[OwnLink] = []
    steps = sources.steps
    reviewed = max(step.reviewed for step in steps)
    links = tuple(lesson_link(lesson, writer.phrases) for lesson in sources.lessons)
    to_steps = tuple(map(step_link, steps))
    by_order = sorted(sources.pages, key=lambda page: (page.section, page.meta.order))
    # The longest work is begun first; what is begun goes on while the next is put together.
    lessons = run_many(write_lesson, writer, placed_lessons(steps, links))
    desk = Desk(writer, to_steps)
    desk_with_lessons = replace(desk, lessons=links)
    about_lessons = run_many(write_authored, desk_with_lessons, filter(speaks_of_lessons, by_order))
    authored = run_many(write_authored, desk, filterfalse(speaks_of_lessons, by_order))
    choosing = run_many(write_group, (writer, reviewed), group_lessons(writer.school.groups.sizes, links))
    choose = run_many(write_choosing, writer, [reviewed])
    cards = run_many(write_cards, writer, steps)
    overviews = run_many(write_step, writer, placed_steps(steps))
    path = run_many(write_path, writer, [WholePath(to_steps, reviewed)])
    home = run_many(write_home, writer, [Beginning(len(links), reviewed)])
    written = {page.path: page for drafts in (about_lessons, authored) for page in _whole(drafts, faults, own_links)}
    own = {page.path: written[page.path] for page in by_order if page.path in written}

    def in_force(pages: Iterable[Page]) -> list[Page]:
        """The pages, but what people wrote takes the place of what the program wrote at the same path."""
        return [own.pop(page.path, page) for page in pages]

    on_the_path = Section(
        writer.phrases.say("page.lessons"), (*in_force(path), *_in_step_order(in_force((*overviews, *cards, *lessons))))
    )
    (first,) = in_force(home)
    others = (*in_force(choose), *in_force(choosing), *(page for page in own.values() if page.path != A_Z))
    a_z = in_force(run_many(write_a_z, writer, [entries((*on_the_path.pages, *others), reviewed)]))
    sections = (on_the_path, *_sections((*others, *a_z)))
    handbook = Handbook(first, sections, _nav(first, sections))
    noted = run_many(write_note, desk_with_lessons, _noted(handbook.pages, sources.notes, faults))
    handbook = _with(handbook, {page.path: page for page in _whole(noted, faults, own_links)})
    faults.extend(_same_titles(handbook.pages, sources))
    faults.extend(dead_links(own_links, [page.path for page in handbook.pages]))
    faults.raise_if_any()
    return handbook


def write_home(writer: Writer, beginning: Beginning) -> Page:
    """The first page."""
    return writer.page("home", "index.md", {"lessons": beginning.lessons}, beginning.reviewed)


def _whole(drafts: Iterator[Draft], faults: Faults, own_links: list[OwnLink]) -> list[Page]:
    """The pages of drafts; what is wrong with them is added to the faults, and their links to the links.

    Where a page cannot be had at all, those after it are not known either, so nothing can be said of links and notes.
    """
    pages: list[Page] = []
    try:
        for draft in drafts:
            pages.append(draft.page)
            faults.extend(draft.faults)
            own_links.extend(draft.links)
    except SourceError as error:
        raise SourceError([*faults, *error.faults]) from None
    return pages


def _same_titles(pages: Iterable[Page], sources: Sources) -> Iterator[Fault]:
    """A fault for every page and step of a school that is called like another page."""
    titles = {page.path: page.title for page in pages}
    paths: dict[str, list[str]] = {}
    for path, title in titles.items():
        paths.setdefault(title, []).append(path)
    own = [(page.path, "title", page.file) for page in sources.pages if page.from_school]
    for step in sources.steps:
        if step.from_school:
            own += [(step_link(step).path, "title", step.file), (step_link(step).cards_path, "short", step.file)]
    for path, key, file in own:
        for other in paths.get(titles.get(path, ""), ()):
            if other != path:
                yield Fault(file, 0, key, f"is also that of {other}", "begin it with what differs")


def _noted(pages: Iterable[Page], notes: Iterable[Note], faults: Faults) -> list[Noted]:
    """Every page that a school adds a note to; a note for no page is a fault."""
    by_path = {page.path: page for page in pages}
    noted: list[Noted] = []
    for note in notes:
        if note.path in by_path:
            noted.append(Noted(by_path[note.path], note))
        else:
            close = get_close_matches(note.path, by_path, n=1)
            remedy = (
                f"did you mean {close[0]}?" if close else "give it the path of a page, such as new-here/the-room.md"
            )
            faults.append(Fault(note.file, 0, "", "is a note for a page that does not exist", remedy))
    return noted


def _with(handbook: Handbook, pages: Mapping[str, Page]) -> Handbook:
    """The handbook with these pages in the place of those at the same path."""

    def newest(page: Page) -> Page:
        return pages.get(page.path, page)

    sections = tuple(replace(section, pages=tuple(map(newest, section.pages))) for section in handbook.sections)
    return replace(handbook, home=newest(handbook.home), sections=sections)


def _in_step_order(pages: Iterable[Page]) -> list[Page]:
    """Each step's overview, its lessons, its cards."""
    folders: dict[str, list[Page]] = {}
    for page in pages:
        folders.setdefault(page.path.rpartition("/")[0], []).append(page)
    return [page for pages in folders.values() for page in sorted(pages, key=_place_in_step)]


def _place_in_step(page: Page) -> int:
    return {"index.md": 0, "cards.md": 2}.get(page.path.rpartition("/")[2], 1)


def _sections(pages: tuple[Page, ...]) -> tuple[Section, ...]:
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
        *({section.title: [{page.title: page.path} for page in section.pages]} for section in others),
    ]
