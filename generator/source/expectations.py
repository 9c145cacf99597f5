"""Whether a lesson is what its step expects."""

import json
from collections.abc import Iterator

from generator.engine.features import features_of
from generator.engine.places import place_name
from generator.engine.sharing import share
from generator.errors import Problem
from generator.source.models import Expects, LessonFile

_RIBBONS = ("without ribbons", "with ten-ribbons", "with hundred-ribbons")


def misfits(lesson: LessonFile, expects: Expects) -> Iterator[Problem]:
    """Everything about a lesson that its step does not take."""
    for key, fits, sentence in _traits(lesson, expects):
        if not fits:
            wanted = json.dumps(getattr(expects, key))
            problem = f"{lesson.dividend} among {lesson.divisor} {sentence}, but its step expects {key} = {wanted}"
            if key in ("children", "ribbons"):
                yield Problem("divisor", problem, "choose another divisor or another step")
            else:
                numbers = "" if lesson.ribbons else f" (python -m generator choose {lesson.divisor})"
                yield Problem("dividend", problem, f"choose another number{numbers} or another step")


def _traits(lesson: LessonFile, expects: Expects) -> Iterator[tuple[str, bool, str]]:
    """A key of [expects], whether the lesson answers to it, and what the lesson is there, as half a sentence."""
    fewest, most = expects.children
    yield "children", fewest <= lesson.children <= most, f"needs {lesson.children} children"
    sharing = share(lesson.dividend, lesson.divisor, ribbons=lesson.ribbons)
    largest = len(sharing.mat) - 1
    right = {"none": largest == 0, "ten": largest == 1, "hundred": largest == 2, "some": largest > 0}
    yield "ribbons", right[expects.ribbons], f"is shared {_RIBBONS[largest]}"
    features = features_of(sharing)
    from_places = features.exchange_from
    sends = f"sends to the bank: {_listed(from_places)}"
    wanted = expects.exchange_from
    yield "exchange_from", wanted is None or set(wanted) == set(map(place_name, from_places)), sends
    count = len(from_places)
    right = {"none": count == 0, "one place": count == 1, "several places": count > 1, "some": count > 0, "any": True}
    yield "exchanges", right[expects.exchanges], sends
    right = {"none": features.exact, "some": not features.exact, "any": True}
    yield "remainder", right[expects.remainder], f"leaves {features.remainder or 'nothing'} over"
    in_number = features.zeros_in_dividend
    in_share = (*features.zeros_inside_quotient, *features.zeros_at_quotient_end)
    right = {"number": bool(in_number), "share": bool(in_share), "either": bool(in_number or in_share), "any": True}
    zeros = f"has a zero in the number at: {_listed(in_number)}, in the share at: {_listed(in_share)}"
    yield "empty_place", right[expects.empty_place], zeros
    short = features.places_short
    right = {"none": not short, "highest": features.highest_place_short, "some": bool(short), "any": True}
    yield "short", right[expects.short], f"has too few pieces to go round at: {_listed(short)}"


def _listed(places: tuple[int, ...]) -> str:
    return " and ".join(map(place_name, places)) or "none"
