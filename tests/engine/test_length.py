"""The length of a lesson, worked by hand."""

import pytest

from generator.engine.length import Length, Pace, lesson_length
from generator.engine.sharing import Sharing, share

PACE = Pace(3.0, 30, 15, 5, 4, 4, 4)
NO_TIME = Pace(0.5, 0, 0, 0, 0, 0, 0)


@pytest.mark.parametrize(
    ("sharing", "pace", "length", "why"),
    [
        (share(5230, 4), PACE, Length(25, 6), "112 x 3 + 4 x 30 + 4 x 15 + (3 + 4 x 3) x 5 = 591 s, and 12 minutes"),
        (share(5230, 4, look_first=True), PACE, Length(25, 5), "100 x 3 instead of 112 x 3: 555 s, and 12 minutes"),
        (share(96, 3), PACE, Length(20, 2), "(15 + 15) x 3 + 2 x 30 + (2 + 3 x 2) x 5 = 190 s, and 12 minutes"),
        (share(3, 5), PACE, Length(15, 1), "12 x 3 + 30 + 5 = 71 s, and 12 minutes: nobody fetches a card"),
        (share(3432, 12, ribbons=True), NO_TIME, Length(5, 1), "up to the next five, and to the next minute"),
    ],
)
def test_worked_by_hand(sharing: Sharing, pace: Pace, length: Length, why: str) -> None:
    assert lesson_length(sharing, pace) == length, why


@pytest.mark.parametrize(
    "longer",
    [
        PACE._replace(seconds_of_words=120),
        PACE._replace(seconds_per_walk=120),
        PACE._replace(seconds_per_card=60),
        PACE._replace(minutes_to_set_out=9),
        PACE._replace(minutes_to_check=9),
        PACE._replace(minutes_to_put_away=9),
    ],
)
def test_every_part_makes_a_lesson_longer_and_none_the_handling(longer: Pace) -> None:
    before, after = lesson_length(share(5230, 4), PACE), lesson_length(share(5230, 4), longer)
    assert after.lesson > before.lesson
    assert after.handling == before.handling
