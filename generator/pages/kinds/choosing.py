"""Choosing numbers -> one page for each size of group, and a page that leads to them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from generator.engine.numbers import NUMBER_KINDS, Choice, best_first, numbers, numbers_of_kind
from generator.engine.places import TENS
from generator.engine.sharing import Sharing, share
from generator.engine.shelf import Shelf, Shortage, needs, shortages
from generator.pages.writing.environment import Writer
from generator.pages.writing.links import LessonLink
from generator.pages.writing.page import Page
from generator.words.numbers import capital, in_clauses, number_words

INDEX = "choosing/index.md"
FOUR_DIGITS = 9000
MORE_BARS = 10
_READY = 5


@dataclass(frozen=True)
class ReadyNumber:
    """A number to take for a lesson, and the lesson of the handbook that takes it, if there is one."""

    sharing: Sharing
    minutes: int
    shortages: tuple[Shortage, ...]
    lesson: LessonLink | None


@dataclass(frozen=True)
class KindOfNumber:
    """One kind of four-digit number for a group: how many there are, how many the shelf allows, the best few."""

    name: str
    count: int
    allowed: int
    ready: tuple[ReadyNumber, ...]


@dataclass(frozen=True)
class Group:
    """A size of group: how many numbers of four digits the shelf allows, as it is and with more ten-bars."""

    size: int
    path: str
    allowed: int
    allowed_with_more: int


@dataclass(frozen=True)
class GroupLessons:
    """A size of group, and the lessons of the handbook for it."""

    size: int
    lessons: tuple[LessonLink, ...]


def groups(sizes: tuple[int, ...], shelf: Shelf) -> tuple[Group, ...]:
    """Every size of group with what the shelf allows."""
    more = shelf.with_more(TENS, MORE_BARS)
    return tuple(
        Group(
            size,
            _path(size),
            len(numbers(size, Choice(shelf=shelf))),
            len(numbers(size, Choice(shelf=more))),
        )
        for size in sizes
    )


def write_choosing(writer: Writer, reviewed: date) -> Page:
    """The page that asks how many share."""
    words, shelf = writer.phrases, writer.school.shelf.owned
    found = groups(writer.school.groups.sizes, shelf)
    called = {group.size: number_words(words, group.size) for group in found}
    allowed = [
        words.say("alternative.allowed", size=called[group.size], allowed=group.allowed, all=FOUR_DIGITS)
        for group in found
    ]
    data = {
        "groups": found,
        "four_digits": FOUR_DIGITS,
        "more_bars": MORE_BARS,
        "rows": [(group.size, group.allowed / FOUR_DIGITS, group.allowed_with_more / FOUR_DIGITS) for group in found],
        "allowed_alternative": in_clauses(words, allowed),
        "unseated": [called[group.size] for group in found if not shelf.seats(group.size)],
    }
    return writer.page("choosing", INDEX, data, reviewed)


def group_lessons(sizes: tuple[int, ...], links: tuple[LessonLink, ...]) -> tuple[GroupLessons, ...]:
    """Every size of group with its lessons; those with ribbons are no group of a size."""
    plain = [link for link in links if not link.ribbons]
    return tuple(GroupLessons(size, tuple(link for link in plain if link.divisor == size)) for size in sizes)


def write_group(given: tuple[Writer, date], group: GroupLessons) -> Page:
    """Ready numbers for one size of group; the date is when they were last reviewed."""
    writer, reviewed = given
    school, size = writer.school, group.size
    shelf = school.shelf.owned
    own = {link.dividend: link for link in group.lessons}
    data = {
        "size": size,
        "sizes": school.groups.sizes,
        "none_fits": not numbers(size, Choice(shelf=shelf)),
        "kinds": [_kind(name, size, shelf, own, writer) for name in NUMBER_KINDS],
        "own": tuple(own.values()),
    }
    name = number_words(writer.phrases, size)
    return writer.page("group", _path(size), data, reviewed, size=str(size), name=name, capital_name=capital(name))


def _path(size: int) -> str:
    return f"choosing/group-{size}.md"


def _kind(name: str, size: int, shelf: Shelf, own: dict[int, LessonLink], writer: Writer) -> KindOfNumber:
    every = numbers_of_kind(size, name)
    allowed = numbers_of_kind(size, name, shelf)
    best = best_first(size, allowed or every, _READY)
    ready = tuple(_ready(share(number, size), shelf, own.get(number), writer) for number in best)
    return KindOfNumber(name, len(every), len(allowed), ready)


def _ready(sharing: Sharing, shelf: Shelf, lesson: LessonLink | None, writer: Writer) -> ReadyNumber:
    needed = needs(sharing)
    minutes = needed.minutes(writer.school.time.seconds_per_handling)
    return ReadyNumber(sharing, minutes, shortages(needed, shelf), lesson)
