"""One file with every piece in every look, and the bows, for scripts and style sheets.

A part of it is shown by its name: `<img src="figures/sprite.svg#square-full">`, or the same address as a background.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from generator.engine.places import HUNDREDS, TENS, THOUSANDS, UNITS
from generator.figures.draw import draw
from generator.figures.formats import WIDE
from generator.figures.lattice import in_the_middle
from generator.figures.shapes import HERE, Bow, Figure, Look, Mark, Pieces, footprint
from generator.figures.style import ribbon_colour

_SHAPES = {THOUSANDS: "cube", HUNDREDS: "square", TENS: "bar", UNITS: "bead"}
_CELL = 70.0
_ROOM_FOR_EDGES = 1.0
_BOW = 24.0
_GONE = "[id$=dotted] path{stroke:var(--muted)!important;stroke-width:1.2px!important;vector-effect:non-scaling-stroke}"
"""What has gone is seen by its outline alone: that stays as strong where a page shows a piece much smaller."""


class Window(NamedTuple):
    """A part of the sprite: its name, its marks, and the window on them."""

    name: str
    mark: Mark
    x: float
    y: float
    width: float
    height: float


def sprite() -> bytes:
    """Pieces as large as in a wide figure of few; each view is as wide and high as its piece with its edges."""
    views = [*_pieces(), *_bows()]
    size = _CELL * max(len(Look), len(_SHAPES) + 1)
    drawn = draw(Figure(size, size, tuple(view.mark for view in views), ground=""))
    windows = "".join(
        f'<view id="{view.name}" viewBox="{view.x:g} {view.y:g} {view.width:.1f} {view.height:.1f}"/>' for view in views
    )
    return drawn.replace(b"</style>", _GONE.encode() + b"</style>").replace(b"</svg>", windows.encode() + b"</svg>")


def _pieces() -> Iterator[Window]:
    for row, (place, shape) in enumerate(_SHAPES.items()):
        size = in_the_middle(place, 1, WIDE.pitch).size
        wide, high = (length + 2 * _ROOM_FOR_EDGES for length in footprint(place, size))
        for column, look in enumerate(Look):
            x, y = column * _CELL, row * _CELL
            mark = Pieces(x + _ROOM_FOR_EDGES, y + _ROOM_FOR_EDGES, shape, place, size, HERE, look)
            yield Window(f"{shape}-{look}", mark, x, y, wide, high)


def _bows() -> Iterator[Window]:
    y = len(_SHAPES) * _CELL
    for column, (name, width) in enumerate((("bow-ten", TENS), ("bow-hundred", HUNDREDS))):
        x = column * _CELL
        mark = Bow(x + _BOW / 2 + _ROOM_FOR_EDGES, y + 0.4 * _BOW, _BOW, ribbon_colour(width))
        yield Window(name, mark, x, y, _BOW + 2 * _ROOM_FOR_EDGES, _BOW)
