"""What is special about a division: the words by which a guide chooses and orders lessons."""

from typing import NamedTuple

from generator.engine.places import UNITS, Counts
from generator.engine.sharing import Sharing


class Features(NamedTuple):
    """Every tuple holds places, largest first.

    exchange_from: places that send pieces to the bank; none where the division is static, all others are dynamic
    zeros_in_dividend: places of the number that are empty
    zeros_inside_quotient, zeros_at_quotient_end: empty places of the share; none for a share of 0
    places_short: levels with some of the largest pieces that a round takes, but not enough for one round
    highest_place_short: not one piece of the number's highest place can be dealt as it is
    """

    exchange_from: tuple[int, ...]
    zeros_in_dividend: tuple[int, ...]
    zeros_inside_quotient: tuple[int, ...]
    zeros_at_quotient_end: tuple[int, ...]
    places_short: tuple[int, ...]
    highest_place_short: bool


def features_of(sharing: Sharing) -> Features:
    """What is special about a division."""
    stages = sharing.stages
    exchange_from = sharing.exchanged.places_held
    zeros = _zeros(sharing.quotient)
    lowest_held = min(sharing.end.share.places_held, default=UNITS)
    return Features(
        exchange_from=exchange_from,
        zeros_in_dividend=_zeros(sharing.dividend),
        zeros_inside_quotient=tuple(place for place in zeros if place > lowest_held),
        zeros_at_quotient_end=tuple(place for place in zeros if place < lowest_held),
        places_short=tuple(stage.level for stage in stages if stage.unfinished and not stage.rounds),
        highest_place_short=sharing.dividend > 0 and stages[0].rounds == 0,
    )


def _zeros(number: int) -> tuple[int, ...]:
    """The empty places of a number; none for 0."""
    digits = Counts.of(number)
    return tuple(place for place in reversed(range(len(digits))) if number and not digits[place])
