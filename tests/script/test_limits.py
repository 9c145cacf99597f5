"""Pages ask for no other numbers and groups than the engine's limits allow."""

import json

from generator.engine.limits import LARGEST_DIVIDEND, LARGEST_DIVISOR, MOST_CHILDREN
from generator.engine.places import Counts
from tests.script.engine import Engine


def test_the_limits_of_pages_are_those_of_the_engine(engine: Engine) -> None:
    is_number = engine.answers("sharing.limits.isNumber", range(LARGEST_DIVIDEND + 2))
    assert [json.loads(answer) for answer in is_number] == [False, *[True] * LARGEST_DIVIDEND, False]
    groups = "(n) => [false, true].map((ribbons) => sharing.limits.isGroup(n, ribbons))"
    for number, answer in enumerate(engine.answers(groups, range(LARGEST_DIVISOR + 2))):
        with_ribbons = 10 <= number <= LARGEST_DIVISOR and 2 <= Counts.of(number).pieces <= MOST_CHILDREN
        assert json.loads(answer) == [2 <= number <= MOST_CHILDREN, with_ribbons], number
