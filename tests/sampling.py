"""How much is tested: a fair sample within three minutes or, with WHOLE=1 in the environment, everything.

Tests of very many cases call `sample` or `times`, so that they say themselves what a sample of them is.
"""

import os
from collections.abc import Iterable
from typing import TypeVar

import pytest

Item = TypeVar("Item")

WHOLE = os.environ.get("WHOLE") == "1"

only_in_a_whole_run = pytest.mark.only_in_a_whole_run
"""In a sample other tests of the same file stand for these."""


def sample(items: Iterable[Item], most: int) -> list[Item]:
    """The first item, the last, and others evenly spread between them, `most` in all; every one in a whole run."""
    every = list(items)
    return every if WHOLE else spread(every, most)


def times(whole: int, sampled: int) -> int:
    """How often to do what is done again and again."""
    return whole if WHOLE else sampled


def spread(items: list[Item], most: int) -> list[Item]:
    if len(items) <= most:
        return items
    if most == 1:
        return items[-1:]
    return [items[number * (len(items) - 1) // (most - 1)] for number in range(most)]
