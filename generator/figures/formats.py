"""The drawings of a figure: for wide screens and paper, for phones, and small for plans.

Their measures stand in formats.toml; lengths are CSS pixels.
"""

import tomllib
from pathlib import Path
from typing import Any, NamedTuple


class Format(NamedTuple):
    """The measures that all figures of a format share. Place columns lie side by side, right of the rail.

    rail: width of the names of the rows, at the left
    column, pad: width of a place column, and from its edge to the pieces
    end: width beyond the units column
    bow: width of a ribbon's bow at the end of a tray; 0 where it lies in the rail
    sheet: width of a figure that has no place columns
    text, counts, digit: sizes of type: words, counts in the middle, digits of the share
    pitch: from one bead of a ten to the next
    head, bank, lane, label, share: heights of the rows, from the top down; `label` is that of the counts in the middle
    title: height of the line that names bank and middle above their slots; 0 where the rail has room for the name
    rows: heights of a tray among up to four, up to six, and more trays
    """

    narrow: bool
    rail: float
    column: float
    pad: float
    end: float
    bow: float
    sheet: float
    text: float
    counts: float
    digit: float
    pitch: float
    head: float
    bank: float
    lane: float
    label: float
    share: float
    title: float
    rows: tuple[float, float, float]

    def width(self, places: int, ribbons: bool) -> float:
        """How wide a figure with so many place columns is; with ribbons it has room for the bows as well."""
        return self.rail + places * self.column + self.end + (self.bow if ribbons else 0)

    def x(self, place: int, places: int) -> float:
        """The left edge of a place column, counted from the left edge of the figure."""
        return self.rail + (places - 1 - place) * self.column

    @property
    def inset(self) -> float:
        """How far below the top of bank or middle their slots begin: beneath their name, or beside it."""
        return self.title + (2 if self.title else 5)


def _format(measures: dict[str, Any]) -> Format:
    return Format(**measures | {"rows": tuple(measures["rows"])})


_FORMATS = tomllib.loads(Path(__file__).with_name("formats.toml").read_text("utf-8"))
WIDE = _format(_FORMATS["wide"])
NARROW = _format(_FORMATS["narrow"])
SMALL = _format(_FORMATS["narrow"] | _FORMATS["small"])
