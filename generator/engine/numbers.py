"""Choosing numbers for plain sharing, by arithmetic: no movement is worked out.

What has to be known about a place is how many pieces come down to it from the bank: with its digit
they are the pieces *in hand*, and these settle what is dealt, what goes on to the bank, and what the
shelf must hold.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cache
from types import MappingProxyType
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
    dealt: what each sharer gets; the share with leading zeros
    left: the pieces that do not go round, and so to the bank; at the units what is left over
    """

    digits: Counts
    in_hand: Counts
    dealt: Counts
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
    """Work out a plain sharing by arithmetic; dividend >= 0, divisor >= 1."""
    digits = Counts.of(dividend)
    in_hand: list[int] = []
    dealt: list[int] = []
    left: list[int] = []
    carried = 0
    for digit in reversed(digits):
        pieces = digit + 10 * carried
        each, carried = divmod(pieces, divisor)
        in_hand.append(pieces)
        dealt.append(each)
        left.append(carried)
    return Reckoning(digits, Counts(in_hand[::-1]), Counts(dealt[::-1]), Counts(left[::-1]))


def numbers(divisor: int, choice: Choice) -> tuple[int, ...]:
    """Every number that is wanted, ascending; divisor >= 1."""
    top = choice.digits - 1
    shelf = choice.shelf
    if shelf and divisor > shelf.trays:
        return ()
    if choice.exchange_from and not choice.exchange_from <= set(range(TENS, choice.digits)):
        return ()

    @cache
    def tails(place: int, carried: int, begun: bool, zeros: frozenset[Zeros]) -> tuple[int, ...]:
        """The wanted digits from a place down, as numbers, when so many pieces come down to it.

        begun: the share has a digit already; zeros: where a zero has been met.
        """
        if place < UNITS:
            return (0,) if _ends_as_wanted(choice, carried, zeros) else ()
        found: list[int] = []
        for digit in range(place == top, 10):
            in_hand = digit + 10 * carried
            each, left = divmod(in_hand, divisor)
            if place > UNITS and choice.exchange_from is not None and (left > 0) != (place in choice.exchange_from):
                continue
            if shelf and not _on_shelf(shelf, divisor, place, digit, each, in_hand):
                continue
            met = zeros
            if digit == 0:
                met |= {Zeros.DIVIDEND}
            if each == 0 and (begun or place == UNITS):
                met |= {Zeros.QUOTIENT}
            found += [digit * 10**place + tail for tail in tails(place - 1, left, begun or each > 0, met)]
        return tuple(found)

    return tails(top, 0, False, frozenset())


def _ends_as_wanted(choice: Choice, remainder: int, zeros: frozenset[Zeros]) -> bool:
    if choice.remainder is not Remainder.ANY and (remainder > 0) != (choice.remainder is Remainder.SOME):
        return False
    if choice.zeros is Zeros.ANY:
        return True
    return not zeros if choice.zeros is Zeros.NONE else choice.zeros in zeros


def _on_shelf(shelf: Shelf, divisor: int, place: int, digit: int, each: int, in_hand: int) -> bool:
    """Whether there are the pieces of this place, the number's card and the children's cards."""
    return (
        shelf.holds(place, in_hand)
        and digit * 10**place <= shelf.large_cards_to
        and each * 10**place <= shelf.small_cards_to
        and (each == 0 or divisor <= shelf.small_sets)
    )


_MANY_PLACES = ({TENS, HUNDREDS}, {TENS, THOUSANDS}, {HUNDREDS, THOUSANDS}, {TENS, HUNDREDS, THOUSANDS})


def _exact(*exchange_from: int) -> Choice:
    return Choice(frozenset(exchange_from), Remainder.NONE, Zeros.NONE)


NUMBER_KINDS: Mapping[str, tuple[Choice, ...]] = MappingProxyType(
    {
        "static": (Choice(frozenset(), Remainder.NONE),),
        "exchange-tens": (_exact(TENS),),
        "exchange-hundreds": (_exact(HUNDREDS),),
        "exchange-thousands": (_exact(THOUSANDS),),
        "exchange-several": tuple(_exact(*places) for places in _MANY_PLACES),
        "remainder": (Choice(None, Remainder.SOME, Zeros.NONE),),
        "zero-in-number": (Choice(None, Remainder.NONE, Zeros.DIVIDEND),),
        "zero-in-share": (Choice(None, Remainder.NONE, Zeros.QUOTIENT),),
    }
)
"""Kinds of four-digit number in teaching order; each is one or more choices that have no number in common."""


def numbers_of_kind(divisor: int, kind: str, shelf: Shelf | None = None) -> tuple[int, ...]:
    """Every four-digit number of one of NUMBER_KINDS, ascending; with a shelf, only those it has everything for."""
    choices = (replace(choice, shelf=shelf) for choice in NUMBER_KINDS[kind])
    return tuple(sorted(number for choice in choices for number in numbers(divisor, choice)))


def best_first(divisor: int, dividends: Iterable[int], most: int | None = None) -> tuple[int, ...]:
    """The same numbers in the order in which a guide would take them for a lesson: the least awkward first.

    Among numbers equally awkward every first digit has its turn, and the one with fewest handlings comes first.
    With `most`, only so many.
    """
    alike: dict[int, list[int]] = {}
    for number in dividends:
        alike.setdefault(_awkwardness(divisor, number), []).append(number)
    best: list[int] = []
    for awkward in sorted(alike):
        if most is not None and len(best) >= most:
            break
        best += _in_turn(divisor, alike[awkward])
    return tuple(best[:most])


def _in_turn(divisor: int, dividends: list[int]) -> list[int]:
    """Numbers with fewest handlings first, then one of each first digit after the other."""
    turns: Counter[str] = Counter()
    ordered: list[tuple[int, int, int]] = []
    for handlings, number in sorted((reckon(number, divisor).handlings, number) for number in dividends):
        first = str(number)[0]
        turns[first] += 1
        ordered.append((turns[first], handlings, number))
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
