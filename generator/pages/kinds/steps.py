"""The path, its steps, and the cards to print -> pages."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from generator.engine.shelf import Shortage, needs, shortages
from generator.pages.writing.environment import Writer
from generator.pages.writing.links import LessonLink, StepLink, lesson_link, step_link
from generator.pages.writing.page import Page, front_matter
from generator.source.models import Lesson, Step

PATH = "lessons/index.md"


@dataclass(frozen=True)
class LessonRow:
    """A lesson in the table of its step."""

    link: LessonLink
    reason: str
    minutes: int
    shortages: tuple[Shortage, ...]


@dataclass(frozen=True)
class WholePath:
    """All steps in teaching order, and when one of them was last read through."""

    steps: tuple[StepLink, ...]
    reviewed: date


@dataclass(frozen=True)
class PlacedStep:
    """A step between two others: all that its page depends on, besides the school."""

    step: Step
    position: int
    of: int
    previous: StepLink | None
    next: StepLink | None


def placed_steps(steps: tuple[Step, ...]) -> tuple[PlacedStep, ...]:
    """Every step in teaching order in its place."""
    links = [step_link(step) for step in steps]
    around = zip(steps, (None, *links), (*links[1:], None), strict=False)
    return tuple(
        PlacedStep(step, position, len(steps), before, after)
        for position, (step, before, after) in enumerate(around, start=1)
    )


def write_step(writer: Writer, placed: PlacedStep) -> Page:
    """The overview of one step."""
    step = placed.step
    path, cards_path = step_link(step).path, step_link(step).cards_path
    data = {
        "step": step,
        "position": placed.position,
        "of": placed.of,
        "lessons": [_row(lesson, writer) for lesson in step.lessons],
        "previous": placed.previous,
        "next": placed.next,
        "cards_path": cards_path,
    }
    body, pictures = writer.render("step.md.jinja", path, data)
    meta = front_matter(step.new.split(". ")[0], (*step.tags, step.short), step.reviewed, writer.school.review.months)
    return Page(path, step.title, meta, body, pictures)


def write_cards(writer: Writer, step: Step) -> Page:
    """The cards of one step, to print."""
    path = step_link(step).cards_path
    sharings = [lesson_link(lesson, writer.phrases).sharing for lesson in step.lessons]
    data = {
        "step": step,
        "step_path": step_link(step).path,
        "cards": [{"sharing": sharing, "needs": needs(sharing)} for sharing in sharings],
    }
    return writer.page("cards", path, data, step.reviewed, step=step.short)


def write_path(writer: Writer, path: WholePath) -> Page:
    """The whole path with its steps."""
    words = writer.phrases
    data = {
        "steps": path.steps,
        "names_and_counts": [
            words.say("alternative.path-step", step=step.title, lessons=step.lessons) for step in path.steps
        ],
        "rows": [(step.short, step.lessons) for step in path.steps],
    }
    return writer.page("path", PATH, data, path.reviewed)


def _row(lesson: Lesson, writer: Writer) -> LessonRow:
    link, school = lesson_link(lesson, writer.phrases), writer.school
    needed = needs(link.sharing)
    return LessonRow(
        link,
        lesson.reason,
        needed.minutes(school.time.seconds_per_handling),
        shortages(needed, school.shelf.owned),
    )
