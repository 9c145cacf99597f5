"""Figures on paper: the only module that knows matplotlib.

There are no Axes: one artist goes straight onto the canvas and hands every mark to the renderer. In the SVG
each `Pieces` mark is a group `<g id="its gid">`, and the first path of the group has exactly one subpath
(one `M`) for every piece: the outline of a bead, bar, square or cube. The beads of a bar and the
grid of a square are dashes of a line, so that a figure stays small.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterable, Sequence
from functools import cache
from typing import Any, Literal

import matplotlib as mpl
import numpy as np
from matplotlib.artist import Artist
from matplotlib.backend_bases import GraphicsContextBase, RendererBase
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure as Canvas
from matplotlib.font_manager import FontProperties
from matplotlib.path import Path
from matplotlib.text import Text
from matplotlib.transforms import Affine2D

from generator.engine.places import HUNDREDS, TENS, UNITS
from generator.figures.packing import DEPTH
from generator.figures.shapes import Bow, Boxes, Figure, Label, Mark, Pieces, Spot, Stroke
from generator.figures.style import COLOURS

_SETTINGS: dict[Any, Any] = {"svg.fonttype": "none", "svg.hashsalt": "sharing", "font.sans-serif": ["sans-serif"]}
_NO_METADATA = {"Date": None, "Creator": None, "Format": None, "Type": None}

_MOVE, _LINE, _CLOSE = int(Path.MOVETO), int(Path.LINETO), int(Path.CLOSEPOLY)
_ANCHORS: dict[str, Literal["left", "center", "right"]] = {"start": "left", "middle": "center", "end": "right"}
_TURNED_BY_NOTHING = re.compile(rb' transform="rotate\(-?0 [^"]*"')
_FINE = 16.0  # squares up to this side carry half a grid
_SMALL_BAR = 30.0  # bars below this length are beads on one dark stick
_EDGE = 1.2
_BLACK = (0.0, 0.0, 0.0)


def draw(figure: Figure) -> bytes:
    """The figure as SVG, the same bytes whatever the machine's settings are.

    Taken out again because they only add weight: the blank and line end after every command of a path, and
    the turn of every label by nothing.
    """
    with mpl.rc_context():
        dict.update(mpl.rcParams, _settings())
        canvas = Canvas(figsize=(figure.width / 72, figure.height / 72), facecolor=COLOURS["paper"])
        FigureCanvasSVG(canvas)
        canvas.add_artist(_Sheet(figure))
        svg = io.BytesIO()
        canvas.savefig(svg, format="svg", facecolor=COLOURS["paper"], metadata=_NO_METADATA)
        return _TURNED_BY_NOTHING.sub(b"", svg.getvalue().replace(b" \n", b""))


@cache
def _settings() -> dict[Any, Any]:
    """The settings of matplotlib itself with ours, checked once: checking all of them takes as long as drawing."""
    with mpl.rc_context():
        mpl.rcdefaults()
        mpl.rcParams.update(_SETTINGS)
        return {name: mpl.rcParams[name] for name in mpl.rcParams if name != "backend"}


@cache
def _font(size: float, bold: bool) -> FontProperties:
    return FontProperties(family="sans-serif", size=size, weight="bold" if bold else "normal")


class _Sheet(Artist):
    """All marks of a figure as one artist."""

    def __init__(self, figure: Figure) -> None:
        super().__init__()
        self._marks = figure.marks
        self._height = figure.height

    def draw(self, renderer: RendererBase) -> None:
        pen = _Pen(renderer, self._height)
        for mark in self._marks:
            _draw_mark(pen, mark)


class _Pen:
    """Draws on a renderer in the coordinates of the sheet, y downwards."""

    def __init__(self, renderer: RendererBase, height: float) -> None:
        self.renderer = renderer
        self._height = height
        self._place = Text()  # tells the renderer where a label is anchored, and nothing else
        self._upright = Affine2D().scale(1, -1).translate(0, height)

    def path(
        self,
        path: Path,
        edge: str = "",
        line: float = 0.0,
        fill: str = "",
        cap: str = "butt",
        dashes: tuple[float, tuple[float, float]] | None = None,
    ) -> None:
        context = self._context(edge)
        context.set_linewidth(line)
        context.set_capstyle(cap)  # type: ignore[arg-type]
        context.set_joinstyle("round")
        if dashes:
            context.set_dashes(*dashes)
        self.renderer.draw_path(context, path, self._upright, mpl.colors.to_rgb(COLOURS[fill]) if fill else None)

    def label(self, label: Label) -> None:
        self._place.set_position((label.x, self._height - label.y))
        self._place.set_horizontalalignment(_ANCHORS[label.anchor])
        context, font = self._context(label.colour), _font(label.size, label.bold)
        self.renderer.draw_text(context, label.x, label.y, label.text, font, 0, False, self._place)

    def _context(self, colour: str) -> GraphicsContextBase:
        context = self.renderer.new_gc()
        context.set_foreground(COLOURS[colour] if colour else _BLACK)
        return context


def _draw_mark(pen: _Pen, mark: Mark) -> None:
    match mark:
        case Pieces():
            pen.renderer.open_group("pieces", mark.gid)
            _PIECES[mark.place](pen, mark, _corners(mark))
            pen.renderer.close_group("pieces")
        case Boxes():
            _draw_boxes(pen, mark)
        case Label():
            pen.label(mark)
        case Stroke():
            lines = [[(mark.x + x, mark.y + y) for x, y in line] for line in mark.lines]
            pen.path(_lines(lines, closed=bool(mark.fill)), mark.colour, mark.width, mark.fill, "round")
        case Bow():
            _draw_bow(pen, mark)


def _lines(lines: Iterable[Sequence[Spot]], closed: bool = False) -> Path:
    """One compound path, a subpath for every line."""
    vertices: list[Spot] = []
    codes: list[int] = []
    for line in lines:
        vertices += line
        codes += [_MOVE, *[_LINE] * (len(line) - 1)]
        if closed:
            vertices.append(line[0])
            codes.append(_CLOSE)
    path = Path(np.round(vertices, 1), codes)
    path.should_simplify = False
    return path


def _draw_boxes(pen: _Pen, boxes: Boxes) -> None:
    """A round corner is the round join of a wide line: the edge first, the fill over it."""
    r = boxes.radius
    wide, high = boxes.width - 2 * r, boxes.height - 2 * r
    path = _lines([_rectangle(x + r, y + r, wide, high) for x, y in _corners(boxes)], closed=True)
    if boxes.edge:
        pen.path(path, boxes.edge, 2 * r + boxes.line, boxes.edge)
    pen.path(path, boxes.fill, 2 * r - (boxes.line if boxes.edge else 0), boxes.fill)


def _corners(mark: Pieces | Boxes) -> list[Spot]:
    return [(mark.x + x, mark.y + y) for x, y in mark.spots]


def _rectangle(x: float, y: float, width: float, height: float) -> tuple[Spot, ...]:
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def _dots(spots: Iterable[Spot]) -> Path:
    """Lines that end where they begin: with round caps they are dots."""
    return _lines([(spot, spot) for spot in spots])


def _inks(pieces: Pieces) -> tuple[str, str]:
    return ("pale edge", "pale") if pieces.pale else ("edge", "gold")


def _draw_beads(pen: _Pen, pieces: Pieces, corners: list[Spot]) -> None:
    edge, fill = _inks(pieces)
    d = pieces.size
    middles = [(x + d / 2, y + d / 2) for x, y in corners]
    dots = _dots(middles)
    pen.path(dots, edge, d, cap="round")
    pen.path(dots, fill, d - max(1.4, 0.2 * d), cap="round")
    if not pieces.pale:
        glints = [(x - 0.14 * d, y - 0.16 * d) for x, y in middles]
        pen.path(_dots(glints), "glint", 0.24 * d, cap="round")


def _draw_bars(pen: _Pen, pieces: Pieces, corners: list[Spot]) -> None:
    edge, fill = _inks(pieces)
    bead = pieces.size / 10
    dots = (0.0, (0.0, bead))
    small = pieces.size < _SMALL_BAR
    last = 9.5 if small else 9.7
    middles = [(x + bead / 2, y) for x, y in corners]
    outline = _lines([((x, y + bead / 2), (x, y + last * bead)) for x, y in middles])
    beads = _lines([((x, y + bead / 2), (x, y + 9.7 * bead)) for x, y in middles])
    pen.path(outline, edge, 1.1 * bead, cap="round", dashes=None if small else dots)
    pen.path(beads, fill, (0.5 if pieces.pale else 0.7) * bead, cap="round", dashes=dots)


def _draw_grid(pen: _Pen, corners: list[Spot], side: float) -> None:
    """Nine lines each way across every square, on a small one upright only: the dashes of one wide line."""
    cell = side / 10
    thin = 0.14 * cell + 0.1
    near, middle, far = _EDGE / 2, side / 2, side - _EDGE / 2
    upright = [((x + near, y + middle), (x + far, y + middle)) for x, y in corners]
    level = [((x + middle, y + near), (x + middle, y + far)) for x, y in corners] if side > _FINE else []
    pen.path(_lines(upright + level), "grid", far - near, dashes=(near + thin / 2, (thin, cell - thin)))


def _draw_squares(pen: _Pen, pieces: Pieces, corners: list[Spot]) -> None:
    edge, fill = _inks(pieces)
    outline = _lines([_rectangle(x, y, pieces.size, pieces.size) for x, y in corners], closed=True)
    pen.path(outline, edge, _EDGE, fill)
    if not pieces.pale:
        _draw_grid(pen, corners, pieces.size)


def _draw_cubes(pen: _Pen, pieces: Pieces, corners: list[Spot]) -> None:
    edge, fill = _inks(pieces)
    a = pieces.size
    d = a * DEPTH
    outline = [
        ((x, y + d), (x + d, y), (x + d + a, y), (x + d + a, y + a), (x + a, y + a + d), (x, y + a + d))
        for x, y in corners
    ]
    tops = [((x, y + d), (x + d, y), (x + d + a, y), (x + a, y + d)) for x, y in corners]
    sides = [((x + a, y + d), (x + d + a, y), (x + d + a, y + a), (x + a, y + a + d)) for x, y in corners]
    pen.path(_lines(outline, closed=True), edge, _EDGE, fill)
    pen.path(_lines(tops, closed=True), edge, 0.8, "pale" if pieces.pale else "light gold")
    pen.path(_lines(sides, closed=True), edge, 0.8, "pale" if pieces.pale else "deep gold")
    if not pieces.pale:
        _draw_grid(pen, [(x, y + d) for x, y in corners], a)


def _draw_bow(pen: _Pen, bow: Bow) -> None:
    x, y, s = bow.x, bow.y, bow.size / 2
    tails = [((x, y), (x - 0.55 * s, y + 0.95 * s)), ((x, y), (x + 0.55 * s, y + 0.95 * s))]
    pen.path(_lines(tails), bow.colour, 0.22 * s, cap="round")
    loops = [((x, y), (x + side * s, y - 0.6 * s), (x + side * s, y + 0.6 * s)) for side in (-1, 1)]
    pen.path(_lines(loops, closed=True), bow.colour, 0.15 * s, bow.colour)
    pen.path(_dots([(x, y)]), "paper", 0.5 * s, cap="round")
    pen.path(_dots([(x, y)]), bow.colour, 0.36 * s, cap="round")


_PIECES = {UNITS: _draw_beads, TENS: _draw_bars, HUNDREDS: _draw_squares, HUNDREDS + 1: _draw_cubes}
