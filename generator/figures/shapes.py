"""What a figure is made of: frozen marks on a sheet, and parts put beside and below each other.

Lengths are units of a sheet that is WIDTH units wide; x grows to the right, y downwards. Every mark has
its own x and y, and everything else in it is measured from there. Marks are moved to their places once, when the
whole sheet is there: parts that are tried out and not taken, or only measured, cost little.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from generator.engine.places import place_name

WIDTH = 560.0
MARGIN = 12.0
INSIDE = WIDTH - 2 * MARGIN

Spot = tuple[float, float]
HERE: tuple[Spot, ...] = ((0.0, 0.0),)


class Pieces(NamedTuple):
    """Pieces of one kind that belong together: those of a `group` such as "middle", "tray-3" or "to-bank".

    size: diameter of a bead, length of a bar, side of a square, edge of a cube
    spots: the top left corner of every piece
    pale: drawn quietly, because they were there before
    """

    x: float
    y: float
    group: str
    place: int
    size: float
    spots: tuple[Spot, ...]
    pale: bool = False

    @property
    def gid(self) -> str:
        """The name in the drawing: 'tray-3-hundreds'."""
        return f"{self.group}-{place_name(self.place)}"


class Boxes(NamedTuple):
    """Rectangles of one size with round corners, at every spot; colours are names of generator.figures.look."""

    x: float
    y: float
    spots: tuple[Spot, ...]
    width: float
    height: float
    fill: str
    edge: str = ""
    line: float = 1.0
    radius: float = 6.0


class Label(NamedTuple):
    """One line of text; y is its base line, `anchor` is start, middle or end."""

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
    """The bow of a ribbon, `size` wide, its knot at x, y."""

    x: float
    y: float
    size: float
    colour: str


Mark = Pieces | Boxes | Label | Stroke | Bow


@dataclass(frozen=True)
class Figure:
    """A whole picture, ready to be drawn: marks in drawing order on a sheet of width x height."""

    width: float
    height: float
    marks: tuple[Mark, ...]


class Placed(NamedTuple):
    """Marks that have their own corner at x, y."""

    x: float
    y: float
    marks: tuple[Mark | Placed, ...]


class Part(NamedTuple):
    """A piece of a picture with its own corner at 0, 0."""

    width: float
    height: float
    marks: tuple[Mark | Placed, ...]

    def at(self, x: float, y: float) -> Placed:
        return Placed(x, y, self.marks)


def beside(parts: Sequence[Part], gap: float) -> Part:
    """Parts in a row, their upper edges level."""
    marks: list[Placed] = []
    x = 0.0
    for part in parts:
        marks.append(part.at(x, 0))
        x += part.width + gap
    return Part(max(x - gap, 0), max((part.height for part in parts), default=0), tuple(marks))


def below(parts: Iterable[Part], gap: float) -> Part:
    """Parts under each other, their left edges level; parts without height are left out."""
    marks: list[Placed] = []
    width = y = 0.0
    for part in parts:
        if part.height:
            marks.append(part.at(0, y))
            y += part.height + gap
            width = max(width, part.width)
    return Part(width, max(y - gap, 0), tuple(marks))


def in_lines(parts: Sequence[Part], width: float, gap: float) -> list[Part]:
    """Parts one after the other, in as many lines as it takes."""
    lines: list[Part] = []
    for part in parts:
        if lines and lines[-1].width + gap + part.width <= width:
            lines[-1] = beside([lines[-1], part], gap)
        else:
            lines.append(part)
    return lines


def framed(part: Part, width: float, pad: float, fill: str, edge: str = "", line: float = 1.0) -> Part:
    """A part on a panel of the given width."""
    height = part.height + 2 * pad
    return Part(width, height, (Boxes(0, 0, HERE, width, height, fill, edge, line), part.at(pad, pad)))


def text(words: str, size: float, colour: str = "ink", bold: bool = False) -> Part:
    """One line of text as a part, with the room that a wide font needs."""
    width = len(words) * size * (0.64 if bold else 0.57)
    return Part(width, size * 1.25, (Label(0, size, words, size, colour, bold),))


def sheet(part: Part) -> Figure:
    """A part on its sheet of paper, centred."""
    height = part.height + 2 * MARGIN
    return Figure(WIDTH, round(height, 1), tuple(_on_sheet(part.at((WIDTH - part.width) / 2, MARGIN))))


def _on_sheet(placed: Placed, x: float = 0, y: float = 0) -> Iterator[Mark]:
    """All marks where they come to lie, if the corner that everything is measured from is at x, y."""
    x, y = x + placed.x, y + placed.y
    for mark in placed.marks:
        if isinstance(mark, Placed):
            yield from _on_sheet(mark, x, y)
        else:
            yield mark._replace(x=mark.x + x, y=mark.y + y)
