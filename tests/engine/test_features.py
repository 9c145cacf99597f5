"""What is special about a division: one example of each kind, worked by hand. Plain kinds are checked for every
division up to 9,999 by arithmetic alone in test_every_division.py.
"""

from typing import Any

import pytest

from generator.engine.features import features_of
from generator.engine.sharing import share

UNITS, TENS, HUNDREDS, THOUSANDS = range(4)

EXAMPLES: list[tuple[int, int, bool, dict[str, Any]]] = [
    (9636, 3, False, {"exchange_from": (), "remainder": 0}),
    (9631, 3, False, {"exchange_from": (), "remainder": 1}),
    (4852, 4, False, {"exchange_from": (TENS,), "remainder": 0}),
    (5648, 4, False, {"exchange_from": (THOUSANDS,)}),
    (5372, 4, False, {"exchange_from": (THOUSANDS, HUNDREDS, TENS)}),
    (8059, 5, False, {"exchange_from": (THOUSANDS,), "remainder": 4}),
    (8024, 4, False, {"zeros_in_dividend": (HUNDREDS,), "zeros_inside_quotient": (HUNDREDS, TENS)}),
    (4800, 4, False, {"zeros_in_dividend": (TENS, UNITS), "zeros_at_quotient_end": (TENS, UNITS)}),
    (4030, 3, False, {"zeros_inside_quotient": (), "remainder": 1}),
    (1236, 12, False, {"highest_place_short": True, "places_short": (THOUSANDS, TENS)}),
    (3, 5, False, {"quotient": 0, "places_short": (UNITS,), "zeros_at_quotient_end": ()}),
    (0, 5, False, {"quotient": 0, "highest_place_short": False, "zeros_in_dividend": (), "exchange_from": ()}),
    (3432, 12, True, {"exchange_from": (THOUSANDS, HUNDREDS, TENS), "highest_place_short": False}),
    (3636, 12, True, {"exchange_from": (), "remainder": 0, "zeros_inside_quotient": (TENS,)}),
    (640, 20, True, {"exchange_from": (), "zeros_in_dividend": (UNITS,)}),
    (5100, 102, True, {"exchange_from": (HUNDREDS,), "zeros_at_quotient_end": (UNITS,)}),
    (1120, 35, True, {"highest_place_short": True, "places_short": (HUNDREDS,)}),
    (7, 12, True, {"quotient": 0, "remainder": 7}),
]


@pytest.mark.parametrize(("dividend", "divisor", "ribbons", "expected"), EXAMPLES)
def test_features(dividend: int, divisor: int, ribbons: bool, expected: dict[str, Any]) -> None:
    sharing = share(dividend, divisor, ribbons=ribbons)
    found = {**features_of(sharing)._asdict(), "quotient": sharing.quotient, "remainder": sharing.remainder}
    assert {name: found[name] for name in expected} == expected
