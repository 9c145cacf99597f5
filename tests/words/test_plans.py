"""A place on one sheet: every sentence of the guide once and where it belongs, the hands between them.

Own reasoning, no source.
"""

from itertools import islice

import pytest

from generator.engine.sharing import share
from generator.words.phrases import Phrases
from generator.words.plans import course
from generator.words.spoken import GUIDE, said_at
from tests.engine.divisions import divisions, divisions_with_ribbons
from tests.sampling import times

WORDS = Phrases("en")

AT_THE_LAST_PLACE = {
    (7, 4, False, False): [
        "«There are only units: one to every tray, in turn.»",
        "Round 1: one unit to each.",
        "Start the next round: it reaches only 3 of the 4 trays.",
        "«There is not one for everybody. This round is not finished, so it comes back to the middle.»",
        "Take it back.",
        "«Three units do not go round. They are left over.»",
        "Keep apart what is left over: 3 units.",
    ],
    (7, 4, False, True): [
        "«There are only units: one to every tray, in turn.»",
        "Round 1: one unit to each.",
        "«There is not one for everybody, so nobody gets one now.»",
        "«Three units do not go round. They are left over.»",
        "Keep apart what is left over: 3 units.",
    ],
    (1222, 12, True, False): [
        "«And now the child for ten gets one ten and each child for one gets one unit.»",
        "Round 1: one ten to the child for 10 and one unit to each child for 1.",
        "Start the next round: it reaches only 1 of the 3 trays.",
        "«This round stops before the last tray. Back to the middle with it.»",
        "Take it back.",
        "«Not every child can be given the right piece now. Left over: one ten.»",
        "Keep apart what is left over: 1 ten.",
    ],
    (1250, 12, True, False): [
        "«There are no units. One ten goes to the bank for some.»",
        "Change 1 ten for 10 units.",
        "«And now the child for ten gets one ten and each child for one gets one unit.»",
        "Rounds 1 to 4: one ten to the child for 10 and one unit to each child for 1.",
        "«Not every child can be given the right piece now. Left over: two units.»",
        "Keep apart what is left over: 2 units.",
    ],
}


def told(dividend: int, divisor: int, *, ribbons: bool, look_first: bool) -> list[list[str]]:
    sharing = share(dividend, divisor, ribbons=ribbons, look_first=look_first)
    places = (course(WORDS, stage, sharing) for stage in sharing.stages)
    return [[line if isinstance(line, str) else f"«{line.text}»" for line in place] for place in places]


@pytest.mark.parametrize(("division", "lines"), AT_THE_LAST_PLACE.items())
def test_what_is_said_stands_where_it_is_said(division: tuple[int, int, bool, bool], lines: list[str]) -> None:
    dividend, divisor, ribbons, look_first = division
    assert told(dividend, divisor, ribbons=ribbons, look_first=look_first)[-1] == lines


def test_where_nothing_can_be_given_the_guide_says_so_and_no_hand_moves() -> None:
    """Of 1,210 among 12 with ribbons, a ten is left at the tens and no hundred for the child for ten."""
    _, tens, _ = told(1210, 12, ribbons=True, look_first=False)
    assert tens == ["«A child for ten would get one hundred. There are none, so we go on.»"]


@pytest.mark.parametrize("ribbons", [False, True])
@pytest.mark.parametrize("look_first", [False, True])
def test_every_sentence_of_the_guide_is_told_once_and_in_order(ribbons: bool, look_first: bool) -> None:
    chosen = divisions_with_ribbons(29) if ribbons else divisions(29)
    for dividend, divisor in islice(chosen, times(whole=1_000, sampled=100)):
        sharing = share(dividend, divisor, ribbons=ribbons, look_first=look_first)
        for stage in sharing.stages:
            lines = [line for line in course(WORDS, stage, sharing) if not isinstance(line, str)]
            assert lines == [line for line in said_at(WORDS, sharing, stage) if line.who == GUIDE]
