"""A lesson on one sheet: what is said and what the hands do at a place, movements that follow each other together."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import NamedTuple

from generator.engine.places import UNITS
from generator.engine.sharing import Sharing, Stage, Tray
from generator.engine.steps import Action, Step
from generator.words.numbers import piece, pieces
from generator.words.phrases import Phrases
from generator.words.spoken import GUIDE, said_at
from generator.words.stages import hands, served


class Told(NamedTuple):
    """A sentence of a sheet: what the guide says, or what the hands do."""

    text: str
    is_said: bool


def course(words: Phrases, stage: Stage, sharing: Sharing) -> Iterator[Told]:
    """What the guide says and what the hands do at one place, each sentence where it belongs.

    A trip to the bank is spoken of before it, a round that cannot be finished after it.
    """
    first, *then = (Told(line.text, True) for line in said_at(words, sharing, stage) if line.who == GUIDE)
    end = [then.pop()] if stage.level == UNITS else []
    yield first
    spoken_of: set[int] = set()
    for movement in _movements(words, stage, sharing):
        if movement.action is Action.EXCHANGE:
            if movement.rounds == stage.rounds:
                yield from then
                then = []
            elif movement.place not in spoken_of:
                yield then.pop(0)
            spoken_of.add(movement.place)
        yield Told(movement.text, False)
        if movement.action is Action.START:
            yield then.pop(0)
    yield from (*then, *end)


class _Movement(NamedTuple):
    """Movements of one kind and place that follow each other, and after how many whole rounds they begin."""

    action: Action
    place: int
    rounds: int
    text: str


def _movements(words: Phrases, stage: Stage, sharing: Sharing) -> Iterator[_Movement]:
    """'Rounds 1 to 3: one hundred to each tray.' Where there is nothing to give, the guide's words say so."""
    rounds = 0
    steps = (step for step in stage.steps if step.action not in (Action.GO_ON, Action.NOTHING))
    for (action, place), group in groupby(steps, key=lambda step: (step.action, step.place)):
        run = list(group)
        yield _Movement(action, place, rounds, _told(words, run, rounds, stage, sharing))
        rounds += len(run) if action is Action.DEAL else 0


def _told(words: Phrases, run: list[Step], rounds: int, stage: Stage, sharing: Sharing) -> str:
    match run[0].action:
        case Action.DEAL:
            return _rounds(words, rounds + 1, rounds + len(run), stage.level, sharing)
        case Action.START:
            key = "at-place.start-next" if rounds else "at-place.start"
            return words.say(key, reached=run[0].after.ahead, sharers=sharing.sharers)
        case Action.TAKE_BACK:
            return words.say("at-place.take-back")
        case Action.EXCHANGE:
            return _exchanges(words, run)
        case _:
            return words.say("plan.once", movement=hands(words, run[0], sharing))


def _rounds(words: Phrases, first: int, last: int, level: int, sharing: Sharing) -> str:
    given = served(words, "hands.piece-with-ribbons" if sharing.ribbons else "plan.given", level, sharing)
    key = {0: "plan.round", 1: "plan.two-rounds"}.get(last - first, "plan.rounds")
    return words.say(key, first=first, last=last, given=given)


def _exchanges(words: Phrases, run: list[Step]) -> str:
    place, times = run[0].place, len(run)
    gone, come = piece(words, times, place), piece(words, 10, place - 1)
    return words.say("plan.exchange", count=times, gone=gone, come=come)


def on_trays(words: Phrases, stage: Stage, sharing: Sharing) -> str:
    """What each tray holds when a place is done: '1 thousand, 3 hundreds'."""
    key = "plan.tray-with-ribbons" if sharing.ribbons else "plan.tray"

    def said(tray: Tray) -> str:
        return words.say(key, stands_for=tray.stands_for, pieces=pieces(words, tray.holds))

    return " ".join(map(said, sharing.trays(stage.steps[-1].after)))
