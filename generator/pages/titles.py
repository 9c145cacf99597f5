"""What a division is called: titles that begin with what differs, and one line of what is new in it."""

from __future__ import annotations

from collections.abc import Callable

from generator.engine.kinds import Kind, kind_of
from generator.engine.sharing import Sharing
from generator.pages.words import listing, names, small_number

Written = Callable[[int], str]


def division_name(sharing: Sharing, written: Written) -> str:
    """'5,230 among four', '3,432 for twelve with ribbons'."""
    who = small_number(sharing.divisor)
    number = written(sharing.dividend)
    return f"{number} for {who} with ribbons" if len(sharing.mat) > 1 else f"{number} among {who}"


def lesson_title(sharing: Sharing, written: Written) -> str:
    """'5,230 among four: exchange out of thousands and tens, two left over'."""
    return f"{division_name(sharing, written)}: {what_happens(sharing)}"


def what_happens(sharing: Sharing) -> str:
    """'exchange out of thousands and tens, two left over', 'shares out as it lies'."""
    kind = kind_of(sharing)
    if kind.nobody_gets_any:
        return "too few to go round, all of it left over"
    return side_by_side([_exchange(kind), *_zeros(kind), *_left_over(kind)])


def side_by_side(items: list[str]) -> str:
    """Parts that stand side by side: no 'and' between them."""
    return ", ".join(filter(None, items))


def _exchange(kind: Kind) -> str:
    if kind.exchange_from:
        return f"exchange out of {names(kind.exchange_from)}"
    return "shares out as it lies" if kind.exact else "no exchange"


def _zeros(kind: Kind) -> list[str]:
    where = [
        *(["inside"] if kind.zeros_inside_quotient else []),
        *(["at the end of"] if kind.zeros_at_quotient_end else []),
    ]
    return [f"a zero {listing(where)} the share"] if where else []


def _left_over(kind: Kind) -> list[str]:
    return [] if kind.exact else [f"{small_number(kind.remainder)} left over"]
