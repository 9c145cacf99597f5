"""Whether a lesson is what its step expects."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import NamedTuple

from generator.engine.features import Features, features_of
from generator.engine.places import place_name
from generator.engine.sharing import Sharing, share
from generator.errors import Problem
from generator.source.models import Expects, LessonFile

_RIBBONS = ("none", "ten", "hundred")


class _Trait(NamedTuple):
    """One key of [expects]: the words a lesson answers it with, and the same as half a sentence."""

    key: str
    words: set[str]
    sentence: str


def misfits(lesson: LessonFile, expects: Expects) -> Iterator[Problem]:
    """Everything about a lesson that its step does not take."""
    sharing = share(lesson.dividend, lesson.divisor, ribbons=lesson.ribbons)
    features = features_of(sharing)
    story = f"{lesson.dividend} among {lesson.divisor}"
    another_number = f"choose another number (python -m generator choose {lesson.divisor}) or another step"
    another_divisor = "choose another divisor or another step"

    fewest, most = expects.children
    if not fewest <= lesson.children <= most:
        problem = f"{story} needs {lesson.children} children, but its step expects children = [{fewest}, {most}]"
        yield Problem("divisor", problem, another_divisor)
    ribbons = _ribbons(sharing)
    if expects.ribbons not in ribbons.words:
        problem = f'{story} {ribbons.sentence}, but its step expects ribbons = "{expects.ribbons}"'
        yield Problem("divisor", problem, another_divisor)
    exchanges = _exchanges(features)
    wanted_places = expects.exchange_from
    if wanted_places is not None and set(wanted_places) != set(map(place_name, features.exchange_from)):
        problem = f"{story} {exchanges.sentence}, but its step expects exchange_from = {json.dumps(wanted_places)}"
        yield Problem("dividend", problem, another_number)
    for trait in (exchanges, _remainder(features), _empty_place(features), _short(features)):
        wanted = getattr(expects, trait.key)
        if wanted not in trait.words:
            problem = f'{story} {trait.sentence}, but its step expects {trait.key} = "{wanted}"'
            yield Problem("dividend", problem, another_number)


def _ribbons(sharing: Sharing) -> _Trait:
    largest = _RIBBONS[len(sharing.mat) - 1]
    if largest == "none":
        return _Trait("ribbons", {"none"}, "is shared without ribbons")
    return _Trait("ribbons", {largest, "some"}, f"is shared with {largest}-ribbons")


def _exchanges(features: Features) -> _Trait:
    words = {"none"}
    if features.exchange_from:
        words = {"some", "one place" if len(features.exchange_from) == 1 else "several places"}
    return _Trait("exchanges", words | {"any"}, f"sends to the bank: {_listed(features.exchange_from)}")


def _remainder(features: Features) -> _Trait:
    return _Trait(
        "remainder", {"any", "none" if features.exact else "some"}, f"leaves {features.remainder or 'nothing'} over"
    )


def _empty_place(features: Features) -> _Trait:
    in_share = (*features.zeros_inside_quotient, *features.zeros_at_quotient_end)
    words = {"any"}
    words |= {"number", "either"} if features.zeros_in_dividend else set()
    words |= {"share", "either"} if in_share else set()
    sentence = (
        f"has a zero in the number at: {_listed(features.zeros_in_dividend)}, in the share at: {_listed(in_share)}"
    )
    return _Trait("empty_place", words, sentence)


def _short(features: Features) -> _Trait:
    words = {"any", "some"} if features.places_short else {"any", "none"}
    words |= {"highest"} if features.highest_place_short else set()
    return _Trait("short", words, f"has too few pieces to go round at: {_listed(features.places_short)}")


def _listed(places: tuple[int, ...]) -> str:
    return " and ".join(map(place_name, places)) or "none"
