"""Every division of a number up to 9,999 among up to twelve: by Python's divmod, by the replay, by arithmetic.

One pass of full traces for each divisor serves all checks of it, `choose` included. A sample takes every 37th number.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache
from itertools import chain, combinations, product
from typing import NamedTuple

import pytest

from generator.engine.choosing_numbers import NUMBER_KINDS, Choice, Remainder, Zeros, numbers, numbers_of_kind, reckon
from generator.engine.features import Features, features_of
from generator.engine.places import Counts
from generator.engine.sharing import Sharing, share
from generator.engine.shelf import Shelf, needs, shortages
from tests.engine.replay import check_rooms, check_stages, replay
from tests.sampling import sample

DIVISORS = range(1, 13)
DIVIDENDS = sample(range(10_000), 271)
TRIED = frozenset(DIVIDENDS)
SMALL_SHELF = Shelf(
    pieces=Counts((40, 25, 20, 9)),
    large_cards_to=8000,
    small_cards_to=2000,
    small_sets=6,
    trays=7,
    ribbons=Counts((0, 0, 0)),
)


class Bucket(NamedTuple):
    """Everything `choose` can ask of a number."""

    digits: int
    exchange_from: frozenset[int]
    left_over: bool
    zero_in_dividend: bool
    zero_in_quotient: bool
    on_small_shelf: bool


Buckets = dict[Bucket, list[int]]


@lru_cache(maxsize=2)
def worked_out(divisor: int) -> Buckets:
    """Work out every number up to 9,999, check each in full, and sort them by what `choose` asks."""
    buckets: Buckets = defaultdict(list)
    for dividend in DIVIDENDS:
        sharing = share(dividend, divisor)
        quotient, remainder = divmod(dividend, divisor)
        assert (sharing.quotient, sharing.remainder) == (quotient, remainder)
        ledger = replay(sharing)
        check_rooms(sharing)
        check_stages(sharing)
        assert sharing.exchanges == sum(ledger.exchanged)
        assert sharing.pieces_needed == ledger.most_out_of_the_bank
        assert sharing.handlings == ledger.pieces_moved
        check_reckoning(sharing)
        assert features_of(sharing) == kind_by_arithmetic(dividend, divisor)
        if dividend:
            bucket = Bucket(
                len(str(dividend)),
                frozenset(place for place, count in enumerate(ledger.exchanged) if count),
                remainder > 0,
                "0" in str(dividend),
                "0" in str(quotient),
                not shortages(needs(sharing), SMALL_SHELF),
            )
            buckets[bucket].append(dividend)
    return buckets


def check_reckoning(sharing: Sharing) -> None:
    reckoning = reckon(sharing.dividend, sharing.divisor)
    assert reckoning.exchanges == sharing.exchanges
    assert reckoning.in_hand == sharing.pieces_needed
    assert reckoning.handlings == sharing.handlings
    assert reckoning.digits == sharing.start
    assert reckoning.left[1:] == tuple(
        sum(stage.exchanged[place] for stage in sharing.stages) for place in range(1, len(sharing.start))
    )
    assert reckoning.left[0] == sharing.remainder


def kind_by_arithmetic(dividend: int, divisor: int) -> Features:
    """What is special about a plain division, by `//` and `%` and the written digits alone."""
    number, share_ = str(dividend), str(dividend // divisor)
    places = range(len(number) - 1, -1, -1)
    exchange_from = tuple(place for place in places if place and dividend // 10**place % divisor)
    empty = tuple(place for place in places if dividend and number[-1 - place] == "0")
    zeros = [place for place in range(len(share_) - 1, -1, -1) if share_ != "0" and share_[-1 - place] == "0"]
    end = len(share_) - len(share_.rstrip("0"))
    in_hand = {place: dividend // 10 ** (place + 1) % divisor * 10 + int(number[-1 - place]) for place in places}
    return Features(
        exchange_from=exchange_from,
        zeros_in_dividend=empty,
        zeros_inside_quotient=tuple(place for place in zeros if place >= end),
        zeros_at_quotient_end=tuple(place for place in zeros if place < end),
        places_short=tuple(place for place in places if 0 < in_hand[place] < divisor),
        highest_place_short=0 < int(number[0]) < divisor,
    )


def _tried(found: tuple[int, ...]) -> tuple[int, ...]:
    return tuple(number for number in found if number in TRIED)


def _brute_force(buckets: Buckets, choice: Choice) -> tuple[int, ...]:
    return tuple(sorted(chain.from_iterable(found for bucket, found in buckets.items() if _suits(bucket, choice))))


def _suits(bucket: Bucket, choice: Choice) -> bool:
    """The filters of `choose`, each as its --help states it."""
    zeros = {
        Zeros.NONE: not bucket.zero_in_dividend and not bucket.zero_in_quotient,
        Zeros.DIVIDEND: bucket.zero_in_dividend,
        Zeros.QUOTIENT: bucket.zero_in_quotient,
        Zeros.ANY: True,
    }
    return (
        bucket.digits == choice.digits
        and (choice.exchange_from is None or bucket.exchange_from == choice.exchange_from)
        and (choice.remainder is Remainder.ANY or bucket.left_over == (choice.remainder is Remainder.SOME))
        and zeros[choice.zeros]
        and (choice.shelf is None or bucket.on_small_shelf)
    )


def _every_choice() -> Iterable[Choice]:
    sending = [None, *(frozenset(places) for size in range(4) for places in combinations((1, 2, 3), size))]
    for exchange_from, remainder, zeros, digits in product(sending, Remainder, Zeros, range(1, 5)):
        yield Choice(exchange_from, remainder, zeros, digits)


@pytest.mark.parametrize("divisor", DIVISORS, scope="module")
def test_every_dividend_up_to_9999(divisor: int) -> None:
    assert sum(map(len, worked_out(divisor).values())) == len(DIVIDENDS) - 1


@pytest.mark.parametrize("divisor", DIVISORS, scope="module")
def test_chosen_numbers_are_those_of_brute_force(divisor: int) -> None:
    buckets = worked_out(divisor)
    for choice in _every_choice():
        assert _tried(numbers(divisor, choice)) == _brute_force(buckets, choice), choice
        on_shelf = replace(choice, shelf=SMALL_SHELF)
        assert _tried(numbers(divisor, on_shelf)) == _brute_force(buckets, on_shelf), on_shelf


@pytest.mark.parametrize("divisor", DIVISORS, scope="module")
def test_numbers_of_a_kind_are_those_of_brute_force(divisor: int) -> None:
    buckets = worked_out(divisor)
    for kind, choices in NUMBER_KINDS.items():
        expected = [number for choice in choices for number in _brute_force(buckets, choice)]
        assert len(expected) == len(set(expected)), f"{kind}: two choices share a number"
        assert _tried(numbers_of_kind(divisor, kind)) == tuple(sorted(expected))
