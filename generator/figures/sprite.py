"""One file with every piece in every look, and the bows, for scripts and style sheets.

A part of it is shown by its name: `<img src="figures/sprite.svg#square-full">`, or the same address as a background.
"""

from collections.abc import Iterator

from generator.engine.places import HUNDREDS, TENS, THOUSANDS, UNITS
from generator.figures.draw import draw
from generator.figures.formats import WIDE
from generator.figures.lattice import in_the_middle
from generator.figures.shapes import HERE, Bow, Look, Mark, Part, Pieces, footprint

_SHAPES = {THOUSANDS: "cube", HUNDREDS: "square", TENS: "bar", UNITS: "bead"}
_BOWS = {"bow-ten": TENS, "bow-hundred": HUNDREDS}
_CELL = 70.0
_EDGES = 1.0  # the room for them on each side
_BOW = 24.0  # its width
_GONE = "[id$=dotted] path{stroke:var(--muted)!important;stroke-width:1.2px!important;vector-effect:non-scaling-stroke}"
"""What has gone is seen by its outline alone: that stays as strong where a page shows a piece much smaller."""


def sprite() -> bytes:
    """Pieces as large as in a wide figure of few; each view is as wide and high as its piece with its edges."""
    rows = [*_rows()]
    marks: list[Mark] = []
    views = ""
    for row, shown in enumerate(rows):
        for column, (name, part) in enumerate(shown):
            x, y = column * _CELL, row * _CELL
            marks += part.at(x, y)
            views += f'<view id="{name}" viewBox="{x:g} {y:g} {part.width:.1f} {part.height:.1f}"/>'
    side = _CELL * len(rows)  # there are fewer columns
    drawn = draw(Part(side, side, tuple(marks)), ground="")
    return drawn.replace(b"</style>", _GONE.encode() + b"</style>").replace(b"</svg>", views.encode() + b"</svg>")


def _rows() -> Iterator[list[tuple[str, Part]]]:
    """Every piece in a row of its looks, and the bows; each with its name."""
    for place, shape in _SHAPES.items():
        size = in_the_middle(place, 1, WIDE.pitch).size
        wide, high = (length + 2 * _EDGES for length in footprint(place, size))
        yield [
            (f"{shape}-{look}", Part(wide, high, (Pieces(_EDGES, _EDGES, shape, place, size, HERE, look),)))
            for look in Look
        ]
    bows = {name: Bow(_BOW / 2 + _EDGES, 0.4 * _BOW, _BOW, width) for name, width in _BOWS.items()}
    yield [(name, Part(_BOW + 2 * _EDGES, _BOW, (bow,))) for name, bow in bows.items()]
