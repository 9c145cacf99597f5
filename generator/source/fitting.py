"""Whether a lesson is what its step expects."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import NamedTuple

from generator.engine.kinds import Kind, kind_of
from generator.engine.places import TENS, place_name
from generator.engine.sharing import Sharing, share
from generator.source.models import Expects, LessonFile


class Misfit(NamedTuple):
    """A key of the lesson, what is wrong with it for its step, and what would be right."""

    key: str
    problem: str
    remedy: str


def misfits(lesson: LessonFile, expects: Expects) -> Iterator[Misfit]:
    """Everything about a lesson that its step does not take."""
    sharing = share(lesson.dividend, lesson.divisor, ribbons=lesson.ribbons)
    kind = kind_of(sharing)
    story = f"{lesson.dividend} among {lesson.divisor}"
    another = f"choose another number (python -m generator choose {lesson.divisor}) or move the lesson"

    def unless(fits: bool, key: str, what: str, wanted: object, remedy: str = another) -> Iterator[Misfit]:
        if not fits:
            yield Misfit(key, f"{story} {what}, but its step expects {wanted}", remedy)

    fewest, most = expects.children
    yield from unless(
        fewest <= lesson.children <= most,
        "divisor",
        f"needs {lesson.children} children",
        f"children = [{fewest}, {most}]",
        "choose another divisor or move the lesson",
    )
    yield from unless(
        _ribbon(sharing, expects.ribbons),
        "ribbons" if lesson.ribbons != (expects.ribbons != "none") else "divisor",
        f"is shared {'with' if lesson.ribbons else 'without'} ribbons",
        f'ribbons = "{expects.ribbons}"',
        "choose another divisor or move the lesson",
    )
    senders = tuple(map(place_name, kind.exchange_from))
    sends = f"sends pieces to the bank from {' and '.join(senders) or 'nowhere'}"
    yield from unless(_exchanges(kind, expects.exchanges), "dividend", sends, f'exchanges = "{expects.exchanges}"')
    if expects.exchange_from is not None:
        fits = set(senders) == set(expects.exchange_from)
        yield from unless(fits, "dividend", sends, f"exchange_from = {json.dumps(expects.exchange_from)}")
    left = f"leaves {kind.remainder or 'nothing'} over"
    yield from unless(_remainder(kind, expects.remainder), "dividend", left, f'remainder = "{expects.remainder}"')
    yield from unless(
        _empty(kind, expects.empty_place), "dividend", "has no zero there", f'empty_place = "{expects.empty_place}"'
    )
    short = f"has too few pieces at {' and '.join(map(place_name, kind.places_short)) or 'no place'}"
    yield from unless(_short(kind, expects.short), "dividend", short, f'short = "{expects.short}"')


def _ribbon(sharing: Sharing, wanted: str) -> bool:
    largest = len(sharing.mat) - 1
    return {"none": largest == 0, "some": largest > 0, "ten": largest == TENS, "hundred": largest > TENS}[wanted]


def _exchanges(kind: Kind, wanted: str) -> bool:
    places = len(kind.exchange_from)
    return {
        "any": True,
        "none": places == 0,
        "some": places > 0,
        "one place": places == 1,
        "several places": places > 1,
    }[wanted]


def _remainder(kind: Kind, wanted: str) -> bool:
    return {"any": True, "none": kind.exact, "some": not kind.exact}[wanted]


def _empty(kind: Kind, wanted: str) -> bool:
    in_number = bool(kind.zeros_in_dividend)
    in_share = bool(kind.zeros_inside_quotient or kind.zeros_at_quotient_end)
    return {"any": True, "number": in_number, "share": in_share, "either": in_number or in_share}[wanted]


def _short(kind: Kind, wanted: str) -> bool:
    some = bool(kind.places_short)
    return {"any": True, "none": not some, "some": some, "highest": kind.highest_place_short}[wanted]
