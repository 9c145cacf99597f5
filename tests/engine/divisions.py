"""Divisions that tests are tried with, made up by chance: without end, and the same for the same seed."""

from collections.abc import Iterator
from random import Random

LARGEST = 9_999
MOST_CHILDREN = 12
RIBBON_DIVISORS = [divisor for divisor in range(10, 1_000) if sum(map(int, str(divisor))) <= MOST_CHILDREN]
"""Every divisor of two or three digits that so many children can stand for."""


def divisions(seed: int) -> Iterator[tuple[int, int]]:
    """One to twelve children, with many zeros in number and share."""
    chance = Random(seed)
    while True:
        yield from _with_zeros(chance, chance.randint(1, MOST_CHILDREN))


def divisions_with_ribbons(seed: int) -> Iterator[tuple[int, int]]:
    """Divisors of two or three digits, with many zeros in number and share."""
    chance = Random(seed)
    while True:
        yield from _with_zeros(chance, chance.choice(RIBBON_DIVISORS))


def _with_zeros(chance: Random, divisor: int) -> Iterator[tuple[int, int]]:
    """A number with zeros, and one whose share has the same, as far as there are pieces for it."""
    number = number_with_zeros(chance)
    yield number, divisor
    while number * divisor > LARGEST:
        number //= 10
    yield number * divisor + chance.randrange(divisor), divisor


def number_with_zeros(chance: Random) -> int:
    """Up to four digits; a zero is five times as likely as each of the others."""
    return int("".join(chance.choices("0123456789", (5, *[1] * 9), k=chance.randint(1, 4))))
