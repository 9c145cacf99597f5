"""Sharing with ribbons: every divisor from 10 to 999, each digit of it a group of children."""

from random import Random

import pytest

from generator.engine.choosing_numbers import reckon
from generator.engine.dealing import Action
from generator.engine.features import features_of
from generator.engine.places import Counts
from generator.engine.sharing import Sharing, share
from tests.engine.replay import check_rooms, check_stages, replay
from tests.sampling import sample

DIVIDENDS_EACH = 100


def edges(divisor: int) -> set[int]:
    """Dividends at which something changes."""
    near = {divisor * share_ + off for share_ in (1, 9, 10, 11, 99, 100, 101) for off in (-1, 0, 1)}
    return {0, 1, 9, 10, 99, 100, 999, 1000, 9999, *near}


def others(divisor: int) -> set[int]:
    """Dividends by lot, the same ones in every run."""
    lot = Random(divisor)
    drawn: set[int] = set()
    while len(drawn | edges(divisor)) < DIVIDENDS_EACH:
        drawn.add(lot.randrange(10 ** lot.choice((3, 4, 4, 4, 5, 6))))
    return drawn


def check(sharing: Sharing) -> None:
    assert (sharing.quotient, sharing.remainder) == divmod(sharing.dividend, sharing.divisor)
    ledger = replay(sharing)
    check_stages(sharing)
    assert sharing.exchanges == sum(ledger.exchanged)
    assert sharing.pieces_needed == ledger.most_out_of_the_bank
    assert sharing.handlings == ledger.pieces_moved
    sends = tuple(place for place in reversed(range(len(ledger.exchanged))) if ledger.exchanged[place])
    assert features_of(sharing).exchange_from == sends


@pytest.mark.parametrize("hundred", range(10))
def test_every_divisor(hundred: int) -> None:
    for divisor in sample(range(max(100 * hundred, 10), 100 * hundred + 100), 3):
        for dividend in edges(divisor):
            sharing = share(dividend, divisor, ribbons=True)
            check(sharing)
            check_rooms(sharing)
        for dividend in others(divisor):
            check(share(dividend, divisor, ribbons=True))


@pytest.mark.parametrize("divisor", [*range(10, 100), 100, 102, 120, 200, 300, 321, 999])
def test_the_ribbons_need_no_more_children_than_digits_say(divisor: int) -> None:
    sharing = share(9999, divisor, ribbons=True)
    assert sharing.sharers == sum(map(int, str(divisor)))
    assert [(tray.sharers, tray.stands_for) for tray in sharing.trays(sharing.end)] == [
        (int(digit), 10**width) for width, digit in reversed([*enumerate(reversed(str(divisor)))]) if digit != "0"
    ]


def test_plain_sharing_is_the_case_where_everybody_stands_for_one() -> None:
    for divisor in range(1, 10):
        for dividend in range(0, 10_000, 13):
            assert share(dividend, divisor, ribbons=True).steps == share(dividend, divisor).steps


def test_3432_among_twelve_with_one_ten_ribbon() -> None:
    """Worked by hand: 2 rounds of hundreds, 8 of tens, 6 of units; 286 for one who stands for one."""
    sharing = share(3432, 12, ribbons=True)
    assert (sharing.quotient, sharing.remainder) == (286, 0)
    assert [(stage.level, stage.rounds) for stage in sharing.stages] == [(2, 2), (1, 8), (0, 6)]
    hundreds, tens, units = sharing.stages
    assert hundreds.exchanged.named() == {"thousands": 1, "hundreds": 0, "tens": 0, "units": 0}
    assert hundreds.end == Counts((2, 3, 10, 0))
    assert tens.exchanged.named() == {"thousands": 0, "hundreds": 2, "tens": 0, "units": 0}
    assert tens.end == Counts((2, 7, 0, 0))
    assert units.exchanged.named() == {"thousands": 0, "hundreds": 0, "tens": 1, "units": 0}
    assert [(tray.sharers, tray.stands_for, tray.holds.value) for tray in sharing.trays(sharing.end)] == [
        (1, 10, 2860),
        (2, 1, 286),
    ]
    one_round = next(step for step in sharing.steps if step.action is Action.DEAL)
    assert one_round.after.middle == Counts((2, 3, 2, 2)), "a round takes one thousand and two hundreds"


@pytest.mark.parametrize(
    ("dividend", "divisor", "quotient", "remainder", "first_level", "sharers"),
    [
        (640, 20, 32, 0, 1, 2),
        (9630, 30, 321, 0, 2, 3),
        (5100, 102, 50, 0, 1, 3),
        (7, 102, 0, 7, 0, 3),
        (0, 20, 0, 0, 0, 2),
        (99, 100, 0, 99, 0, 1),
    ],
)
def test_a_zero_in_the_divisor_is_a_group_of_nobody(
    dividend: int, divisor: int, quotient: int, remainder: int, first_level: int, sharers: int
) -> None:
    sharing = share(dividend, divisor, ribbons=True)
    assert (sharing.quotient, sharing.remainder) == (quotient, remainder)
    assert (sharing.stages[0].level, sharing.sharers) == (first_level, sharers)
    assert sharing.ribbons


def test_ribbons_take_far_fewer_exchanges_than_as_many_children() -> None:
    assert share(3432, 12, ribbons=True).exchanges == 4
    assert reckon(3432, 12).exchanges == 3 + 10 + 7
