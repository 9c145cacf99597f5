"""The way to the bank: every piece that goes, and beside it the ten that come back for it."""

from __future__ import annotations

from math import ceil

from generator.engine.places import Counts
from generator.figures.columns import pieces_in_words
from generator.figures.packing import CLOSE, block, footprint
from generator.figures.shapes import Part, Pieces, Spot, Stroke, below, text
from generator.figures.style import TEXT
from generator.words.phrases import Phrases

_ARROW = 24.0
_HEAD = 4.0
_BETWEEN = 20.0
_DOWN = 6.0


def arrow(x: float, y: float, length: float) -> Stroke:
    """An arrow to the right."""
    tip = (x + length, y)
    head = ((tip[0] - _HEAD, y - _HEAD), tip, (tip[0] - _HEAD, y + _HEAD))
    return Stroke(0, 0, (((x, y), tip), head), "muted", 1.3)


def exchanges(exchanged: Counts, across: int, words: Phrases) -> Part:
    """A title, and for every kind a line of words and its pairs, `across` pairs side by side."""
    pairs = [_of_one_kind(place, exchanged[place], across, words) for place in exchanged.places_held]
    return below([text(words.say("figure.at-the-bank"), TEXT, bold=True), below(pairs, 8)], 4)


def _of_one_kind(place: int, count: int, across: int, words: Phrases) -> Part:
    wide, high = footprint(place, CLOSE[place])
    ten = block(place - 1, 10, CLOSE[place - 1], 1)
    pair_wide, pair_high = wide + _ARROW + ten.width, max(high, ten.height)
    going: list[Spot] = []
    coming: list[Spot] = []
    arrows: list[tuple[Spot, ...]] = []
    for index in range(count):
        down, right = divmod(index, across)
        x, middle = right * (pair_wide + _BETWEEN), down * (pair_high + _DOWN) + pair_high / 2
        going.append((x, middle - high / 2))
        arrows += arrow(x + wide + 5, middle, _ARROW - 10).lines
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
    gone, come = pieces_in_words(count, place, words), pieces_in_words(10 * count, place - 1, words)
    return below([text(words.say("figure.becomes", gone=gone, come=come), TEXT), drawn], 4)
