"""What to buy for the shelf: which few things would open the most lessons, and what a group can need at all."""

from collections.abc import Iterable
from typing import NamedTuple

from generator.engine.places import Counts
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


def most_needed(sharers: int, places: int = 4) -> Counts:
    """The most pieces of each place that any number of so many places can have out of the bank, shared plainly.

    Fewer pieces than sharers go to the bank at a place, and each comes back as ten.
    """
    most = [9]
    for _ in range(places - 1):
        most.append(10 * min(sharers - 1, most[-1]) + 9)
    return Counts(most[::-1])


def _covers(things: tuple[Shortage, ...], other: tuple[Shortage, ...]) -> bool:
    level = {thing.what: thing.needed for thing in things}
    return all(thing.needed <= level.get(thing.what, thing.owned) for thing in other)
