"""What a sharing needs and whether a shelf has it; the sums are worked by hand."""

from dataclasses import replace

import pytest

from generator.engine.places import TENS, Counts
from generator.engine.sharing import share
from generator.engine.shelf import ChildCards, Shelf, Shortage, cards, needs, shortages

SHELF = Shelf(
    pieces=Counts((100, 45, 45, 9)),
    large_cards_to=9000,
    small_cards_to=3000,
    small_sets=6,
    trays=8,
    ribbons=Counts((0, 4, 2)),
)


@pytest.mark.parametrize(
    ("number", "expected"),
    [(5230, (5000, 200, 30)), (1307, (1000, 300, 7)), (4000, (4000,)), (8, (8,)), (0, ()), (9999, (9000, 900, 90, 9))],
)
def test_a_card_for_every_digit_but_zero(number: int, expected: tuple[int, ...]) -> None:
    assert cards(number) == expected
    assert sum(expected) == number


def test_needs_of_5230_among_4() -> None:
    needed = needs(share(5230, 4))
    assert needed.pieces == Counts((30, 3, 12, 5))
    assert needed.large_cards == (5000, 200, 30)
    assert needed.small_cards == (ChildCards(4, 1, (1000, 300, 7)),)
    assert (needed.small_sets, needed.trays, needed.ribbons.pieces) == (4, 4, 0)
    assert shortages(needed, SHELF) == ()


def test_needs_of_3432_among_12_with_ribbons() -> None:
    needed = needs(share(3432, 12, ribbons=True))
    assert needed.small_cards == (ChildCards(1, 10, (2000, 800, 60)), ChildCards(2, 1, (200, 80, 6)))
    assert (needed.small_sets, needed.trays) == (3, 3)
    assert needed.ribbons == Counts((0, 1))
    assert shortages(needed, SHELF) == ()


def test_nobody_gets_any_and_fetches_no_card() -> None:
    needed = needs(share(3, 5))
    assert needed.small_cards == (ChildCards(5, 1, ()),)
    assert shortages(needed, SHELF) == ()


SHORT = [
    # in hand: 9 thousands, 98 hundreds, 27 tens, 36 units
    (9876, 12, False, [("hundreds", 98, 45), ("small_sets", 12, 6), ("trays", 12, 8)]),
    (9999, 7, False, [("small_sets", 7, 6)]),
    (8642, 2, False, [("small_cards_to", 4000, 3000)]),
    (4862, 11, True, [("small_cards_to", 4000, 3000)]),
    (
        12_346,
        2,
        False,
        [
            ("ten-thousands", 1, 0),
            ("thousands", 12, 9),
            ("large_cards_to", 10_000, 9000),
            ("small_cards_to", 6000, 3000),
        ],
    ),
    (5550, 50, True, [("ten_ribbons", 5, 4)]),
    (6600, 330, True, [("hundred_ribbons", 3, 2)]),
    (6000, 2000, True, [("thousand_ribbons", 2, 0)]),
]


@pytest.mark.parametrize(("dividend", "divisor", "ribbons", "expected"), SHORT)
def test_what_the_shelf_is_short_of(
    dividend: int, divisor: int, ribbons: bool, expected: list[tuple[str, int, int]]
) -> None:
    assert shortages(needs(share(dividend, divisor, ribbons=ribbons)), SHELF) == tuple(
        Shortage(*short) for short in expected
    )


def test_ribbons_beyond_those_with_a_name_are_short_too() -> None:
    short = [item for item in shortages(needs(share(98_765, 21_111, ribbons=True)), SHELF) if "ribbons" in item.what]
    assert short == [Shortage("larger_ribbons", 2, 0), Shortage("thousand_ribbons", 1, 0)]


def test_more_pieces_of_one_place() -> None:
    assert SHELF.with_more(TENS, 20) == replace(SHELF, pieces=Counts((100, 65, 45, 9)))


@pytest.mark.parametrize(("children", "seated"), [(1, True), (6, True), (7, False), (8, False), (9, False)])
def test_a_tray_and_a_set_for_everybody(children: int, seated: bool) -> None:
    assert SHELF.seats(children) is seated
    assert replace(SHELF, small_sets=8, trays=6).seats(children) is seated
