"""What to buy is checked by buying it: the shelf with the things on it must serve so many lessons more."""

from dataclasses import replace
from itertools import product
from typing import Any

import pytest

from generator.engine.choosing_numbers import reckon
from generator.engine.places import Counts
from generator.engine.sharing import share
from generator.engine.shelf import Shelf, Shortage, most_needed, needs, purchases, shortages

PLACES = ("units", "tens", "hundreds", "thousands")
FULL = Shelf(Counts((100, 45, 45, 9)), 9000, 3000, 6, 8, Counts((0, 4, 2)))
POOR = Shelf(Counts((20, 12, 15, 4)), 4000, 1000, 3, 4, Counts((0, 1, 0)))
LESSONS = [share(dividend, divisor) for dividend, divisor in product((96, 1552, 3213, 5230, 7149, 9999), range(2, 13))]
RIBBONS = [share(dividend, divisor, ribbons=True) for dividend, divisor in ((3432, 12), (5304, 102), (4873, 203))]


def with_bought(shelf: Shelf, thing: Shortage) -> Shelf:
    if thing.what in PLACES:
        return shelf.with_more(PLACES.index(thing.what), thing.needed - thing.owned)
    if thing.what.endswith("_ribbons"):
        place = ("ten_ribbons", "hundred_ribbons").index(thing.what) + 1
        return replace(
            shelf,
            ribbons=Counts(thing.needed if at == place else have for at, have in enumerate(shelf.ribbons)),
        )
    numbers: dict[str, Any] = {thing.what: thing.needed}
    return replace(shelf, **numbers)


@pytest.mark.parametrize("shelf", [FULL, POOR])
def test_a_purchase_opens_as_many_lessons_as_it_says(shelf: Shelf) -> None:
    wanted = [needs(sharing) for sharing in LESSONS + RIBBONS]
    served = sum(not shortages(need, shelf) for need in wanted)
    found = purchases(shortages(need, shelf) for need in wanted)
    assert found
    for purchase in found:
        bought = shelf
        for thing in purchase.things:
            bought = with_bought(bought, thing)
        assert sum(not shortages(need, bought) for need in wanted) == served + purchase.opens


def test_fewest_things_first_then_most_lessons_then_least_to_buy() -> None:
    tens_50, tens_60 = Shortage("tens", 50, 45), Shortage("tens", 60, 45)
    trays = Shortage("trays", 9, 8)
    found = purchases([(tens_50,), (), (tens_60,), (tens_50, trays), (trays,)])
    assert [(purchase.things, purchase.opens) for purchase in found] == [
        ((tens_60,), 2),
        ((tens_50,), 1),
        ((trays,), 1),
        ((tens_50, trays), 3),
    ]


def test_of_the_same_things_the_most_useful_and_the_smallest_purchase_are_told() -> None:
    by_hundreds = [Shortage("hundreds", needed, 0) for needed in (25, 23, 12, 2, 4)]
    assert [purchase.things for purchase in purchases((thing,) for thing in by_hundreds)] == [
        (by_hundreds[0],),
        (by_hundreds[3],),
    ]


def test_where_the_most_useful_purchase_is_the_smallest_no_other_of_the_same_things_is_told() -> None:
    tens_2, units_2 = Shortage("tens", 2, 0), Shortage("units", 2, 0)
    tens_9, units_1 = Shortage("tens", 9, 0), Shortage("units", 1, 0)
    (purchase,) = purchases([(tens_2, units_2), (tens_2, units_2), (tens_9, units_1)])
    assert purchase == ((tens_2, units_2), 2)


def test_a_shelf_that_serves_everything_needs_nothing() -> None:
    assert purchases([(), ()]) == ()


@pytest.mark.parametrize("sharers", range(1, 13))
@pytest.mark.parametrize("places", [1, 2, 3, 4])
def test_the_most_that_a_group_can_need_is_what_some_number_needs(sharers: int, places: int) -> None:
    needed = (reckon(number, sharers).in_hand for number in range(10 ** (places - 1), 10**places))
    assert tuple(map(max, zip(*needed, strict=True))) == most_needed(sharers, places)
