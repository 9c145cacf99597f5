"""Where pieces lie, so that one can count them at a glance: rows of five or ten, with gaps after fives and tens."""

from typing import NamedTuple

from generator.engine.places import HUNDREDS, TENS, THOUSANDS
from generator.figures.shapes import DEPTH, Spot, footprint

_GAP = 0.36


class Lattice(NamedTuple):
    """Places for the pieces of one kind, row by row.

    size: diameter of a bead, length of a bar, side of a square, edge of a cube's front
    across: pieces in a row; `pitch` from one to the next, and `gap` more after five
    row: from one row to the next; `gap` more after `rows` of them
    """

    place: int
    size: float
    across: int
    pitch: float
    row: float
    rows: int
    gap: float

    def spot(self, index: int) -> Spot:
        """The corner of a piece, the first at 0, 0."""
        down, right = divmod(index, self.across)
        return right * self.pitch + right // 5 * self.gap, down * self.row + down // self.rows * self.gap

    def spots(self, first: int, count: int) -> tuple[Spot, ...]:
        return tuple(self.spot(index) for index in range(first, first + count))

    def width(self, count: int) -> float:
        return self.spot(min(count, self.across) - 1)[0] + footprint(self.place, self.size)[0] if count else 0.0

    def height(self, count: int) -> float:
        return self.spot(count - 1)[1] + footprint(self.place, self.size)[1] if count else 0.0


def in_the_middle(place: int, most: int, pitch: float) -> Lattice:
    """The lattice of a column of the middle in a lesson where at most so many pieces lie there.

    Ten beads, or two tens of bars where there are many, fill the column; `pitch` is the room of one bead.
    """
    gap = _GAP * pitch
    if place == THOUSANDS:
        return Lattice(place, 1.86 * pitch / (1 + DEPTH), 5, 2.04 * pitch, 2.04 * pitch, 2, gap)
    if place == HUNDREDS:
        if most <= 20:
            return Lattice(place, 1.74 * pitch, 5, 2.04 * pitch, 1.98 * pitch, 2, gap)
        return Lattice(place, 0.88 * pitch, 10, pitch, pitch, 5, gap)
    if place == TENS:
        if most <= 20:
            long = (4.1 if most <= 10 else 3.3) * pitch
            return Lattice(place, long, 10, pitch, long + gap, 1, 0.8 * gap)
        long = (3.2 if most <= 60 else 2.2) * pitch
        return Lattice(place, long, 20, 0.465 * pitch, long + gap, 5, 0.6 * gap)
    return Lattice(place, 0.86 * pitch, 10, pitch, pitch, 5, gap)


def on_a_tray(place: int, most: int, pitch: float, height: float) -> Lattice:
    """The lattice of a tray's column: one row of pieces, of which every tray of the lesson holds at most so many."""
    gap = _GAP * pitch
    few = most <= 4
    if place == THOUSANDS:
        size = min(height - 7, (1.6 if few else 1.07) * pitch) / (1 + DEPTH)
        return Lattice(place, size, 10, (1.8 if few else 1.09) * pitch, height, 1, gap)
    if place == HUNDREDS:
        size = min(height - 9, (1.4 if few else 0.92) * pitch)
        return Lattice(place, size, 10, (1.6 if few else 1.0) * pitch, height, 1, gap)
    if place == TENS:
        return Lattice(place, height - 8, 10, 0.66 * pitch, height, 1, gap)
    return Lattice(place, min(height - 8, 0.86 * pitch), 10, pitch, height, 1, gap)


def one_row(place: int, count: int, width: float, height: float) -> Lattice:
    """So many pieces in one row, as large as the room allows."""
    size = height / (1 + DEPTH) if place == THOUSANDS else height
    wide = footprint(place, size)[0]
    if place != TENS and count * 1.12 * wide > width:
        size *= width / (count * 1.12 * wide)
        wide = footprint(place, size)[0]
    pitch = min(1.12 * wide + (3 if place == TENS else 0), width / count)
    return Lattice(place, size, count, pitch, height, 1, 0.0)
