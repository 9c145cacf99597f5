"""A lesson and its division, worked out -> the page of the lesson."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from generator.engine.diagnosis import Sign, telling_slips
from generator.engine.kinds import Kind, kind_of
from generator.engine.numbers import Choice, Remainder, best_first, numbers
from generator.engine.places import Counts
from generator.engine.sharing import Sharing, share
from generator.engine.shelf import Needs, Shelf, Shortage, needs, shortages
from generator.engine.sights import Sight, beads_on
from generator.pages.environment import Writer
from generator.pages.page import Page, front_matter
from generator.pages.titles import lesson_title, what_happens
from generator.pages.views import CheckRow, StageView, check_rows, stage_views
from generator.source.models import MOST_CHILDREN, Lesson, Step
from generator.source.school import School


@dataclass(frozen=True)
class LessonLink:
    """A lesson as other pages name it: its page, title, reason and division."""

    path: str
    title: str
    lesson: Lesson
    sharing: Sharing


@dataclass(frozen=True)
class Neighbour:
    """The same number with one child more or less, and a number of the same kind for that group, if there is one."""

    sharing: Sharing
    what_happens: str
    shortages: tuple[Shortage, ...]
    instead: int | None


@dataclass(frozen=True)
class LessonView:
    """Everything the template of a lesson asks for. `from_bank` is what the bank must have ready to come out."""

    lesson: Lesson
    step: Step
    step_path: str
    cards_path: str
    position: int
    title: str
    sharing: Sharing
    kind: Kind
    needs: Needs
    minutes: int
    shortages: tuple[Shortage, ...]
    from_bank: Counts
    stages: tuple[StageView, ...]
    check: tuple[CheckRow, ...]
    right: Sight
    signs: tuple[Sign, ...]
    neighbours: tuple[Neighbour, ...]
    previous: LessonLink | None
    next: LessonLink | None


def step_path(step: Step) -> str:
    """Where the page of a step lies."""
    return f"lessons/{step.slug}/index.md"


def cards_path(step: Step) -> str:
    """Where the cards to print of a step lie."""
    return f"lessons/{step.slug}/cards.md"


def lesson_links(steps: tuple[Step, ...], writer: Writer) -> tuple[LessonLink, ...]:
    """Every lesson in teaching order, worked out."""
    links: list[LessonLink] = []
    for lesson in (lesson for step in steps for lesson in step.lessons):
        sharing = share(lesson.dividend, lesson.divisor, ribbons=lesson.ribbons)
        path = f"lessons/{lesson.step}/{lesson.slug}.md"
        links.append(LessonLink(path, lesson_title(sharing, writer.number), lesson, sharing))
    return tuple(links)


def lesson_pages(steps: tuple[Step, ...], links: tuple[LessonLink, ...], writer: Writer) -> tuple[Page, ...]:
    """The page of every lesson, each knowing the one before and the one after."""
    by_slug = {step.slug: step for step in steps}
    around = pairwise((None, *links, None))
    threes = [(before, link, after) for (before, link), (_, after) in pairwise(around) if link]
    return tuple(_page(by_slug[link.lesson.step], before, link, after, writer) for before, link, after in threes)


def _page(step: Step, before: LessonLink | None, link: LessonLink, after: LessonLink | None, writer: Writer) -> Page:
    view = _view(step, before, link, after, writer.school)
    body, pictures = writer.render("lesson.md.jinja", link.path, {"view": view})
    meta = front_matter(link.lesson.reason, link.lesson.tags, link.lesson.reviewed, writer.school.review.months)
    return Page(link.path, link.title, meta, body, pictures)


def _view(
    step: Step, before: LessonLink | None, link: LessonLink, after: LessonLink | None, school: School
) -> LessonView:
    sharing = link.sharing
    shelf = school.shelf.owned
    needed = needs(sharing)
    return LessonView(
        lesson=link.lesson,
        step=step,
        step_path=step_path(step),
        cards_path=cards_path(step),
        position=step.lessons.index(link.lesson) + 1,
        title=link.title,
        sharing=sharing,
        kind=kind_of(sharing),
        needs=needed,
        minutes=needed.minutes(school.time.seconds_per_handling),
        shortages=shortages(needed, shelf),
        from_bank=Counts(most - laid for most, laid in zip(needed.pieces, sharing.start, strict=True)),
        stages=stage_views(sharing),
        check=check_rows(sharing),
        right=Sight(beads_on(sharing.trays(sharing.end)), sharing.remainder),
        signs=telling_slips(sharing),
        neighbours=_neighbours(sharing, shelf),
        previous=before,
        next=after,
    )


def _neighbours(sharing: Sharing, shelf: Shelf) -> tuple[Neighbour, ...]:
    if len(sharing.mat) > 1:
        return ()
    kind = kind_of(sharing)
    groups = [size for size in (sharing.divisor - 1, sharing.divisor + 1) if 2 <= size <= MOST_CHILDREN]
    others = [share(sharing.dividend, size) for size in groups]
    return tuple(
        Neighbour(
            other,
            what_happens(other),
            shortages(needs(other), shelf),
            _ready_number(other.divisor, frozenset(kind.exchange_from), kind.exact, len(sharing.start)),
        )
        for other in others
    )


@cache
def _ready_number(divisor: int, exchange_from: frozenset[int], exact: bool, digits: int) -> int | None:
    """The best number that asks the same of the bank and of the end."""
    remainder = Remainder.NONE if exact else Remainder.SOME
    found = best_first(divisor, numbers(divisor, Choice(exchange_from, remainder, digits=digits)))
    return found[0] if found else None
