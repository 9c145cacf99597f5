"""Divisions that figures are tested with: (dividend, divisor, with ribbons)."""

from __future__ import annotations

from generator.engine.sharing import Sharing, share
from generator.words.phrases import Phrases

WORDS = Phrases("en")

SHOWN = (
    (5230, 4, False),
    (6963, 3, False),
    (8059, 5, False),
    (408, 4, False),
    (5005, 5, False),
    (9999, 12, False),
    (1199, 12, False),
    (1, 12, False),
    (7, 12, False),
    (0, 3, False),
    (9999, 1, False),
    (7000, 7, False),
    (3432, 12, True),
    (9999, 21, True),
    (4680, 20, True),
    (2856, 102, True),
    (4741, 101, True),
    (9999, 234, True),
    (8090, 271, True),
    (5551, 118, True),
    (7, 12, True),
    (96, 100, True),
)

PLAIN = tuple(
    (dividend, sharers, False) for sharers in range(1, 13) for dividend in (9, 60, 305, 1008, 2470, 7777, 9990)
)


def worked(case: tuple[int, int, bool]) -> Sharing:
    dividend, divisor, ribbons = case
    return share(dividend, divisor, ribbons=ribbons)


def name(case: tuple[int, int, bool]) -> str:
    dividend, divisor, ribbons = case
    return f"{dividend}/{divisor}{' ribbons' if ribbons else ''}"
