"""When something is exchanged at a place of the answer: with ribbons it can be needed between two rounds."""

from __future__ import annotations

from collections import Counter
from typing import NamedTuple

from generator.engine.sharing import Stage
from generator.engine.steps import Action


class Moment(NamedTuple):
    """Exchanges of one place at one moment: `times` of them, when so many rounds had been given out."""

    place: int
    times: int
    rounds: int


def moments(stage: Stage) -> tuple[Moment, ...]:
    """All exchanges of a stage, in order."""
    exchanges = (step for step in stage.steps if step.action is Action.EXCHANGE)
    times = Counter((step.place, step.after.share[stage.level]) for step in exchanges)
    return tuple(Moment(place, times[place, rounds], rounds) for place, rounds in times)
