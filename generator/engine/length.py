"""How long a lesson takes, from setting out to putting away, by how long things take in a school: planning values."""

from math import ceil
from typing import NamedTuple

from generator.engine.sharing import Sharing
from generator.engine.shelf import needs

_ROUNDED_UP_TO = 5  # minutes


class Pace(NamedTuple):
    """How long things take: seconds for one piece moved, what is said at one place, one walk to the bank and back and
    one card fetched; minutes for setting out, for the check and for putting away."""

    seconds_per_handling: float
    seconds_of_words: int
    seconds_per_walk: int
    seconds_per_card: int
    minutes_to_set_out: int
    minutes_to_check: int
    minutes_to_put_away: int


class Length(NamedTuple):
    """Minutes of a whole lesson, rounded up to five, and of handling pieces, which is part of it, rounded up to one."""

    lesson: int
    handling: int


def lesson_length(sharing: Sharing, pace: Pace) -> Length:
    """The length of one lesson. Every exchange is a walk; large cards and every child's small cards are fetched."""
    needed = needs(sharing)
    cards = len(needed.large_cards) + sum(child.sharers * len(child.cards) for child in needed.small_cards)
    handling = sharing.handlings * pace.seconds_per_handling
    seconds = (
        handling
        + len(sharing.stages) * pace.seconds_of_words
        + sharing.exchanges * pace.seconds_per_walk
        + cards * pace.seconds_per_card
    )
    minutes = seconds / 60 + pace.minutes_to_set_out + pace.minutes_to_check + pace.minutes_to_put_away
    return Length(_ROUNDED_UP_TO * ceil(minutes / _ROUNDED_UP_TO), ceil(handling / 60))
