"""Choosing numbers: counts known in closed form, and what comes first for a lesson.

That the numbers are the right ones is checked against full traces in test_every_division.py.
"""

from dataclasses import replace

import pytest

from generator.engine.choosing_numbers import (
    NUMBER_KINDS,
    Choice,
    Offer,
    Remainder,
    Zeros,
    best_first,
    digits_must_repeat,
    numbers,
    numbers_of_kind,
    offer,
)
from generator.engine.places import HUNDREDS, TENS, THOUSANDS, Counts
from generator.engine.shelf import Shelf
from tests.sampling import sample

STATIC = Choice(frozenset(), Remainder.NONE)


@pytest.mark.parametrize("divisor", range(1, 13))
@pytest.mark.parametrize("digits", [1, 2, 3, 4])
def test_numbers_that_share_out_at_every_place_in_closed_form(divisor: int, digits: int) -> None:
    """Every digit must be a multiple of the divisor: as many choices as multiples, fewer by zero for the first."""
    expected = len(range(divisor, 10, divisor)) * len(range(0, 10, divisor)) ** (digits - 1)
    assert len(numbers(divisor, replace(STATIC, digits=digits))) == expected


def test_192_static_numbers_for_three() -> None:
    assert len(numbers(3, STATIC)) == 192
    assert len(numbers_of_kind(3, "static")) == 192


@pytest.mark.parametrize("divisor", range(1, 13))
def test_with_nothing_asked_every_number_will_do(divisor: int) -> None:
    for digits in range(1, 5):
        assert numbers(divisor, Choice(digits=digits)) == tuple(range(10 ** (digits - 1), 10**digits))


@pytest.mark.parametrize("digits", range(1, 5))
def test_no_exchange_from_a_place_the_number_does_not_have(digits: int) -> None:
    for place in range(digits, 4):
        assert numbers(3, Choice(frozenset({place}), digits=digits)) == ()
    assert numbers(3, Choice(frozenset({0}), digits=digits)) == (), "units send nothing to the bank"


def test_among_ten_or_more_every_four_digit_number_begins_at_the_bank() -> None:
    for divisor in (10, 11, 12):
        assert numbers(divisor, STATIC) == ()
        assert all(THOUSANDS in places for places in _sending_places(divisor))


def _sending_places(divisor: int) -> list[frozenset[int]]:
    sending = [frozenset(places) for places in ((), (1,), (2,), (3,), (1, 2), (1, 3), (2, 3), (1, 2, 3))]
    return [places for places in sending if numbers(divisor, Choice(places))]


def test_a_box_of_ten_bars_opens_up_numbers() -> None:
    shelf = Shelf(Counts((100, 20, 45, 9)), 9000, 3000, 12, 12, Counts((0, 4, 2)))
    more = shelf.with_more(TENS, 50)
    for divisor in range(2, 13):
        now, then, ever = (
            numbers(divisor, Choice(shelf=choice)) for choice in (shelf, more, shelf.with_more(TENS, 1000))
        )
        assert set(now) <= set(then) <= set(ever)
        # more than 20 ten-bars are in hand where 2 or more hundreds come down: never in a group of two
        assert (len(now) < len(then)) is (divisor > 2)


@pytest.mark.parametrize("divisor", sample(range(2, 13), 3))
@pytest.mark.parametrize("kind", NUMBER_KINDS)
def test_best_first_is_the_same_numbers_in_another_order(divisor: int, kind: str) -> None:
    found = numbers_of_kind(divisor, kind)
    best = best_first(divisor, found)
    assert sorted(best) == list(found)
    assert best_first(divisor, reversed(found)) == best
    assert all(best_first(divisor, found, most) == best[:most] for most in (0, 1, 5, len(found) + 1))


def _all_different(number: int) -> bool:
    return len(set(str(number))) == len(str(number))


@pytest.mark.parametrize("divisor", range(2, 10))
@pytest.mark.parametrize("choice", [Choice(), Choice(remainder=Remainder.SOME), Choice(zeros=Zeros.NONE)])
def test_first_come_numbers_a_guide_would_take(divisor: int, choice: Choice) -> None:
    found = numbers(divisor, choice)
    assert any(_all_different(number) and _all_different(number // divisor) for number in found)
    for number in best_first(divisor, found)[:12]:
        assert _all_different(number)
        assert number // divisor > 1


def test_first_digits_take_turns() -> None:
    """Twenty-four static numbers for two have the digits 2, 4, 6, 8, and all take equally many movements."""
    best = best_first(2, numbers_of_kind(2, "static"))
    assert [[number // 1000 for number in best[turn : turn + 4]] for turn in range(0, 24, 4)] == [[2, 4, 6, 8]] * 6


@pytest.mark.parametrize(
    ("better", "worse", "divisor"),
    [
        (2468, 2222, 2),  # different digits
        (3369, 3000, 3),  # no empty places
        (7328, 4937, 4),  # nothing left over, though longer to deal
        (5296, 1296, 4),  # dealt from the first place on
        (8, 4, 4),  # more than one each
        (9, 3, 4),  # somebody gets something
        (4852, 4892, 4),  # shorter to deal
    ],
)
def test_of_two_numbers_the_better_comes_first(better: int, worse: int, divisor: int) -> None:
    assert best_first(divisor, (better, worse)) == (better, worse)
    assert best_first(divisor, (worse, better)) == (better, worse)


ONE_PLACE = {
    "static": (),
    "exchange-tens": (TENS,),
    "exchange-hundreds": (HUNDREDS,),
    "exchange-thousands": (THOUSANDS,),
}
SEVERAL = [(TENS, HUNDREDS), (TENS, THOUSANDS), (HUNDREDS, THOUSANDS), (TENS, HUNDREDS, THOUSANDS)]


def test_kinds_by_where_pieces_are_exchanged() -> None:
    for kind, places in ONE_PLACE.items():
        assert [choice.exchange_from for choice in NUMBER_KINDS[kind]] == [frozenset(places)]
    assert [choice.exchange_from for choice in NUMBER_KINDS["exchange-several"]] == [*map(frozenset, SEVERAL)]


@pytest.mark.parametrize(
    ("divisor", "kind", "digits", "only_near", "some"),
    [
        (4, "exchange-tens", 4, False, {8496}),  # 8 and 4 go round, of 9 bars one goes: 16 beads are 4 each
        (9, "exchange-tens", 2, False, {18, 72}),
        (9, "exchange-hundreds", 3, False, {189}),
        (11, "exchange-tens", 2, False, {11, 22}),  # one bar goes to the bank, and with it eleven beads are one each
        (11, "exchange-hundreds", 3, True, set(range(110, 120))),
        (12, "exchange-thousands", 4, True, {1200}),
    ],
)
def test_where_a_kind_has_no_number_others_are_offered(
    divisor: int, kind: str, digits: int, only_near: bool, some: set[int]
) -> None:
    offered = offer(divisor, kind)
    assert (offered.digits, offered.only_near) == (digits, only_near)
    assert some <= set(offered.numbers)


def test_ten_children_or_more_have_no_number_of_two_digits_that_goes_round_as_it_lies() -> None:
    assert [size for size in range(2, 13) if offer(size, "static") == Offer((), 4, False)] == [10, 11, 12]


def test_where_digits_must_repeat() -> None:
    assert digits_must_repeat([5555, 5055])
    assert not digits_must_repeat([5555, 5230])
    static = {size: numbers_of_kind(size, "static") for size in range(2, 10)}
    assert [size for size, found in static.items() if digits_must_repeat(found)] == [4, 5, 6, 7, 8, 9]
