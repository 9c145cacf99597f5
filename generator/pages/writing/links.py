"""How pages name lessons and steps that are not their own."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cached_property

from generator.engine.sharing import Sharing, share
from generator.source.models import Lesson, Step
from generator.words.phrases import Phrases
from generator.words.titles import lesson_title


@dataclass(frozen=True)
class LessonLink:
    """A lesson as other pages name it: its page, its title, and its division, worked out when it is asked for.

    It holds no more, so that a new word in one lesson does not make every page that names it a new page.
    """

    path: str
    title: str
    slug: str
    reviewed: date
    dividend: int
    divisor: int
    ribbons: bool

    @cached_property
    def sharing(self) -> Sharing:
        return share(self.dividend, self.divisor, ribbons=self.ribbons)


@dataclass(frozen=True)
class StepLink:
    """A step as other pages name it; `lessons` says how many it has."""

    path: str
    cards_path: str
    title: str
    short: str
    new: str
    lessons: int


def lesson_link(lesson: Lesson, words: Phrases) -> LessonLink:
    """How a lesson is named, with numbers as this school writes them."""
    title = lesson_title(words, share(lesson.dividend, lesson.divisor, ribbons=lesson.ribbons))
    return LessonLink(
        lesson_path(lesson), title, lesson.slug, lesson.reviewed, lesson.dividend, lesson.divisor, lesson.ribbons
    )


def lesson_path(lesson: Lesson) -> str:
    """Where the page of a lesson lies in the handbook."""
    return f"lessons/{lesson.step}/{lesson.slug}.md"


def step_link(step: Step) -> StepLink:
    """How a step is named."""
    folder = f"lessons/{step.slug}"
    return StepLink(f"{folder}/index.md", f"{folder}/cards.md", step.title, step.short, step.new, len(step.lessons))
