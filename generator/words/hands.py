"""What the hands do at one place of a sharing, in one line."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from generator.engine.moments import moments
from generator.engine.places import UNITS
from generator.engine.sharing import Sharing, Stage
from generator.engine.steps import Action
from generator.words.numbers import piece, pieces
from generator.words.phrases import Phrases
from generator.words.stages import served


class Hands(NamedTuple):
    """What the hands do while a place is shared out, and then at the bank; the second may be nothing."""

    sharing_out: str
    at_the_bank: str


def hands_at(words: Phrases, sharing: Sharing, stage: Stage) -> Hands:
    """Every round, what is taken back, every way to the bank, and what lies in the middle then."""
    between, later = exchanges_by_time(stage)
    sharing_out = [
        *_rounds(words, sharing, stage),
        *_to_bank(words, "at-place.to-bank-between-rounds", between),
        *_taken_back(words, stage),
    ]
    at_the_bank = [*_to_bank(words, "at-place.to-bank", later)]
    (at_the_bank or sharing_out).append(_then(words, stage))
    return Hands(" ".join(sharing_out), " ".join(at_the_bank))


def exchanges_by_time(stage: Stage) -> tuple[Mapping[int, int], Mapping[int, int]]:
    """How many pieces of each place go to the bank for a round to come, and how many once no round is left."""
    between: Counter[int] = Counter()
    later: Counter[int] = Counter()
    for place, times, rounds in moments(stage):
        (between if rounds < stage.rounds else later)[place] += times
    return between, later


def _rounds(words: Phrases, sharing: Sharing, stage: Stage) -> Iterator[str]:
    if not stage.rounds:
        return
    if not sharing.ribbons:
        yield words.say("at-place.rounds", count=stage.rounds, pieces=piece(words, stage.rounds, stage.level))
        return
    each = served(words, "hands.piece-with-ribbons", stage.level, sharing)
    yield words.say("at-place.rounds-with-ribbons", count=stage.rounds, pieces=each)


def _taken_back(words: Phrases, stage: Stage) -> Iterator[str]:
    if any(step.action is Action.TAKE_BACK for step in stage.steps):
        yield words.say("at-place.next-taken-back" if stage.rounds else "at-place.taken-back")


def _to_bank(words: Phrases, key: str, exchanges: Mapping[int, int]) -> Iterator[str]:
    for place in sorted(exchanges, reverse=True):
        times = exchanges[place]
        given, got = piece(words, times, place), piece(words, 10 * times, place - 1)
        yield words.say(key, pieces=given, smaller=got)


def _then(words: Phrases, stage: Stage) -> str:
    lies = "at-place.left-over" if stage.level == UNITS else "at-place.middle"
    return words.say(lies if stage.end.pieces else "at-place.empty", pieces=pieces(words, stage.end))
