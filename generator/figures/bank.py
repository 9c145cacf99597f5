"""The way to the bank: every piece that goes, and beside it the ten that come back for it."""

from __future__ import annotations

from math import ceil

from generator.engine.places import Counts
from generator.figures.look import TEXT
from generator.figures.packing import CLOSE, block, footprint
from generator.figures.shapes import Part, Pieces, Spot, Stroke, below, text
from generator.figures.words import Words

_ARROW = 24.0
_HEAD = 4.0
_BETWEEN = 20.0
_DOWN = 6.0


def exchanges(exchanged: Counts, across: int, words: Words) -> Part:
    """For every kind a line of words and its pairs, `across` pairs side by side."""
    return below([_of_one_kind(place, exchanged[place], across, words) for place in exchanged.places_held], 8)


def _of_one_kind(place: int, count: int, across: int, words: Words) -> Part:
    wide, high = footprint(place, CLOSE[place])
    ten = block(place - 1, 10, CLOSE[place - 1], 1)
    pair_wide, pair_high = wide + _ARROW + ten.width, max(high, ten.height)
    going: list[Spot] = []
    coming: list[Spot] = []
    arrows: list[tuple[Spot, ...]] = []
    for index in range(count):
        down, right = divmod(index, across)
        x, middle = right * (pair_wide + _BETWEEN), down * (pair_high + _DOWN) + pair_high / 2
        tail, tip = x + wide + 5, x + wide + _ARROW - 5
        going.append((x, middle - high / 2))
        arrows += [
            ((tail, middle), (tip, middle)),
            ((tip - _HEAD, middle - _HEAD), (tip, middle), (tip - _HEAD, middle + _HEAD)),
        ]
        coming += [(x + wide + _ARROW + dx, middle - ten.height / 2 + dy) for dx, dy in ten.spots]
    drawn = Part(
        min(across, count) * (pair_wide + _BETWEEN) - _BETWEEN,
        ceil(count / across) * (pair_high + _DOWN) - _DOWN,
        (
            Pieces(0, 0, "to-bank", place, CLOSE[place], tuple(going)),
            Stroke(0, 0, tuple(arrows), "muted", 1.3),
            Pieces(0, 0, "from-bank", place - 1, CLOSE[place - 1], tuple(coming)),
        ),
    )
    line = words.becomes.format(words.pieces(count, place), words.pieces(10 * count, place - 1))
    return below([text(line, TEXT, bold=True), drawn], 6)
