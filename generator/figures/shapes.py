"""What a figure is made of: frozen marks, and parts put beside and below each other.

Lengths are CSS pixels; x grows to the right, y downwards. Every mark has its own x and y, and everything else in it is
measured from there.
"""

from collections.abc import Iterable, Sequence
from enum import StrEnum
from typing import NamedTuple

from generator.engine.places import TENS, THOUSANDS, place_name

DEPTH = 0.28  # of a cube, as a part of its front's edge

# About so wide is a letter in the widest common sans-serif; tests lay text out as wide as its font file has it.
_LETTER = {False: 0.565, True: 0.64}

Spot = tuple[float, float]
HERE: tuple[Spot, ...] = ((0.0, 0.0),)


class Look(StrEnum):
    """How pieces are drawn: they have just come, lay there before, or have gone from there."""

    FULL = "full"
    LIGHT = "light"
    DOTTED = "dotted"


class Pieces(NamedTuple):
    """Pieces of one kind that belong together: those of a `group` such as "middle", "trays" or "to-bank".

    size: diameter of a bead, length of a bar, side of a square, edge of a cube's front
    spots: the top left corner of every piece
    """

    x: float
    y: float
    group: str
    place: int
    size: float
    spots: tuple[Spot, ...]
    look: Look = Look.FULL

    @property
    def gid(self) -> str:
        """The name in the drawing: 'trays-hundreds-full'."""
        return f"{self.group}-{place_name(self.place)}-{self.look}"


def footprint(place: int, size: float) -> Spot:
    """The width and height of one piece as it is drawn."""
    if place == TENS:
        return size / 10, size
    if place == THOUSANDS:
        return size * (1 + DEPTH), size * (1 + DEPTH)
    return size, size


class Boxes(NamedTuple):
    """Rectangles of one size with round corners, at every spot; colours are names of generator.figures.style.

    dash: lengths of a dash and of the blank after it, for an edge that is not whole
    """

    x: float
    y: float
    spots: tuple[Spot, ...]
    width: float
    height: float
    fill: str
    edge: str = ""
    line: float = 1.0
    radius: float = 6.0
    dash: tuple[float, float] | None = None


class Label(NamedTuple):
    """One line of text; y is its base line, `anchor` is start or middle."""

    x: float
    y: float
    text: str
    size: float
    colour: str = "ink"
    bold: bool = False
    anchor: str = "start"


class Stroke(NamedTuple):
    """Lines drawn in one go; with `fill` each line is closed and filled."""

    x: float
    y: float
    lines: tuple[tuple[Spot, ...], ...]
    colour: str
    width: float = 1.0
    fill: str = ""


class Bow(NamedTuple):
    """The bow of a ribbon that says ten (`says` 1) or a hundred (2), `size` wide, its knot at x, y."""

    x: float
    y: float
    size: float
    says: int

    @property
    def colour(self) -> str:
        """Its name in the palette. Blue for ten and red for a hundred: common practice, no source."""
        return f"ribbon-{place_name(self.says)}"


Mark = Pieces | Boxes | Label | Stroke | Bow


class Part(NamedTuple):
    """A figure or a piece of one: marks in drawing order, measured from its own corner at 0, 0."""

    width: float
    height: float
    marks: tuple[Mark, ...]

    def at(self, x: float, y: float) -> tuple[Mark, ...]:
        """Its marks, if its corner comes to lie at x, y."""
        return tuple(mark._replace(x=mark.x + x, y=mark.y + y) for mark in self.marks)


def beside(parts: Sequence[Part], gap: float) -> Part:
    """Parts in a row, their upper edges level."""
    marks: list[Mark] = []
    x = 0.0
    for part in parts:
        marks += part.at(x, 0)
        x += part.width + gap
    return Part(x - gap, max(part.height for part in parts), tuple(marks))


def below(parts: Iterable[Part], gap: float) -> Part:
    """Parts under each other, their left edges level; parts without height are left out."""
    marks: list[Mark] = []
    width = y = 0.0
    for part in parts:
        if part.height:
            marks += part.at(0, y)
            y += part.height + gap
            width = max(width, part.width)
    return Part(width, max(y - gap, 0), tuple(marks))


def framed(part: Part, width: float, pad: float, fill: str, edge: str) -> Part:
    """A part on a panel of the given width."""
    height = part.height + 2 * pad
    return Part(width, height, (Boxes(0, 0, HERE, width, height, fill, edge), *part.at(pad, pad)))


def text(words: str, size: float, colour: str = "ink", bold: bool = False) -> Part:
    """One line of text as a part."""
    return Part(text_width(words, size, bold), size * 1.25, (Label(0, size, words, size, colour, bold),))


def text_width(words: str, size: float, bold: bool = False) -> float:
    """The room that a line of text needs in a wide font."""
    return len(words) * size * _LETTER[bold]


def sheet(part: Part) -> Part:
    """A part as a figure of its own, its size to a tenth of a pixel."""
    return part._replace(width=round(part.width, 1), height=round(part.height, 1))
