"""How much is tested: a fair sample within three minutes or, with WHOLE=1 in the environment, everything.

A test that has very many cases says so by calling `sample` or `times`; nothing else in the tests asks which run it is.
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from typing import TypeVar

Item = TypeVar("Item")

WHOLE = os.environ.get("WHOLE") == "1"


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
    return [items[number * (len(items) - 1) // (most - 1)] for number in range(most)]
