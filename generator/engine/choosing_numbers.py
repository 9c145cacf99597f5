"""Choosing numbers for plain sharing by arithmetic, without working out any movement.

The pieces *in hand* at a place are its digit and ten for every piece exchanged at the next larger place. They decide
how many pieces are dealt there, how many go to the bank, and how many the shelf must hold.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cache
from itertools import islice
from typing import NamedTuple

from generator.engine.places import HUNDREDS, TENS, THOUSANDS, UNITS, Counts
from generator.engine.shelf import Shelf


class Remainder(StrEnum):
    """Whether something may be left over."""

    NONE = "none"
    SOME = "some"
    ANY = "any"


class Zeros(StrEnum):
    """Where a zero stands: in neither number nor share; in the number; in the share; anywhere or nowhere.

    A zero elsewhere as well does no harm to DIVIDEND and QUOTIENT. A share of nothing is written 0: a zero.
    """

    NONE = "none"
    DIVIDEND = "dividend"
    QUOTIENT = "quotient"
    ANY = "any"


@dataclass(frozen=True)
class Choice:
    """Which numbers are wanted.

    exchange_from: exactly the places that send pieces to the bank; empty for none, None for any
    digits: how many places the number has, without leading zeros
    shelf: only numbers that this shelf has everything for; None for any
    """

    exchange_from: frozenset[int] | None = None
    remainder: Remainder = Remainder.ANY
    zeros: Zeros = Zeros.ANY
    digits: int = 4
    shelf: Shelf | None = None


class Reckoning(NamedTuple):
    """One plain sharing in figures, for every place of the dividend.

    in_hand: the pieces in the middle when a place's turn comes: also the most out of the bank at one moment
    left: the pieces that do not go round, and so to the bank; at the units what is left over
    """

    digits: Counts
    in_hand: Counts
    left: Counts

    @property
    def exchanges(self) -> int:
        return self.left.pieces - self.left[UNITS]

    @property
    def handlings(self) -> int:
        """Every piece moved: laid out, dealt, dealt and taken back, exchanged (1 for 10), set aside."""
        dealt = self.in_hand.pieces - self.left.pieces
        return self.digits.pieces + dealt + 2 * self.left.pieces + 11 * self.exchanges + self.left[UNITS]


def reckon(dividend: int, divisor: int) -> Reckoning:
    """Work out a plain sharing by arithmetic; dividend >= 0, divisor >= 1.

    The digits down to a place, read as pieces of that place, less the whole rounds of all larger places, are what
    is in hand there.
    """
    digits = Counts.of(dividend)
    in_hand = Counts(dividend // 10**place % (10 * divisor) for place in range(len(digits)))
    left = Counts(pieces % divisor for pieces in in_hand)
    return Reckoning(digits, in_hand, left)


@cache
def numbers(divisor: int, choice: Choice) -> tuple[int, ...]:
    """Every number that fits the choice, ascending; divisor >= 1.

    Numbers are built digit by digit from the left. What happens at a place depends only on the digits down to it, so
    a head (the digits so far, as a number) that does not fit is dropped at once.
    """
    sending, shelf = choice.exchange_from, choice.shelf
    if (shelf and divisor > shelf.trays) or (sending and not sending <= set(range(TENS, choice.digits))):
        return ()
    heads: Iterable[int] = range(1, 10)
    for place in range(choice.digits - 1, UNITS, -1):
        if sending is not None:
            heads = [head for head in heads if (head % divisor > 0) is (place in sending)]
        if shelf:
            heads = _on_shelf(shelf, divisor, place, heads)
        heads = [10 * head + digit for head in heads for digit in range(10)]
    if choice.remainder is not Remainder.ANY:
        heads = [number for number in heads if (number % divisor > 0) is (choice.remainder is Remainder.SOME)]
    if shelf:
        heads = _on_shelf(shelf, divisor, UNITS, heads)
    if choice.zeros is Zeros.NONE:
        return tuple(number for number in heads if "0" not in f"{number}{number // divisor}")
    if choice.zeros is Zeros.DIVIDEND:
        return tuple(number for number in heads if "0" in str(number))
    if choice.zeros is Zeros.QUOTIENT:
        return tuple(number for number in heads if "0" in str(number // divisor))
    return tuple(heads)


def _on_shelf(shelf: Shelf, divisor: int, place: int, heads: Iterable[int]) -> list[int]:
    """The heads whose last digit, at `place`, the shelf can serve: pieces, large card and the children's cards."""
    digit = shelf.large_cards_to // 10**place
    each = shelf.small_cards_to // 10**place if divisor <= shelf.small_sets else 0
    in_hand = min(shelf.pieces.at(place), (each + 1) * divisor - 1)
    return [head for head in heads if head % 10 <= digit and head % (10 * divisor) <= in_hand]


_MANY_PLACES = ({TENS, HUNDREDS}, {TENS, THOUSANDS}, {HUNDREDS, THOUSANDS}, {TENS, HUNDREDS, THOUSANDS})


def _exact(*exchange_from: int) -> Choice:
    return Choice(frozenset(exchange_from), Remainder.NONE, Zeros.NONE)


NUMBER_KINDS: Mapping[str, tuple[Choice, ...]] = {
    "static": (Choice(frozenset(), Remainder.NONE),),
    "exchange-tens": (_exact(TENS),),
    "exchange-hundreds": (_exact(HUNDREDS),),
    "exchange-thousands": (_exact(THOUSANDS),),
    "exchange-several": tuple(_exact(*places) for places in _MANY_PLACES),
    "remainder": (Choice(None, Remainder.SOME, Zeros.NONE),),
    "zero-in-number": (Choice(None, Remainder.NONE, Zeros.DIVIDEND),),
    "zero-in-share": (Choice(None, Remainder.NONE, Zeros.QUOTIENT),),
}
"""Kinds of four-digit number in teaching order; each is one or more choices that have no number in common."""


def numbers_of_kind(divisor: int, kind: str, shelf: Shelf | None = None) -> tuple[int, ...]:
    """Every four-digit number of one of NUMBER_KINDS, ascending; with a shelf, only those it has everything for."""
    choices = (replace(choice, shelf=shelf) for choice in NUMBER_KINDS[kind])
    return tuple(sorted(number for choice in choices for number in numbers(divisor, choice)))


class Offer(NamedTuple):
    """Numbers offered for a group and a kind: how many digits they have, and whether they only come near the kind."""

    numbers: tuple[int, ...]
    digits: int
    only_near: bool


def offer(divisor: int, kind: str) -> Offer:
    """The four-digit numbers of a kind; if there are none, those of three digits, then of two. None is below divisor.

    If the kind has no such number at all, those that exchange at the same places, whatever their zeros and remainder.
    """
    exact = NUMBER_KINDS[kind]
    near = [Choice(choice.exchange_from) for choice in exact]
    for only_near, choices in ((False, exact), (True, near)):
        for digits in (4, 3, 2):
            of_so_many = (numbers(divisor, replace(choice, digits=digits)) for choice in choices)
            found = {number for some in of_so_many for number in some if number >= divisor}
            if found:
                return Offer(tuple(sorted(found)), digits, only_near)
    return Offer((), 4, False)


def digits_must_repeat(dividends: Iterable[int]) -> bool:
    """Whether every one of these numbers has some digit twice."""
    return all(len(set(str(number))) < len(str(number)) for number in dividends)


def best_first(divisor: int, dividends: Iterable[int], most: int | None = None) -> tuple[int, ...]:
    """The numbers in the order in which a guide would take them for a lesson, the first `most` of them.

    The least awkward come first. Equally awkward ones take turns by their first digit; within a turn the fewest
    exchanges come first, then the fewest handlings.
    """
    alike: defaultdict[int, list[int]] = defaultdict(list)
    for number in dividends:
        alike[_awkwardness(divisor, number)].append(number)
    in_order = (number for awkward in sorted(alike) for number in _in_turn(divisor, alike[awkward]))
    return tuple(islice(in_order, most))


def _in_turn(divisor: int, dividends: list[int]) -> list[int]:
    """Equally awkward numbers in turns: in each turn one of every first digit, the least work first."""
    turns: Counter[str] = Counter()
    ordered: list[tuple[int, int, int, int]] = []
    worked = ((reckon(number, divisor), number) for number in dividends)
    for exchanges, handlings, number in sorted((each.exchanges, each.handlings, number) for each, number in worked):
        first = str(number)[0]
        turns[first] += 1
        ordered.append((turns[first], exchanges, handlings, number))
    return [number for *_, number in sorted(ordered)]


def _awkwardness(divisor: int, dividend: int) -> int:
    """Points against a number.

    Digits should differ; empty places distract, and so does something left over; beginning at the bank
    surprises; and with a share of one or none there is next to nothing to deal.
    """
    each, left = divmod(dividend, divisor)
    number, share = str(dividend), str(each)
    repeats = len(number) - len(set(number)) + len(share) - len(set(share))
    zeros = number.count("0") + share.count("0")
    starts_at_bank = int(number[0]) < divisor
    return repeats + 2 * zeros + 2 * (left > 0) + 3 * starts_at_bank + 10 * (each < 2)
