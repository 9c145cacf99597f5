"""What a sharing needs from the shelf, whether a shelf has it, and what to buy first."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import NamedTuple, Self

from generator.engine.places import UNITS, Counts, place_name
from generator.engine.sharing import Sharing

_RIBBONS = {1: "ten_ribbons", 2: "hundred_ribbons", 3: "thousand_ribbons"}


@dataclass(frozen=True)
class Shelf:
    """What one room owns.

    pieces: golden bead pieces of each place, in the bank and in use together
    large_cards_to: the highest card of the one large set
    small_cards_to: the highest card of each small set
    small_sets: small sets, one for each child
    trays: trays, one for each child
    ribbons: how many ribbons say ten, how many a hundred; by place, so the units are 0
    """

    pieces: Counts
    large_cards_to: int
    small_cards_to: int
    small_sets: int
    trays: int
    ribbons: Counts

    def with_more(self, place: int, pieces: int) -> Self:
        """The same shelf with more pieces of one place, which the shelf must know already."""
        return replace(self, pieces=self.pieces.plus(place, pieces))

    def with_seats(self, children: int) -> Self:
        """The same shelf with trays and sets of small cards for so many."""
        return replace(self, trays=max(children, self.trays), small_sets=max(children, self.small_sets))

    def seats(self, children: int) -> bool:
        """Whether every child can have a tray and a set of small cards."""
        return children <= self.trays and children <= self.small_sets


class ChildCards(NamedTuple):
    """The small cards that each of some children fetches: those who stand for the same number."""

    sharers: int
    stands_for: int
    cards: tuple[int, ...]


class Needs(NamedTuple):
    """What one sharing takes. `pieces`: the most of each place that are out of the bank at one moment."""

    pieces: Counts
    large_cards: tuple[int, ...]
    small_cards: tuple[ChildCards, ...]
    small_sets: int
    trays: int
    ribbons: Counts


class Shortage(NamedTuple):
    """One thing of which the shelf has too little.

    `what` is a place's name, or the name that the shelf's field or ribbon has in the school's file; ribbons
    that no shelf has are "larger_ribbons".
    For cards, `needed` is the highest card wanted and `owned` the highest there is.
    """

    what: str
    needed: int
    owned: int


def cards(number: int) -> tuple[int, ...]:
    """The cards that show a number, largest first: 5230 is 5000, 200, 30. An empty place has no card, and zero none."""
    digits = Counts.of(number)
    return tuple(digits[place] * 10**place for place in digits.places_held)


def needs(sharing: Sharing) -> Needs:
    """What a sharing takes, from laying out the number to the cards of every child."""
    return Needs(
        pieces=sharing.pieces_needed,
        large_cards=cards(sharing.dividend),
        small_cards=tuple(
            ChildCards(sharing.mat[width], 10**width, cards(sharing.quotient * 10**width))
            for width in sharing.mat.widths
        ),
        small_sets=sharing.sharers if sharing.quotient else 0,
        trays=sharing.sharers,
        ribbons=Counts(0 if width == UNITS else sharers for width, sharers in enumerate(sharing.mat)),
    )


def shortages(needs: Needs, shelf: Shelf) -> tuple[Shortage, ...]:
    """Everything of which the shelf has too little, pieces first and largest first; empty if it has it all."""
    small_cards = [card for child in needs.small_cards for card in child.cards]
    wanted = [
        *(
            Shortage(place_name(place), needs.pieces[place], shelf.pieces.at(place))
            for place in needs.pieces.places_held
        ),
        Shortage("large_cards_to", max(needs.large_cards, default=0), shelf.large_cards_to),
        Shortage("small_cards_to", max(small_cards, default=0), shelf.small_cards_to),
        Shortage("small_sets", needs.small_sets, shelf.small_sets),
        Shortage("trays", needs.trays, shelf.trays),
        *(
            Shortage(_RIBBONS.get(width, "larger_ribbons"), needs.ribbons[width], shelf.ribbons.at(width))
            for width in needs.ribbons.places_held
        ),
    ]
    return tuple(item for item in wanted if item.needed > item.owned)


class Purchase(NamedTuple):
    """Things bought together, each up to what is needed of it, and how many lessons become possible with them."""

    things: tuple[Shortage, ...]
    opens: int


def purchases(short_of: Iterable[tuple[Shortage, ...]]) -> tuple[Purchase, ...]:
    """What is worth buying; `short_of` holds what each lesson lacks, () where the shelf has it all.

    Of the same things there are two purchases at most: the one that opens the most lessons, and the smallest that opens
    any. Sorted by how many different things they take, then by lessons opened (most first), then by amount. Prices are
    not known here.
    """
    wanted = [things for things in short_of if things]
    found = [Purchase(things, sum(_covers(things, other) for other in wanted)) for things in dict.fromkeys(wanted)]
    found.sort(key=lambda purchase: (len(purchase.things), -purchase.opens, purchase.things))
    of_the_same: dict[tuple[str, ...], list[Purchase]] = {}
    for purchase in found:
        of_the_same.setdefault(tuple(thing.what for thing in purchase.things), []).append(purchase)
    kept = {purchase for same in of_the_same.values() for purchase in (same[0], min(same, key=_pieces_bought))}
    return tuple(purchase for purchase in found if purchase in kept)


def _pieces_bought(purchase: Purchase) -> int:
    return sum(thing.needed - thing.owned for thing in purchase.things)


def most_needed(sharers: int, places: int = 4) -> Counts:
    """The most pieces of each place that a plain sharing of any number with so many places has out of the bank.

    At each place fewer pieces than sharers go to the bank, and each comes back as ten.
    """
    most = [9]
    for _ in range(places - 1):
        most.append(10 * min(sharers - 1, most[-1]) + 9)
    return Counts(most[::-1])


def _covers(things: tuple[Shortage, ...], other: tuple[Shortage, ...]) -> bool:
    level = {thing.what: thing.needed for thing in things}
    return all(thing.needed <= level.get(thing.what, 0) for thing in other)
