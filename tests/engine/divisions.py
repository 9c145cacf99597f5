"""Divisions that tests are tried with, made up by chance: without end, and the same for the same seed."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

MOST_CHILDREN = 12
RIBBON_DIVISORS = [divisor for divisor in range(10, 1_000) if sum(map(int, str(divisor))) <= MOST_CHILDREN]
"""Every divisor of two or three digits that so many children can stand for."""


def divisions(seed: int) -> Iterator[tuple[int, int]]:
    """Numbers up to 9,999 and one to twelve children, with many zeros in number and share."""
    chance = Random(seed)
    while True:
        children = chance.randint(1, MOST_CHILDREN)
        number = number_with_zeros(chance)
        yield number, children
        while number * children > 9_999:
            number //= 10
        yield number * children + chance.randrange(children), children


def divisions_with_ribbons(seed: int) -> Iterator[tuple[int, int]]:
    """Numbers up to 9,999 with many zeros, and divisors of two or three digits."""
    chance = Random(seed)
    while True:
        yield number_with_zeros(chance), chance.choice(RIBBON_DIVISORS)


def number_with_zeros(chance: Random) -> int:
    """Up to four digits; a zero is five times as likely as each of the others."""
    return int("".join(chance.choices("0123456789", (5, *[1] * 9), k=chance.randint(1, 4))))
