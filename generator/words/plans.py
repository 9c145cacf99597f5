"""A lesson on one sheet: what is said and what the hands do at a place, movements that follow each other together."""

from collections.abc import Iterator
from itertools import groupby

from generator.engine.dealing import Action, Step
from generator.engine.sharing import Sharing, Stage
from generator.words.hands import hands, rounds_given
from generator.words.numbers import piece, pieces
from generator.words.phrases import Phrases
from generator.words.spoken import GUIDE, Said, said_at


def course(words: Phrases, stage: Stage, sharing: Sharing) -> Iterator[Said | str]:
    """What the guide says (Said) and what the hands do (text) at one place, in the order in which it happens."""
    said = [line for line in said_at(words, sharing, stage) if line.who == GUIDE]
    made = 0
    for (action, _), alike in groupby(stage.movements, key=lambda step: (step.action, step.place)):
        run = list(alike)
        yield from (line for line in said if line.made == made)
        if action is not Action.NOTHING:  # the guide's words say that there is nothing to give
            yield _done(words, run, sharing)
        made += len(run)
    yield from (line for line in said if line.made == made)


def _done(words: Phrases, run: list[Step], sharing: Sharing) -> str:
    """One sentence for a run of equal movements: 'Rounds 1 to 3: one hundred to each tray.'"""
    first, times = run[0], len(run)
    rounds = run[-1].after.share[first.after.level]
    match first.action:
        case Action.DEAL:
            return rounds_given(words, sharing, first.after.level, rounds - times + 1, rounds)
        case Action.START:
            key = "at-place.start-next" if rounds else "at-place.start"
            return words.say(key, reached=first.after.ahead, sharers=sharing.sharers)
        case Action.TAKE_BACK:
            return words.say("at-place.take-back")
        case Action.EXCHANGE:
            gone, come = piece(words, times, first.place), piece(words, 10, first.place - 1)
            return words.say("plan.exchange", count=times, gone=gone, come=come)
        case _:
            return words.say("plan.once", movement=hands(words, first, sharing))


def on_trays(words: Phrases, stage: Stage, sharing: Sharing) -> str:
    """What each tray holds when a place is done: '1 thousand, 3 hundreds'."""
    key = "plan.tray-with-ribbons" if sharing.ribbons else "plan.tray"
    trays = sharing.trays(stage.after)
    return " ".join(words.say(key, stands_for=tray.stands_for, pieces=pieces(words, tray.holds)) for tray in trays)
