"""What a division is called: titles that begin with what differs, and one line of what is new in it."""

from __future__ import annotations

from collections.abc import Callable

from generator.engine.features import Features, features_of
from generator.engine.sharing import Sharing
from generator.words.numbers import listing, names, small_number

Written = Callable[[int], str]


def division_name(sharing: Sharing, written: Written) -> str:
    """'5,230 among four', '3,432 for twelve with ribbons'."""
    who = small_number(sharing.divisor)
    number = written(sharing.dividend)
    return f"{number} for {who} with ribbons" if sharing.ribbons else f"{number} among {who}"


def lesson_title(sharing: Sharing, written: Written) -> str:
    """'5,230 among four: exchange out of thousands and tens, two left over'."""
    return f"{division_name(sharing, written)}: {', '.join([way_of_sharing(sharing), *_left_over(sharing)])}"


def way_of_sharing(sharing: Sharing) -> str:
    """How it goes until the end: 'exchange out of thousands, a zero inside the share', 'shares out as it lies'."""
    features = features_of(sharing)
    if features.nobody_gets_any:
        return "too few to go round"
    return ", ".join([_exchange(features), *_zeros(features)])


def _exchange(features: Features) -> str:
    if features.exchange_from:
        return f"exchange out of {names(features.exchange_from)}"
    return "shares out as it lies" if features.exact else "no exchange"


def _zeros(features: Features) -> list[str]:
    where = [
        *(["inside"] if features.zeros_inside_quotient else []),
        *(["at the end of"] if features.zeros_at_quotient_end else []),
    ]
    return [f"a zero {listing(where)} the share"] if where else []


def _left_over(sharing: Sharing) -> list[str]:
    if sharing.remainder == 0:
        return []
    return ["all of it left over" if sharing.quotient == 0 else f"{small_number(sharing.remainder)} left over"]
