"""The trays, numbered in the order of dealing, each kind in rows of its own with its words at the left."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from generator.engine.places import HUNDREDS, TENS, THOUSANDS, UNITS
from generator.engine.sharing import Tray
from generator.figures.columns import pieces_in_words
from generator.figures.packing import block, largest
from generator.figures.shapes import Bow, Boxes, Label, Mark, Part, Pieces, below, in_lines
from generator.figures.style import SMALL, place_colour
from generator.words.phrases import Phrases

_GAP = 5.0
_WORDS_WIDE = 94.0
_RIBBON_WORDS_WIDE = 121.0
_MOST_IN_A_ROW = 6
_FEWEST_IN_A_ROW = 4
_FEWEST_WITH_RIBBONS = 5
_PAD = 4.0
_HEAD = 20.0
_BETWEEN_KINDS = 16.0
_LARGEST = {UNITS: 11.0, TENS: 28.0, HUNDREDS: 15.0, THOUSANDS: 14.0}


def tray_rows(trays: Sequence[Tray], level: int | None, ribbons: bool, width: float, words: Phrases) -> Part:
    """Every tray once. `level` is the place dealt last to a child who stands for one; None: nothing yet."""
    longest = max(_in_a_row(tray.sharers) for tray in trays)
    left = _RIBBON_WORDS_WIDE if ribbons else _WORDS_WIDE if any(tray.holds.pieces for tray in trays) else 0.0
    wide = (width - left + _GAP) / max(longest, _FEWEST_WITH_RIBBONS if ribbons else _FEWEST_IN_A_ROW) - _GAP
    rows: list[Part] = []
    number = 1
    for tray in trays:
        end = number + tray.sharers
        spans = [range(first, min(first + longest, end)) for first in range(number, end, longest)]
        rows += [_row(tray, span, level, ribbons, left, wide, words) for span in spans]
        number = end
    return below(in_lines(rows, width, _BETWEEN_KINDS), _GAP + 1)


def _in_a_row(sharers: int) -> int:
    """As many as go into one row, and the rows as even as can be."""
    return ceil(sharers / ceil(sharers / _MOST_IN_A_ROW))


def _row(
    tray: Tray, numbers: range, level: int | None, ribbons: bool, left: float, wide: float, words: Phrases
) -> Part:
    """Trays that hold the same, in one row: words at the left, one line of pieces for each place."""
    ribbon = len(str(tray.stands_for)) - 1
    new = None if level is None else level + ribbon
    lefts = [left + index * (wide + _GAP) for index in range(len(numbers))]
    inside: list[Mark] = [Label(x + 7, 14.5, str(n), SMALL, "ink", True) for x, n in zip(lefts, numbers, strict=True)]
    if ribbons:
        inside.append(Label(0, 14.5, words.say("figure.stands-for", number=tray.stands_for), SMALL, "ink", True))
    if ribbon:
        inside += [Bow(x + wide - 16, 10, 18, place_colour(ribbon)) for x in lefts]
    y = _HEAD
    for place in tray.holds.places_held:
        fresh = place == new
        size = largest(place, wide - 2 * _PAD - 6, _LARGEST[place])
        line = block(place, tray.holds[place], size, 1)
        if fresh:
            frames = tuple((x + _PAD, 0.0) for x in lefts)
            inside.append(Boxes(0, y, frames, wide - 2 * _PAD, line.height + 8, "card", "ink", 1.8, 3))
        label = pieces_in_words(tray.holds[place], place, words)
        inside.append(Label(0, y + line.height / 2 + 8.5, label, SMALL, place_colour(place), fresh))
        for x, number in zip(lefts, numbers, strict=True):
            inside.append(Pieces(x + _PAD + 3, y + 4, f"tray-{number}", place, size, line.spots, not fresh))
        y += line.height + 10
    height = max(y + 2, 30.0)
    body = Boxes(0, 0, tuple((x, 0.0) for x in lefts), wide, height, "tray", "wood", 1.4, 6)
    return Part(lefts[-1] + wide, height, (body, *inside))
