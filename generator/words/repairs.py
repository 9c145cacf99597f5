"""A repair in words: what the hands do, one movement after the other."""

from __future__ import annotations

from generator.engine.movements import Again, Alike, At, Exchange, Movement, Repair
from generator.engine.places import UNITS
from generator.words.numbers import material, place_word, small_number
from generator.words.phrases import Phrases


def repair_words(words: Phrases, repair: Repair, *, ribbons: bool = False) -> str:
    """Every movement as a sentence; nothing where no piece has to be moved.

    Trays are told by what they read, after the first movement by what they read now; with ribbons also by whom they
    are for, because trays for different numbers may read alike.
    """
    return " ".join(
        _step(words, step, f"repair.tray{'-for' if ribbons else ''}{'-now' if number else ''}")
        for number, step in enumerate(repair)
    )


def _step(words: Phrases, step: Movement | Exchange | Again, tray: str) -> str:
    """One movement; `tray` is the phrase for a tray."""
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
                source=_pile(words, step.at, large, step.trays, tray),
            )
        case Movement():
            return words.say(
                "repair.to-bank" if step.target is At.BANK else f"repair.from-{step.source}",
                pieces=_pieces(words, step.pieces, step.place),
                source=_pile(words, step.source, step.place, step.giving, tray),
                target=_pile(words, step.target, step.place, step.taking, tray),
            )


def _pieces(words: Phrases, number: int, place: int) -> str:
    """'one ten-bar', 'three unit beads'."""
    return words.say("repair.pieces", number=small_number(words, number), material=material(words, place, number))


def _pile(words: Phrases, at: At, place: int, trays: Alike | None, tray: str) -> str:
    """'the tray that reads 1,306', 'each of the 3 trays that read 1,307'; what is not left over lies in the middle."""
    if trays:
        return words.say(tray, count=trays.trays, reads=trays.reads, stands_for=trays.stands_for)
    return words.say("repair.middle" if at is At.LEFT_OVER and place != UNITS else f"repair.{at}")
