"""What to buy for the shelf: which few things would open the most lessons."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from generator.engine.shelf import Shortage


class Purchase(NamedTuple):
    """Things bought together, each up to what is needed of it, and how many lessons become possible with them."""

    things: tuple[Shortage, ...]
    opens: int


def purchases(short_of: Iterable[tuple[Shortage, ...]]) -> tuple[Purchase, ...]:
    """Everything worth buying, told by what each lesson is short of (nothing: the shelf serves it already).

    The fewest different things come first and, among those, what opens the most lessons, then what takes the
    least. Prices are not known here.
    """
    wanted = [things for things in short_of if things]
    found = [Purchase(things, sum(_covers(things, other) for other in wanted)) for things in dict.fromkeys(wanted)]
    return tuple(sorted(found, key=lambda purchase: (len(purchase.things), -purchase.opens, purchase.things)))


def _covers(things: tuple[Shortage, ...], other: tuple[Shortage, ...]) -> bool:
    level = {thing.what: thing.needed for thing in things}
    return all(thing.needed <= level.get(thing.what, thing.owned) for thing in other)
