"""The path, its steps, and the cards to print -> pages."""

from __future__ import annotations

from dataclasses import dataclass

from generator.engine.shelf import Shortage, needs, shortages
from generator.pages.environment import Writer
from generator.pages.lesson import LessonLink, cards_path, step_path
from generator.pages.page import Page, front_matter
from generator.source.models import Step

PATH = "lessons/index.md"


@dataclass(frozen=True)
class LessonRow:
    """A lesson in the table of its step."""

    link: LessonLink
    minutes: int
    shortages: tuple[Shortage, ...]


@dataclass(frozen=True)
class StepLink:
    """A step as other pages name it; `lessons` says how many it has."""

    path: str
    title: str
    new: str
    lessons: int


def step_links(steps: tuple[Step, ...]) -> tuple[StepLink, ...]:
    """Every step in teaching order."""
    return tuple(StepLink(step_path(step), step.title, step.new, len(step.lessons)) for step in steps)


def step_pages(steps: tuple[Step, ...], links: tuple[LessonLink, ...], writer: Writer) -> tuple[Page, ...]:
    """The overview of every step, and its sheet of cards to print."""
    around = (None, *step_links(steps), None)
    pages: list[Page] = []
    for position, (step, before, after) in enumerate(zip(steps, around, around[2:], strict=False), start=1):
        own = tuple(link for link in links if link.lesson.step == step.slug)
        data = {
            "step": step,
            "position": position,
            "of": len(steps),
            "lessons": [_row(link, writer) for link in own],
            "previous": before,
            "next": after,
            "cards_path": cards_path(step),
        }
        body, pictures = writer.render("step.md.jinja", step_path(step), data)
        meta = front_matter(step.new.split(". ")[0], step.tags, step.reviewed, writer.school.review.months)
        pages.append(Page(step_path(step), step.title, meta, body, pictures))
        pages.append(_cards_page(step, own, writer))
    return tuple(pages)


def _cards_page(step: Step, links: tuple[LessonLink, ...], writer: Writer) -> Page:
    data = {
        "step": step,
        "step_path": step_path(step),
        "cards": [{"sharing": link.sharing, "needs": needs(link.sharing)} for link in links],
    }
    body, pictures = writer.render("cards.md.jinja", cards_path(step), data)
    title = f"{step.short}: cards to print"
    meta = front_matter(f"{title}, two to a sheet.", ["print"], step.reviewed, writer.school.review.months)
    return Page(cards_path(step), title, meta, body, pictures)


def path_page(steps: tuple[Step, ...], writer: Writer) -> Page:
    """The whole path with its steps."""
    links = step_links(steps)
    counts = [f"{link.title} ({link.lessons})" for link in links]
    data = {
        "steps": links,
        "names_and_counts": counts,
        "rows": [(step.short, len(step.lessons)) for step in steps],
    }
    body, pictures = writer.render("path.md.jinja", PATH, data)
    tags = ["progression", "order of lessons", "what comes next", "all lessons"]
    meta = front_matter(
        "All steps of sharing in teaching order.",
        tags,
        max(step.reviewed for step in steps),
        writer.school.review.months,
    )
    return Page(PATH, "The path from the first sharing to ribbons", meta, body, pictures)


def _row(link: LessonLink, writer: Writer) -> LessonRow:
    needed = needs(link.sharing)
    school = writer.school
    return LessonRow(link, needed.minutes(school.time.seconds_per_handling), shortages(needed, school.shelf.owned))
