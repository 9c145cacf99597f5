"""Where pieces lie so that they can be counted at a glance: fives, and blocks of ten.

Up to five lie in one row, up to ten in two rows of five (bars: in one row with a gap after the fifth);
beyond that in blocks of ten, several blocks in a row.
"""

from __future__ import annotations

from functools import lru_cache
from math import ceil
from typing import NamedTuple

from generator.engine.places import HUNDREDS, TENS, THOUSANDS, UNITS
from generator.figures.shapes import Spot

DEPTH = 0.3

LOOSE = {UNITS: 8.5, TENS: 38.0, HUNDREDS: 31.0, THOUSANDS: 28.0}
CLOSE = {UNITS: 7.5, TENS: 27.0, HUNDREDS: 13.0, THOUSANDS: 15.0}
# Between two pieces: a fixed width, and a part of their size.
_GAPS = {UNITS: (0.0, 0.18), TENS: (1.2, 0.05), HUNDREDS: (1.0, 0.06), THOUSANDS: (0.5, 0.04)}


class Block(NamedTuple):
    """The top left corner of every piece, and the room they take together."""

    spots: tuple[Spot, ...]
    width: float
    height: float


def footprint(place: int, size: float) -> Spot:
    """The width and height of one piece as it is drawn."""
    if place == TENS:
        return size / 10, size
    if place == THOUSANDS:
        return size * (1 + DEPTH), size * (1 + DEPTH)
    return size, size


@lru_cache(maxsize=1024)
def block(place: int, count: int, size: float, across: int) -> Block:
    """`count` pieces of a place; of more than ten, `across` blocks of ten lie side by side."""
    wide, high = footprint(place, size)
    fixed, growing = _GAPS[place]
    gap = fixed + growing * size
    per_row = 10 if place == TENS else 5
    rows_of_ten = 10 // per_row
    between = 2.2 * gap
    ten_wide = per_row * (wide + gap) + (gap if per_row == 10 else 0) + between
    ten_high = rows_of_ten * (high + gap) + between
    spots: list[Spot] = []
    for index in range(count):
        ten, inside = divmod(index, 10)
        down, right = divmod(ten, across)
        row, column = divmod(inside, per_row)
        x = right * ten_wide + column * (wide + gap) + (gap if column >= 5 else 0)
        y = down * ten_high + row * (high + gap)
        spots.append((round(x, 1), round(y, 1)))
    width = max((x for x, _ in spots), default=-wide) + wide
    height = max((y for _, y in spots), default=-high) + high
    return Block(tuple(spots), width, height)


def widest_across(place: int, count: int, size: float, width: float) -> int:
    """How many blocks of ten go side by side into a width: as many as fit, and as even as can be."""
    blocks = ceil(count / 10)
    fitting = next((n for n in range(blocks, 1, -1) if block(place, count, size, n).width <= width), 1)
    return ceil(blocks / ceil(blocks / fitting)) if blocks else 1


@lru_cache(maxsize=1024)
def largest(place: int, width: float, most: float) -> float:
    """The largest size, up to `most`, at which ten pieces of a place are no wider than a width."""
    size = most
    while size > 1 and block(place, 10, size, 1).width > width:
        size -= 0.5
    return size
