"""The drawings of a figure: for wide screens and paper, for phones, and small for plans. Lengths are CSS pixels."""

from typing import NamedTuple


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


WIDE = Format(
    narrow=False,
    rail=108,
    column=161,
    pad=8,
    end=8,
    bow=22,
    sheet=700,
    text=14.5,
    counts=18.5,
    digit=22,
    pitch=14,
    head=30,
    bank=58,
    lane=30,
    label=36,
    share=34,
    title=0,
    rows=(38, 34, 24),
)

NARROW = Format(
    narrow=True,
    rail=22,
    column=85,
    pad=5.5,
    end=4,
    bow=0,
    sheet=366,
    text=12.5,
    counts=15.5,
    digit=19,
    pitch=7.1,
    head=25,
    bank=40,
    lane=23,
    label=25,
    share=26,
    title=18,
    rows=(25, 25, 18),
)

SMALL = NARROW._replace(  # a plan shows neither bank nor share
    rail=18,
    column=72,
    pad=5,
    text=10.5,
    counts=12,
    pitch=5,
    head=20,
    lane=16,
    label=19,
    title=13,
    rows=(17, 17, 17),
)
