"""Markdown that people wrote -> pages: its numbers and figures come from the engine, through the sandbox."""

from __future__ import annotations

from dataclasses import dataclass

from generator.pages.environment import Writer
from generator.pages.links import LessonLink, StepLink
from generator.pages.page import Page, front_matter
from generator.source.models import AuthoredPage


@dataclass(frozen=True)
class Desk:
    """What authored pages are written with: a writer, and the names they may use besides the common ones."""

    writer: Writer
    lessons: tuple[LessonLink, ...]
    steps: tuple[StepLink, ...]


def write_authored(desk: Desk, page: AuthoredPage) -> Page:
    """One authored page."""
    names = {"lessons": desk.lessons, "steps": desk.steps}
    body, pictures = desk.writer.render_text(page.body, page.path, names, page.file, page.body_line)
    meta = front_matter(page.meta.description, page.meta.tags, page.meta.reviewed, desk.writer.school.review.months)
    if page.meta.boost != 1:
        meta["search"] = {"boost": page.meta.boost}
    return Page(page.path, page.meta.title, meta, body, pictures)
