"""A lesson on one sheet: what the hands do at a place, movements that follow each other told together."""

from __future__ import annotations

from itertools import groupby

from generator.engine.sharing import Sharing, Stage, Tray
from generator.engine.steps import Action, Step
from generator.words.numbers import piece, pieces
from generator.words.phrases import Phrases
from generator.words.stages import hands, served


def movements(words: Phrases, stage: Stage, sharing: Sharing) -> list[str]:
    """'Rounds 1 to 3: one hundred to each tray.' A round that is taken back again is told as one movement."""
    told: list[str] = []
    rounds = 0
    steps = (step for step in stage.steps if step.action not in (Action.GO_ON, Action.TAKE_BACK))
    for (action, _), group in groupby(steps, key=lambda step: (step.action, step.place)):
        run = list(group)
        match action:
            case Action.DEAL:
                told.append(_rounds(words, rounds + 1, rounds + len(run), stage.level, sharing))
                rounds += len(run)
            case Action.START:
                told.append(words.say("plan.unfinished", reached=run[0].after.ahead, sharers=sharing.sharers))
            case Action.EXCHANGE:
                told.append(_exchanges(words, run))
            case _:
                told.append(words.say("plan.once", movement=hands(words, run[0], sharing)))
    return told


def _rounds(words: Phrases, first: int, last: int, level: int, sharing: Sharing) -> str:
    given = served(words, "hands.piece-with-ribbons" if sharing.ribbons else "plan.given", level, sharing)
    return words.say("plan.round" if first == last else "plan.rounds", first=first, last=last, given=given)


def _exchanges(words: Phrases, run: list[Step]) -> str:
    place, times = run[0].place, len(run)
    gone, come = piece(words, times, place), piece(words, 10 * times, place - 1)
    return words.say("plan.exchange", count=times, gone=gone, come=come)


def on_trays(words: Phrases, stage: Stage, sharing: Sharing) -> str:
    """What each tray holds when a place is done: '1 thousand, 3 hundreds'."""
    key = "plan.tray-with-ribbons" if sharing.ribbons else "plan.tray"

    def said(tray: Tray) -> str:
        return words.say(key, stands_for=tray.stands_for, pieces=pieces(words, tray.holds))

    return " ".join(map(said, sharing.trays(stage.steps[-1].after)))
