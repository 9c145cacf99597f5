"""Divisions that others have printed: results, steps place by place, and wrong answers.

`published.csv` names the source of every row; where nothing else is said, it was read in a copy of the source.
"""

import csv
from pathlib import Path
from typing import NamedTuple

import pytest

from generator.engine.dealing import Action
from generator.engine.places import Counts
from generator.engine.sharing import Sharing, share
from tests.engine.replay import check_rooms, check_stages, replay


class Printed(NamedTuple):
    dividend: int
    divisor: int
    quotient: int
    remainder: int


def _printed() -> list[Printed]:
    with (Path(__file__).parent / "published.csv").open(encoding="utf-8", newline="") as file:
        return [Printed(*(int(row[field]) for field in Printed._fields)) for row in csv.DictReader(file)]


PRINTED = _printed()
MOST_PLAIN_SHARERS = 9_999


def _check(sharing: Sharing, printed: Printed) -> None:
    assert (sharing.quotient, sharing.remainder) == (printed.quotient, printed.remainder)
    replay(sharing)
    check_rooms(sharing)
    check_stages(sharing)


def test_the_table_has_all_its_rows() -> None:
    assert len(PRINTED) == 80
    assert sum(row.divisor > MOST_PLAIN_SHARERS for row in PRINTED) == 1


@pytest.mark.parametrize("printed", [row for row in PRINTED if row.divisor <= MOST_PLAIN_SHARERS], ids=str)
def test_plain(printed: Printed) -> None:
    _check(share(printed.dividend, printed.divisor), printed)


@pytest.mark.parametrize("printed", PRINTED, ids=str)
def test_with_ribbons(printed: Printed) -> None:
    _check(share(printed.dividend, printed.divisor, ribbons=True), printed)


class Place(NamedTuple):
    """What a source prints about one place: the pieces in hand, what each gets, what is not dealt."""

    in_hand: int
    each: int
    left: int


PLACE_BY_PLACE = {
    # "Helping your child with division - Fourth Class", parents' tip sheet, publisher not shown: read
    (257, 3): [Place(2, 0, 2), Place(25, 8, 1), Place(17, 5, 2)],
    # Thorndike, The Psychology of Arithmetic (1922), p. 63: read
    (1825, 4): [Place(1, 0, 1), Place(18, 4, 2), Place(22, 5, 2), Place(25, 6, 1)],
    # Fibonacci, Liber Abbaci (1202/1228), cap. V: read
    (8059, 5): [Place(8, 1, 3), Place(30, 6, 0), Place(5, 1, 0), Place(9, 1, 4)],
    # Open Up Resources, Grade 6 Unit 5 Lesson 9: read
    (345, 3): [Place(3, 1, 0), Place(4, 1, 1), Place(15, 5, 0)],
    # Progressions for the Common Core State Standards, Number and Operations in Base Ten, K-5: from memory
    (745, 3): [Place(7, 2, 1), Place(14, 4, 2), Place(25, 8, 1)],
}


@pytest.mark.parametrize(("division", "printed"), [*PLACE_BY_PLACE.items()], ids=str)
def test_steps_as_printed_place_by_place(division: tuple[int, int], printed: list[Place]) -> None:
    dividend, divisor = division
    stages = share(dividend, divisor).stages
    in_hand = [stage.start[stage.level] for stage in stages]
    left = [pieces - stage.rounds * divisor for pieces, stage in zip(in_hand, stages, strict=True)]
    found = [Place(*place) for place in zip(in_hand, (stage.rounds for stage in stages), left, strict=True)]
    assert found == printed
    assert [stage.exchanged[stage.level] for stage in stages[:-1]] == left[:-1], "what is not dealt is exchanged"
    assert stages[-1].end.value == left[-1], "what is not dealt at the units is left over"


# Recorde, Accomptynge by Counters (1543): what the board holds after each digit of the quotient. 69,600 / 200: read.
# 16,320 / 160: that the tens of the quotient stay empty was read; the board's 320 and 0 are computed.
RECORDE = {(69_600, 200): ([3, 4, 8], [9_600, 1_600, 0]), (16_320, 160): ([1, 0, 2], [320, 320, 0])}


@pytest.mark.parametrize("ribbons", [False, True])
@pytest.mark.parametrize(("division", "printed"), [*RECORDE.items()], ids=str)
def test_what_the_board_holds_after_each_digit(
    division: tuple[int, int], printed: tuple[list[int], list[int]], ribbons: bool
) -> None:
    sharing = share(*division, ribbons=ribbons)
    hundreds_down = [stage for stage in sharing.stages if stage.level <= 2]
    assert [stage.rounds for stage in hundreds_down] == printed[0]
    assert [sharing.to_share(stage.after) for stage in hundreds_down] == printed[1]


# Pupils' slips printed in EngageNY Grade 4 Module 3 Lesson 19 (94 / 3, 86 / 4), and a slip in print of OpenStax
# Prealgebra 2e, section 1.5, where 1,461 is meant: read.
WRONG = [Printed(94, 3, 30, 4), Printed(86, 4, 20, 6), Printed(1462, 13, 112, 5)]


@pytest.mark.parametrize("wrong", WRONG, ids=str)
@pytest.mark.parametrize("ribbons", [False, True])
def test_answers_printed_wrong_are_not_the_engine_s(wrong: Printed, ribbons: bool) -> None:
    sharing = share(wrong.dividend, wrong.divisor, ribbons=ribbons)
    assert (sharing.quotient, sharing.remainder) != (wrong.quotient, wrong.remainder)
    adds_up = wrong.quotient * wrong.divisor + wrong.remainder == wrong.dividend
    assert not adds_up or wrong.remainder >= wrong.divisor, "only a remainder too large gives such a slip away"
    assert sharing.remainder < wrong.divisor


# M. Montessori, The Montessori Elementary Material (1917), Part III, pp. 223-224 and 238: read.
MONTESSORI = [Printed(27, 10, 2, 7), Printed(27, 9, 3, 0), Printed(27, 8, 3, 3), Printed(26, 4, 6, 2)]


@pytest.mark.parametrize("printed", MONTESSORI, ids=str)
@pytest.mark.parametrize("ribbons", [False, True])
def test_montessori_1917(printed: Printed, ribbons: bool) -> None:
    _check(share(printed.dividend, printed.divisor, ribbons=ribbons), printed)


# OpenStax Prealgebra 2e, section 1.1: hundreds, tens and ones of a number: read.
DIGITS = {176: (1, 7, 6), 215: (2, 1, 5), 237: (2, 3, 7), 138: (1, 3, 8)}


@pytest.mark.parametrize(("number", "digits"), [*DIGITS.items()])
def test_how_a_number_is_laid_out(number: int, digits: tuple[int, int, int]) -> None:
    assert tuple(share(number, 2).start.named().values()) == digits


# The same number, laid out otherwise, units first. 111: Illustrative Mathematics K-5, Grade 4 Unit 6 Lesson 17: read.
# 524: South Carolina College- and Career-Ready Standards, 2.NSBT.1c: read.
EQUAL_WAYS = [(111, Counts((11, 0, 1))), (111, Counts((21, 9))), (524, Counts((4, 12, 4)))]


@pytest.mark.parametrize(("number", "pieces"), EQUAL_WAYS)
def test_other_ways_to_lay_out_a_number(number: int, pieces: Counts) -> None:
    assert pieces.value == number


def test_an_exchange_passes_through_the_other_ways() -> None:
    """Twelve cannot share 11 tens: two of them exchanged leave 9 tens 21 units. Eight begin 524 with an exchange."""
    middles = [step.after.middle for step in share(111, 12).steps if step.action is Action.EXCHANGE]
    assert Counts((21, 9, 0)) in middles
    assert share(524, 8).steps[2].after.middle == Counts((4, 12, 4))
