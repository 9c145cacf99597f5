"""A repair in words: what the hands do, one movement after the other."""

from __future__ import annotations

from typing import NamedTuple

from generator.engine.movements import Again, Alike, At, Exchange, Movement, Repair
from generator.engine.places import UNITS
from generator.words.numbers import material, place_word, small_number
from generator.words.phrases import Phrases


def repair_words(words: Phrases, repair: Repair, *, ribbons: bool = False) -> str:
    """Every movement as a sentence; nothing where no piece has to be moved.

    Trays are told by what they read, and where a movement has changed that, by what they read now; with ribbons also
    by whom they are for, because trays for different numbers may read alike. Where everything goes back to the bank,
    no other movement is needed before it.
    """
    if any(isinstance(step, Again) and step.everything for step in repair):
        return words.say("repair.everything-again")
    sentences: list[str] = []
    changed: frozenset[tuple[int, int]] = frozenset()
    for step in repair:
        sentences.append(_step(words, step, _Trays("repair.tray-for" if ribbons else "repair.tray", changed)))
        changed = changed | _read_after(step)
    return " ".join(sentences)


class _Trays(NamedTuple):
    """How trays are told: the phrase for one, and what those read, by whom they stand for, that have been changed."""

    key: str
    changed: frozenset[tuple[int, int]]

    def told(self, words: Phrases, trays: Alike) -> str:
        """'the tray that reads 1,306', 'each of the 3 trays that now read 1,307'."""
        key = f"{self.key}-now" if (trays.stands_for, trays.reads) in self.changed else self.key
        return words.say(key, count=trays.trays, reads=trays.reads, stands_for=trays.stands_for)


def _read_after(step: Movement | Exchange | Again) -> frozenset[tuple[int, int]]:
    """What trays read that a movement has changed, with whom they are for."""
    if not isinstance(step, Movement):
        return frozenset()
    worth = step.pieces * 10**step.place
    ends = ((step.giving, -worth), (step.taking, worth))
    return frozenset((trays.stands_for, trays.reads + more) for trays, more in ends if trays)


def _step(words: Phrases, step: Movement | Exchange | Again, trays: _Trays) -> str:
    match step:
        case Again():
            return words.say("repair.again", place=place_word(words, step.place))
        case Exchange():
            down = step.pieces == 1
            large = step.place if down else step.place + 1
            return words.say(
                "repair.down" if down else "repair.up",
                large=_pieces(words, 1, large),
                small=_pieces(words, 10, large - 1),
                source=_pile(words, step.at, large, step.trays, trays),
            )
        case Movement():
            return words.say(
                "repair.to-bank" if step.target is At.BANK else f"repair.from-{step.source}",
                pieces=_pieces(words, step.pieces, step.place),
                source=_pile(words, step.source, step.place, step.giving, trays),
                target=_pile(words, step.target, step.place, step.taking, trays),
            )


def _pieces(words: Phrases, number: int, place: int) -> str:
    """'one ten-bar', 'three unit beads'."""
    return words.say("repair.pieces", number=small_number(words, number), material=material(words, place, number))


def _pile(words: Phrases, at: At, place: int, alike: Alike | None, trays: _Trays) -> str:
    """What is not left over lies in the middle."""
    if alike:
        return trays.told(words, alike)
    return words.say("repair.middle" if at is At.LEFT_OVER and place != UNITS else f"repair.{at}")
