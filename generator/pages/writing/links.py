"""How pages name lessons and steps that are not their own."""

from dataclasses import dataclass
from datetime import date
from functools import cached_property

from generator.engine.sharing import Sharing, share
from generator.pages.writing.writer import Writer
from generator.source.models import Lesson, PathStep
from generator.words.titles import lesson_title


@dataclass(frozen=True)
class LessonLink:
    """A lesson as other pages name it: its page, its title, and its division, which is worked out when first used.

    It holds no more of the lesson, so that other changes to it do not make those pages be written again.
    """

    path: str
    title: str
    slug: str
    reviewed: date
    dividend: int
    divisor: int
    ribbons: bool
    look_first: bool

    @cached_property
    def sharing(self) -> Sharing:
        return share(self.dividend, self.divisor, ribbons=self.ribbons, look_first=self.look_first)


@dataclass(frozen=True)
class StepLink:
    """A step as other pages name it; `lessons` says how many it has.

    On the pages of its cards and of its plans, the card and the plan of a lesson have the lesson's slug as their id.
    """

    path: str
    cards_path: str
    plans_path: str
    title: str
    short: str
    new: str
    lessons: int


def lesson_link(lesson: Lesson, writer: Writer) -> LessonLink:
    """How a lesson is named, with numbers as this school writes them, and shared out as this school does."""
    dividend, divisor, ribbons = lesson.dividend, lesson.divisor, lesson.ribbons
    title = lesson_title(writer.phrases, share(dividend, divisor, ribbons=ribbons))
    look_first = writer.school.look_first
    return LessonLink(lesson_path(lesson), title, lesson.slug, lesson.reviewed, dividend, divisor, ribbons, look_first)


def lesson_path(lesson: Lesson) -> str:
    """Where the page of a lesson lies in the handbook."""
    return f"lessons/{lesson.step}/{lesson.slug}.md"


def step_link(step: PathStep) -> StepLink:
    """How a step is named."""
    folder = f"lessons/{step.slug}"
    paths = (f"{folder}/index.md", f"{folder}/cards.md", f"{folder}/plans.md")
    return StepLink(*paths, step.title, step.short, step.new, len(step.lessons))
