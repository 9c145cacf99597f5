"""Whole numbers as a school writes them."""

from __future__ import annotations

from typing import NamedTuple


class Grouping(NamedTuple):
    """The mark between the thousands and the hundreds of a number, and whether numbers of four digits have it too.

    Source: a space in threes, and none needed with four digits, is the SI Brochure 5.4.4; the comma is
    the use of classrooms in the United States.
    """

    mark: str = ","
    in_four_digits: bool = True

    def written(self, number: int) -> str:
        """5,230 or 5 230; with no mark in four digits 5230."""
        return f"{number:,}".replace(",", self.mark) if self.in_four_digits or number >= 10_000 else str(number)
