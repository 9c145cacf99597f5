"""`share` in script and in Python: the same movements for every division of a room, and the same object.

An object is the same if it is so key by key and in the same order.
"""

from collections.abc import Iterable, Iterator
from random import Random

import pytest

from generator.commands.share import as_data
from generator.engine.features import features_of
from generator.engine.length import lesson_length
from generator.engine.sharing import Sharing, share
from generator.engine.shelf import needs, shortages
from generator.source.school import School
from tests.engine.divisions import RIBBON_DIVISORS
from tests.sampling import sample, spread, times
from tests.script.engine import Engine, as_json

AT_ONCE = 200
DIVIDENDS = sample(range(10_000), 97)
TOLD = times(whole=10, sampled=2)  # of so many, one is compared in all that is told of it
DIVISORS = [*range(1, 10), *RIBBON_DIVISORS]
WITH_RIBBONS = spread(list(range(10_000)), times(whole=101, sampled=9))

Division = tuple[int, int, bool, bool]
"""Dividend, divisor, with ribbons, looking first."""


SHARE = "([n, d, ribbons, look_first]) => sharing.share(n, d, { ribbons, look_first })"
MOVEMENTS = "([n, d, ribbons, lookFirst]) => bare(sharing.division.workOut(n, d, { ribbons, lookFirst }).steps)"


def check(engine: Engine, divisions: Iterable[Division]) -> None:
    """All that is told of a division."""
    for division, sharing, answer in answered(engine, SHARE, divisions):
        assert answer == as_json(as_data(sharing, division[2])), division


def check_movements(engine: Engine, divisions: Iterable[Division]) -> None:
    """What all that is told follows from."""
    for division, sharing, answer in answered(engine, MOVEMENTS, divisions):
        assert answer == as_json(sharing.steps), division


def answered(engine: Engine, function: str, divisions: Iterable[Division]) -> Iterator[tuple[Division, Sharing, str]]:
    asked = list(divisions)
    for start in range(0, len(asked), AT_ONCE):
        some = asked[start : start + AT_ONCE]
        for division, answer in zip(some, engine.answers(function, some), strict=True):
            dividend, divisor, ribbons, look_first = division
            yield division, share(dividend, divisor, ribbons=ribbons, look_first=look_first), answer


@pytest.mark.parametrize("divisor", range(1, 13))
def test_every_movement_of_every_dividend_up_to_9999(engine: Engine, divisor: int) -> None:
    check_movements(engine, ((dividend, divisor, False, False) for dividend in DIVIDENDS))


@pytest.mark.parametrize("divisor", range(1, 13))
def test_all_that_is_told_of_a_division(engine: Engine, divisor: int) -> None:
    check(engine, ((dividend, divisor, False, False) for dividend in DIVIDENDS[divisor % TOLD :: TOLD]))


@pytest.mark.parametrize("divisor", range(1, 13))
def test_looking_first_leaves_out_the_same_movements(engine: Engine, divisor: int) -> None:
    check(engine, ((dividend, divisor, False, True) for dividend in DIVIDENDS[divisor::31]))


def test_every_ribbon_divisor_that_twelve_children_can_make(engine: Engine) -> None:
    for divisor in sample(DIVISORS, 60):
        divisions = [(dividend, divisor, True, dividend % 3 == 0) for dividend in WITH_RIBBONS]
        check_movements(engine, divisions)
        check(engine, divisions[divisor % TOLD :: TOLD])


def test_numbers_as_large_as_the_command_takes(engine: Engine) -> None:
    chance = Random(15)
    lengths = [10 ** chance.randint(4, 15) for _ in range(20)]
    check(engine, ((chance.randint(0, most), chance.randint(1, 60), False, False) for most in lengths))
    check(engine, ((chance.randint(0, most), chance.choice(RIBBON_DIVISORS), True, False) for most in lengths))
    check(engine, [(10**15, 7, False, False), (10**15, 111_111, True, False), (0, 9_999, False, False)])


@pytest.mark.parametrize("look_first", [True, False])
def test_how_long_a_plain_sharing_takes_is_reckoned_without_a_movement(engine: Engine, look_first: bool) -> None:
    chance = Random(17)
    divisions = [(chance.randint(0, 10 ** chance.randint(1, 4)), chance.randint(1, 12)) for _ in range(500)]
    pace = School().time.pace
    function = f"([n, d]) => bare(sharing.length.reckonedLength(n, d, sharing.handbook.time, {as_json(look_first)}))"
    for division, answer in zip(divisions, engine.answers(function, divisions), strict=True):
        assert answer == as_json(lesson_length(share(*division, look_first=look_first), pace)), division


def test_what_is_special_what_is_needed_and_lacking_and_how_long_it_takes(engine: Engine) -> None:
    """Features, needs, shortages, and the places where a round cannot be finished: values in order, without names."""
    chance = Random(16)
    divisions = [(chance.randint(0, 10 ** chance.randint(1, 4)), chance.randint(1, 12), False) for _ in range(300)]
    divisions += [(chance.randint(0, 9_999), chance.choice(RIBBON_DIVISORS), True) for _ in range(300)]
    school = School()
    pace = school.time.pace
    answers = engine.answers(
        """([n, d, ribbons]) => {
          const division = sharing.division.workOut(n, d, { ribbons });
          const needs = sharing.shelf.needs(division);
          const unfinished = division.stages.map((stage) => stage.unfinished);
          const features = [division.exchanged, ...Object.values(sharing.features.featuresOf(division))];
          const lacking = sharing.shelf.shortages(needs, sharing.handbook.shelf);
          const length = sharing.length.lessonLength(division, sharing.handbook.time);
          return bare([features, needs, lacking, unfinished, length]);
        }""",
        divisions,
    )
    for (dividend, divisor, ribbons), answer in zip(divisions, answers, strict=True):
        sharing = share(dividend, divisor, ribbons=ribbons)
        unfinished = [stage.unfinished for stage in sharing.stages]
        special = features_of(sharing)
        features = [sharing.exchanged, special.zeros_inside_quotient, special.zeros_at_quotient_end]
        taken = needs(sharing)
        expected = [features, taken, shortages(taken, school.shelf.owned), unfinished, lesson_length(sharing, pace)]
        assert answer == as_json(expected), (dividend, divisor)
