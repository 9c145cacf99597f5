"""Everything that was read -> every page of the handbook, and the navigation between them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from generator.pages.authored import authored_pages
from generator.pages.choosing import choosing_pages
from generator.pages.environment import Writer
from generator.pages.lesson import lesson_links, lesson_pages
from generator.pages.page import Page, front_matter
from generator.pages.steps import path_page, step_links, step_pages
from generator.source.library import Sources


@dataclass(frozen=True)
class Handbook:
    """All pages in reading order, and the navigation: titles with a page or with more of the same."""

    pages: tuple[Page, ...]
    nav: list[dict[str, Any]]


def write_handbook(sources: Sources, writer: Writer) -> Handbook:
    """Every page. Lessons stay out of the navigation: it is written into every page, and would grow with them."""
    links = lesson_links(sources.steps, writer)
    lessons = lesson_pages(sources.steps, links, writer)
    steps = step_pages(sources.steps, links, writer)
    path = path_page(sources.steps, writer)
    home = _home(sources, writer)
    by_slug = {link.lesson.slug: link for link in links}
    known = {"lessons": links, "steps": step_links(sources.steps), "lesson": by_slug.__getitem__}
    choosing = choosing_pages(links, max(step.reviewed for step in sources.steps), writer)
    authored = authored_pages(sources.pages, known, writer)
    nav: list[dict[str, Any]] = [
        {"Home": home.path},
        {"Lessons": [{"The path": path.path}, *({link.title: link.path} for link in step_links(sources.steps))]},
        *_sections((*choosing, *authored)),
    ]
    return Handbook((home, path, *steps, *lessons, *choosing, *authored), nav)


def _sections(pages: tuple[Page, ...]) -> list[dict[str, Any]]:
    """One entry for each folder of authored pages, called by the title of its index."""
    sections: dict[str, list[Page]] = {}
    for page in pages:
        sections.setdefault(page.path.split("/")[0], []).append(page)
    return [
        {next(page.title for page in own if page.path.endswith("index.md")): [{page.title: page.path} for page in own]}
        for own in sections.values()
    ]


def _home(sources: Sources, writer: Writer) -> Page:
    body, pictures = writer.render("home.md.jinja", "index.md", {"lessons": len(sources.lessons)})
    reviewed = max(step.reviewed for step in sources.steps)
    meta = front_matter("Where to begin.", ["start", "overview"], reviewed, writer.school.review.months)
    return Page("index.md", "Home", meta, body, pictures)
