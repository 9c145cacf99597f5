"""When something is exchanged at a place of the answer: with ribbons it can be needed between two rounds."""

from __future__ import annotations

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
    found: list[Moment] = []
    for step in stage.steps:
        if step.action is Action.EXCHANGE:
            rounds = step.after.share[stage.level]
            if found and (found[-1].place, found[-1].rounds) == (step.place, rounds):
                found[-1] = found[-1]._replace(times=found[-1].times + 1)
            else:
                found.append(Moment(step.place, 1, rounds))
    return tuple(found)
