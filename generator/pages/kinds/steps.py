"""The path, its steps, and the cards to print -> pages."""

from datetime import date
from typing import Any

from generator.engine.shelf import needs
from generator.pages.writing.links import StepLink, lesson_link, step_link
from generator.pages.writing.page import Page, front_matter
from generator.pages.writing.views import time_and_shelf
from generator.pages.writing.writer import Writer
from generator.source.models import Lesson, Step

PATH = "lessons/index.md"


def write_step(given: tuple[Writer, tuple[StepLink, ...]], step: Step) -> Page:
    """The overview of one step; `given` holds all steps in teaching order besides the writer."""
    writer, steps = given
    link = step_link(step)
    at = steps.index(link)
    data = {
        "step": step,
        "position": at + 1,
        "of": len(steps),
        "lessons": [_row(lesson, writer) for lesson in step.lessons],
        "previous": steps[at - 1] if at else None,
        "next": steps[at + 1] if at + 1 < len(steps) else None,
        "cards_path": link.cards_path,
        "plans_path": link.plans_path,
    }
    body, pictures = writer.render("step.md.jinja", link.path, data)
    description = step.new.partition(". ")[0].removesuffix(".") + "."
    meta = front_matter(description, (*step.tags, step.short), step.reviewed, writer.school.review.months)
    return Page(link.path, step.title, meta, body, pictures)


def _row(lesson: Lesson, writer: Writer) -> dict[str, Any]:
    """A lesson in the table of its step."""
    link = lesson_link(lesson, writer)
    return {"link": link, "reason": lesson.reason, **time_and_shelf(link.sharing, writer.school)}


def write_cards(writer: Writer, step: Step) -> Page:
    """The cards of one step, to print."""
    link = step_link(step)
    links = [lesson_link(lesson, writer) for lesson in step.lessons]
    cards = [{"slug": link.slug, "sharing": link.sharing, "needs": needs(link.sharing)} for link in links]
    data = {"step": step, "step_path": link.path, "cards": cards}
    return writer.page("cards", link.cards_path, data, step.reviewed, step=step.short)


def write_path(writer: Writer, steps: tuple[StepLink, ...], reviewed: date) -> Page:
    """The whole path: all steps in teaching order."""
    say = writer.phrases.say
    data = {
        "steps": steps,
        "names_and_counts": [say("alternative.path-step", step=step.title, lessons=step.lessons) for step in steps],
        "rows": [(step.short, step.lessons) for step in steps],
    }
    return writer.page("path", PATH, data, reviewed)
