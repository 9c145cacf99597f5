"""Whether a lesson is what its step expects."""

from __future__ import annotations

import json
from collections.abc import Iterator

from generator.engine.features import Features, features_of
from generator.engine.places import place_name
from generator.engine.sharing import share
from generator.errors import Problem
from generator.source.models import Expects, LessonFile

_RIBBONS = ("none", "ten", "hundred")


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
    largest = _RIBBONS[len(sharing.mat) - 1]
    if expects.ribbons not in ({"none"} if largest == "none" else {largest, "some"}):
        ribbons = "without ribbons" if largest == "none" else f"with {largest}-ribbons"
        problem = f'{story} is shared {ribbons}, but its step expects ribbons = "{expects.ribbons}"'
        yield Problem("divisor", problem, another_divisor)
    wanted_places = expects.exchange_from
    if wanted_places is not None and set(wanted_places) != set(map(place_name, features.exchange_from)):
        sends = f"sends to the bank: {_listed(features.exchange_from)}"
        problem = f"{story} {sends}, but its step expects exchange_from = {json.dumps(wanted_places)}"
        yield Problem("dividend", problem, another_number)
    for key, right, sentence in _traits(features):
        wanted = getattr(expects, key)
        if wanted not in {*right, "any"}:
            yield Problem("dividend", f'{story} {sentence}, but its step expects {key} = "{wanted}"', another_number)


def _traits(features: Features) -> Iterator[tuple[str, set[str], str]]:
    """A key of [expects], what a lesson answers to it, and the same as half a sentence."""
    some = {"some", "one place" if len(features.exchange_from) == 1 else "several places"}
    sentence = f"sends to the bank: {_listed(features.exchange_from)}"
    yield "exchanges", some if features.exchange_from else {"none"}, sentence

    yield "remainder", {"none" if features.exact else "some"}, f"leaves {features.remainder or 'nothing'} over"

    in_number = features.zeros_in_dividend
    in_share = (*features.zeros_inside_quotient, *features.zeros_at_quotient_end)
    right = ({"number", "either"} if in_number else set()) | ({"share", "either"} if in_share else set())
    yield (
        "empty_place",
        right,
        f"has a zero in the number at: {_listed(in_number)}, in the share at: {_listed(in_share)}",
    )

    right = {"some" if features.places_short else "none"} | ({"highest"} if features.highest_place_short else set())
    yield "short", right, f"has too few pieces to go round at: {_listed(features.places_short)}"


def _listed(places: tuple[int, ...]) -> str:
    return " and ".join(map(place_name, places)) or "none"
