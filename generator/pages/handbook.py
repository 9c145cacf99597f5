"""Everything that was read -> every page of the handbook, and the navigation between them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from generator.pages.a_z import a_z_page
from generator.pages.authored import authored_pages
from generator.pages.choosing import choosing_pages
from generator.pages.environment import Writer
from generator.pages.lesson import lesson_links, lesson_pages
from generator.pages.page import Page, front_matter
from generator.pages.steps import path_page, step_links, step_pages
from generator.source.library import Sources

LESSONS = "Lessons"
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

    @property
    def pages(self) -> tuple[Page, ...]:
        """Every page in reading order."""
        return (self.home, *(page for section in self.sections for page in section.pages))


def write_handbook(sources: Sources, writer: Writer) -> Handbook:
    """Every page of the handbook."""
    steps, school = sources.steps, writer.school
    reviewed = max(step.reviewed for step in steps)
    links = lesson_links(steps, writer)
    overviews = step_pages(steps, links, writer)
    lessons = Section(
        LESSONS, (path_page(steps, writer), *_in_step_order(overviews, lesson_pages(steps, links, writer)))
    )
    by_slug = {link.lesson.slug: link for link in links}
    names = {"lessons": links, "steps": step_links(steps), "lesson": by_slug.__getitem__}
    others = (*choosing_pages(links, reviewed, writer), *authored_pages(sources.pages, names, writer))
    a_z = a_z_page((*lessons.pages, *others), reviewed, writer)
    sections = _sections((*others, a_z))
    body, pictures = writer.render("home.md.jinja", "index.md", {"lessons": len(links)})
    meta = front_matter("Where to begin.", ["start", "overview"], reviewed, school.review.months)
    home = Page("index.md", "Home", meta, body, pictures)
    return Handbook(home, (lessons, *sections), _nav(home, lessons, sections))


def _in_step_order(overviews: tuple[Page, ...], lessons: tuple[Page, ...]) -> list[Page]:
    """Each step's overview, its lessons, its cards."""
    folders: dict[str, list[Page]] = {}
    for page in (*overviews, *lessons):
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


def _nav(home: Page, lessons: Section, sections: tuple[Section, ...]) -> list[dict[str, Any]]:
    overviews = [page for page in lessons.pages if page.path.endswith("/index.md")]
    return [
        {home.title: home.path},
        {LESSONS: [{page.title: page.path} for page in overviews]},
        *({section.title: [{page.title: page.path} for page in section.pages]} for section in sections),
    ]
