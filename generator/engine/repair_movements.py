"""Movements that put a room right: where pieces lie, what is off there, and what a movement changes.

Names used here
    pile       floor, bank, left over, or trays for the same that hold the same: these move together, as one
    off        how many pieces more than right (below zero: fewer) lie at a pile, by place, units first
    movement   some pieces of one place go from one pile to another
    exchange   at the bank one piece becomes ten of the next smaller kind, or ten become one
"""

from collections.abc import Iterable
from enum import StrEnum
from typing import NamedTuple, Self, TypeAlias

from generator.engine.observations import Reading
from generator.engine.places import Counts

TEN = 10
_PLENTY = 10**6


class At(StrEnum):
    """Where pieces lie; the order in which plans prefer to take them and to put them."""

    FLOOR = "floor"
    BANK = "bank"
    LEFT_OVER = "left-over"
    TRAY = "tray"


class Movement(NamedTuple):
    """Pieces of one place go from a source to a target; where trays give or take, `pieces` from or to each of them.

    giving, taking   the trays as they read before, where source or target is a tray; from trays to trays each gives
                     to another, or several to one, or one to several
    """

    pieces: int
    place: int
    source: At
    target: At
    giving: Reading | None = None
    taking: Reading | None = None

    @property
    def in_all(self) -> int:
        """How many pieces move."""
        return self.pieces * max(trays.sharers if trays else 1 for trays in (self.giving, self.taking))


class Exchange(NamedTuple):
    """At the bank 1 piece of a place becomes ten, or 10 become one: of what is left over, or of each of some trays."""

    pieces: int
    place: int
    at: At
    trays: Reading | None = None


class ChangePlaces(NamedTuple):
    """So many trays stand before another child: each is put before its own, and no piece is moved."""

    trays: int


class Refill(NamedTuple):
    """All that lies on each of these trays goes back to the middle, and each is given from there what it is due."""

    trays: Reading
    due: int


class Again(NamedTuple):
    """All of this place and below goes back to the middle and is shared out again."""

    place: int


class ShareOn(NamedTuple):
    """What all trays have is right so far: from this place down, what is in the middle still goes round."""

    place: int


RepairStep: TypeAlias = Movement | Exchange | ChangePlaces | Refill | Again | ShareOn
Repair: TypeAlias = tuple[RepairStep, ...]


class Pile(NamedTuple):
    """What is right at one pile, and how much it is off; trays say what each stands for."""

    at: At
    right: Counts
    off: Counts
    stands_for: int = 1

    def holds(self, place: int) -> int:
        return self.right[place] + self.off[place]

    @property
    def reads(self) -> int:
        return self.right.value + self.off.value

    def trays(self, many: int) -> Reading | None:
        """`many` of these trays, named by what they read; None for a pile that is not trays."""
        return Reading(self.reads, many, self.stands_for) if self.at is At.TRAY else None

    def with_more(self, place: int, pieces: int) -> Self:
        """A copy with more pieces; the bank stays as it is, because it has enough of everything."""
        if self.at is At.BANK:
            return self
        return self._replace(off=self.off.plus(place, pieces))


# A pile, and how many there are of it: one floor, one bank, one left over, and so many trays.
Piles: TypeAlias = tuple[Pile, int]
Room: TypeAlias = frozenset[Piles]


def together(piles: Iterable[Piles]) -> Room:
    """A room of these piles: equal ones merged, those of which there are none left out."""
    room: dict[Pile, int] = {}
    for pile, many in piles:
        room[pile] = room.get(pile, 0) + many
    return frozenset([(pile, many) for pile, many in room.items() if many])


def room_of(floor: Counts, left: Pile, trays: Iterable[Piles]) -> Room:
    """A room of a floor, what is left over, trays, and a bank that has enough of everything."""
    nothing, plenty = Counts((0,) * len(floor)), Counts((_PLENTY,) * len(floor))
    return together([(Pile(At.FLOOR, nothing, floor), 1), (Pile(At.BANK, plenty, nothing), 1), (left, 1), *trays])


def moved(room: Room, source: Piles, target: Piles, place: int, pieces: int) -> tuple[Movement, Room]:
    """Move so many pieces of a place from each source or to each target: the movement, and the room after it."""
    (giver, givers), (taker, takers) = source, target
    in_all = pieces * max(givers, takers)
    lighter = giver.with_more(place, -in_all // givers), givers
    heavier = taker.with_more(place, in_all // takers), takers
    movement = Movement(pieces, place, giver.at, taker.at, giver.trays(givers), taker.trays(takers))
    return movement, together([*(room - {source, target}), lighter, heavier])


def exchanged(room: Room, source: Piles, place: int, pieces: int) -> tuple[Exchange, Room]:
    """Change 1 piece of a place for ten, or 10 for one: the exchange, and the room after it."""
    pile, many = source
    other = place - 1 if pieces == 1 else place + 1
    changed = pile.with_more(place, -pieces).with_more(other, TEN // pieces), many
    return Exchange(pieces, place, pile.at, pile.trays(many)), together([*(room - {source}), changed])
