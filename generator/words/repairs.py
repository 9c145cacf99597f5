"""A repair in words: what the hands do, one movement after the other."""

from __future__ import annotations

from typing import NamedTuple

from generator.engine.movements import Again, Alike, At, Exchange, Movement, Repair
from generator.engine.places import UNITS
from generator.engine.sharing import Sharing
from generator.words.material import whose_tray
from generator.words.numbers import material, place_word, small_number
from generator.words.phrases import Phrases

_VERBS = {At.LEFT_OVER: "give", At.TRAY: "take"}
"""What is done with a piece, by where it comes from; any other is brought, and to the bank every piece is taken."""


def repair_words(words: Phrases, repair: Repair, sharing: Sharing) -> str:
    """Every movement as a sentence; nothing where no piece has to be moved.

    Trays are told by what they read, and where a movement has changed that, by what they read now; with ribbons also
    by whom they are for, because trays for different numbers may read alike. Where everything goes back to the bank,
    no other movement is needed before it; with ribbons a round gives pieces of several places, so that nothing less can
    be shared out again.
    """
    if any(isinstance(step, Again) and (step.everything or sharing.ribbons) for step in repair):
        return words.say("repair.everything-again")
    sentences: list[str] = []
    changed: frozenset[tuple[int, int]] = frozenset()
    for step in repair:
        sentences.append(_step(words, step, _SoFar(sharing, changed)))
        changed = changed | _read_after(step)
    return " ".join(sentences)


class _SoFar(NamedTuple):
    """What was shared, and what trays read now, with whom they are for, that have been changed."""

    sharing: Sharing
    changed: frozenset[tuple[int, int]]

    def trays(self, words: Phrases, trays: Alike) -> str:
        """'the tray that reads 1,306', 'each of the 3 trays that now read 1,307'."""
        whose = whose_tray(words, trays.stands_for, self.sharing.ribbons)
        now = words.say("repair.now") if (trays.stands_for, trays.reads) in self.changed else ""
        return words.say("repair.tray", count=trays.trays, reads=trays.reads, whose=whose, now=now)

    def pile(self, words: Phrases, at: At, place: int, *, is_target: bool) -> str:
        """Larger pieces lie in the middle, unless they go to what is left over and their kind should be there."""
        stays = place == UNITS or (is_target and self.sharing.end.middle.at(place))
        return words.say("repair.middle" if at is At.LEFT_OVER and not stays else f"repair.{at}")


def _read_after(step: Movement | Exchange | Again) -> frozenset[tuple[int, int]]:
    """What trays read that a movement has changed, with whom they are for."""
    if not isinstance(step, Movement):
        return frozenset()
    worth = step.pieces * 10**step.place
    ends = ((step.giving, -worth), (step.taking, worth))
    return frozenset((trays.stands_for, trays.reads + more) for trays, more in ends if trays)


def _step(words: Phrases, step: Movement | Exchange | Again, so_far: _SoFar) -> str:
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
                source=_pile(words, step.at, large, step.trays, so_far),
            )
        case Movement():
            return words.say(
                f"repair.{'take' if step.target is At.BANK else _VERBS.get(step.source, 'bring')}",
                pieces=_pieces(words, step.pieces, step.place),
                source=_pile(words, step.source, step.place, step.giving, so_far),
                target=_pile(words, step.target, step.place, step.taking, so_far, is_target=True),
            )


def _pieces(words: Phrases, number: int, place: int) -> str:
    """'one ten-bar', 'three unit beads'."""
    return words.say("repair.pieces", number=small_number(words, number), material=material(words, place, number))


def _pile(words: Phrases, at: At, place: int, alike: Alike | None, so_far: _SoFar, *, is_target: bool = False) -> str:
    return so_far.trays(words, alike) if alike else so_far.pile(words, at, place, is_target=is_target)
