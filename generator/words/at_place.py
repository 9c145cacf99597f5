"""What the hands do at one place of a sharing, in one line."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from generator.engine.places import UNITS
from generator.engine.sharing import Moment, Sharing, Stage
from generator.engine.steps import Action
from generator.words.numbers import capital, listing, piece, pieces
from generator.words.phrases import Phrases
from generator.words.stages import served


class Hands(NamedTuple):
    """What the hands do while a place is shared out, and then at the bank; the second may be nothing."""

    sharing_out: str
    at_the_bank: str


def hands_at(words: Phrases, sharing: Sharing, stage: Stage) -> Hands:
    """Every round, what is taken back, every way to the bank, and what lies in the middle then."""
    exchanges = exchanges_by_time(stage)
    taken_back = [*_taken_back(words, sharing, stage)]
    sharing_out = [
        *_for_a_round(words, exchanges.before),
        *_rounds(words, sharing, stage, after_the_bank=bool(exchanges.before)),
        *_for_a_round(words, exchanges.between),
        *taken_back,
    ]
    at_the_bank = [
        words.say("at-place.to-bank", exchange=capital(_exchange(words, place, times)))
        for place, times, _ in exchanges.later
    ]
    nothing_moved = not sharing_out and not at_the_bank
    (at_the_bank or sharing_out).append(_then(words, stage, nothing_moved=nothing_moved))
    if not stage.rounds and not taken_back:
        sharing_out.insert(0, words.say("at-place.nothing"))
    return Hands(" ".join(sharing_out), " ".join(at_the_bank))


class Exchanges(NamedTuple):
    """What goes to the bank before the first round, between rounds, and once no round is left: then of one place."""

    before: list[Moment]
    between: list[Moment]
    later: list[Moment]

    @property
    def for_a_round(self) -> tuple[int, ...]:
        """The places of which something is exchanged so that a round can be given out, the first to go first."""
        return tuple(dict.fromkeys(moment.place for moment in (*self.before, *self.between)))


def exchanges_by_time(stage: Stage) -> Exchanges:
    """When something is exchanged at a place."""
    found = Exchanges([], [], [])
    for moment in stage.moments:
        exchanged = found.later if moment.rounds == stage.rounds else found.between if moment.rounds else found.before
        exchanged.append(moment)
    return found


def _rounds(words: Phrases, sharing: Sharing, stage: Stage, *, after_the_bank: bool) -> Iterator[str]:
    if not stage.rounds:
        return
    if not sharing.ribbons:
        yield words.say("at-place.rounds", count=stage.rounds, pieces=piece(words, stage.rounds, stage.level))
        return
    each = served(words, "hands.piece-with-ribbons", stage.level, sharing)
    key = "at-place.then-rounds-with-ribbons" if after_the_bank else "at-place.rounds-with-ribbons"
    yield words.say(key, count=stage.rounds, pieces=each)


def _taken_back(words: Phrases, sharing: Sharing, stage: Stage) -> Iterator[str]:
    key = "at-place.start-next" if stage.rounds else "at-place.start"
    for step in stage.steps:
        if step.action is Action.START:
            yield words.say(key, reached=step.after.ahead, sharers=sharing.sharers)
            yield words.say("at-place.take-back")


def _for_a_round(words: Phrases, exchanges: Iterable[Moment]) -> Iterator[str]:
    """Exchanges so that a round can be given out; where as much of a place goes before several rounds, in one line."""
    alike: dict[tuple[int, int], list[str]] = {}
    for place, times, rounds in exchanges:
        alike.setdefault((place, times), []).append(words.grouping.written(rounds + 1))
    former: list[str] = []
    for (place, times), before in alike.items():
        goes_on = before == former and len(before) == 1
        key = "at-place.to-bank-then" if goes_on else "at-place.to-bank-before-rounds"
        told = {"rounds": listing(words, before), "exchange": _exchange(words, place, times)}
        yield words.say(key, count=len(before), **told)
        former = before


def _exchange(words: Phrases, place: int, times: int) -> str:
    """'take 2 hundreds to the bank, one at a time, and bring 10 tens back for each'."""
    gone, smaller = piece(words, times, place), piece(words, 10, place - 1)
    return words.say("at-place.exchange", count=times, pieces=gone, smaller=smaller)


def _then(words: Phrases, stage: Stage, *, nothing_moved: bool) -> str:
    if not stage.end.pieces:
        return words.say("at-place.still-empty" if nothing_moved else "at-place.empty")
    middle = "at-place.still-middle" if nothing_moved else "at-place.middle"
    return words.say("at-place.left-over" if stage.level == UNITS else middle, pieces=pieces(words, stage.end))
