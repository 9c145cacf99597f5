"""Figures on paper: the only module that knows matplotlib.

There is neither canvas nor Axes: every mark is handed to the renderer itself. In the SVG each `Pieces` mark is a group
`<g id="its gid">`, and the first path of the group has exactly one subpath (one `M`) for every piece: the outline of a
bead, bar, square or cube. The beads of a bar and the grid of a square are dashes of a line, so that a figure stays
small. A colour is drawn as a number that stands for its name, and becomes a CSS variable at the end.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterable, Sequence
from functools import cache
from typing import Any

import matplotlib as mpl
import numpy as np
from matplotlib.backend_bases import GraphicsContextBase
from matplotlib.backends.backend_svg import RendererSVG
from matplotlib.path import Path
from matplotlib.transforms import Affine2D

from generator.engine.places import HUNDREDS, TENS, THOUSANDS, UNITS
from generator.figures.shapes import DEPTH, HERE, Bow, Boxes, Figure, Label, Look, Mark, Pieces, Spot, Stroke
from generator.figures.style import LIGHT, style_sheet

_SETTINGS: dict[Any, Any] = {"svg.hashsalt": "sharing"}
_NO_METADATA = {"Date": None, "Creator": None, "Format": None, "Type": None}

_MOVE, _LINE, _CURVE, _CLOSE = int(Path.MOVETO), int(Path.LINETO), int(Path.CURVE3), int(Path.CLOSEPOLY)
_SIZE_IN_POINTS = re.compile(r'(width|height)="([\d.]+)pt"')
_STYLE = re.compile(r'<style type="text/css">(.*?)</style>', re.DOTALL)
_COLOUR = re.compile(r"#0000([0-9a-f]{2})")
_FINE = 20.0  # squares up to this side carry half a grid, and of these the smallest none
_SMALLEST_GRID = 9.0
_SMALL_BEAD = 3.0  # bars with smaller beads are beads on one dark stick
_NAMES = ("", *LIGHT)
_NUMBERS = {name: (0.0, 0.0, number / 255, 1.0) for number, name in enumerate(_NAMES)}


def draw(figure: Figure) -> bytes:
    """The figure as SVG, the same bytes whatever the machine's settings are.

    Taken out again because they only add weight: the blank and line end after every command of a path.
    """
    _settle()
    svg = io.StringIO()
    renderer: Any = RendererSVG(figure.width, figure.height, svg, metadata=_NO_METADATA)  # type: ignore[no-untyped-call]
    pen = _Pen(renderer)
    if figure.ground:
        _draw_boxes(pen, Boxes(0, 0, HERE, figure.width, figure.height, figure.ground))
    for mark in figure.marks:
        _draw_mark(pen, mark)
    renderer.finalize()
    drawn = _SIZE_IN_POINTS.sub(r'\1="\2"', svg.getvalue().replace(" \n", ""), count=2)
    drawn = _STYLE.sub(lambda own: f"<style>{style_sheet()}{own[1]}</style>", drawn, count=1)
    return _COLOUR.sub(lambda colour: f"var(--{_NAMES[int(colour[1], 16)]})", drawn).encode()


@cache
def _settle() -> None:
    """Give matplotlib its own settings and ours, once in a process: for each figure that is a twelfth of its time."""
    mpl.rcdefaults()
    mpl.rcParams.update(_SETTINGS)


class _Pen:
    """Draws on a renderer in the coordinates of the sheet, y downwards."""

    def __init__(self, renderer: Any) -> None:
        self.renderer = renderer
        self._upright = Affine2D().scale(1, -1).translate(0, renderer.height)

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
        self.renderer.draw_path(context, path, self._upright, _NUMBERS[fill] if fill else None)

    def label(self, label: Label) -> None:
        """Straight into the file: the renderer would measure the text first, which takes as long as all the rest."""
        style = f"font-size:{label.size:g}px;fill:var(--{label.colour})"
        if label.bold:
            style += ";font-weight:700"
        if label.anchor != "start":
            style += f";text-anchor:{label.anchor}"
        self.renderer.writer.element("text", label.text, x=f"{label.x:.1f}", y=f"{label.y:.1f}", style=style)

    def _context(self, colour: str) -> GraphicsContextBase:
        context: GraphicsContextBase = self.renderer.new_gc()
        context.set_foreground(_NUMBERS[colour], isRGBA=True)
        return context


def _draw_mark(pen: _Pen, mark: Mark) -> None:
    match mark:
        case Pieces():
            pen.renderer.open_group("pieces", mark.gid)
            (_draw_dotted if mark.look is Look.DOTTED else _PIECES[mark.place])(pen, mark, _corners(mark))
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
    return _path(vertices, codes)


def _path(vertices: list[Spot], codes: list[int]) -> Path:
    path = Path(np.array(vertices).round(1), codes)
    path.should_simplify = False
    return path


_ROUND = (_MOVE, *(_LINE, _CURVE, _CURVE) * 4, _CLOSE)


def _draw_boxes(pen: _Pen, boxes: Boxes) -> None:
    vertices: list[Spot] = []
    r = min(boxes.radius, boxes.width / 2, boxes.height / 2)
    for left, top in _corners(boxes):
        right, bottom = left + boxes.width, top + boxes.height
        vertices += [(left + r, top), (right - r, top), (right, top), (right, top + r)]
        vertices += [(right, bottom - r), (right, bottom), (right - r, bottom)]
        vertices += [(left + r, bottom), (left, bottom), (left, bottom - r)]
        vertices += [(left, top + r), (left, top), (left + r, top), (left + r, top)]
    path = _path(vertices, [*_ROUND] * len(boxes.spots))
    pen.path(
        path, boxes.edge, boxes.line if boxes.edge else 0, boxes.fill, dashes=(0, boxes.dash) if boxes.dash else None
    )


def _corners(mark: Pieces | Boxes) -> list[Spot]:
    return [(mark.x + x, mark.y + y) for x, y in mark.spots]


def _rectangle(x: float, y: float, width: float, height: float) -> tuple[Spot, ...]:
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def _dots(spots: Iterable[Spot]) -> Path:
    """Lines that end where they begin: with round caps they are dots."""
    return _lines([(spot, spot) for spot in spots])


def _fill(pieces: Pieces) -> str:
    return "gold" if pieces.look is Look.FULL else "light"


def _draw_beads(pen: _Pen, pieces: Pieces, corners: list[Spot]) -> None:
    fill, d = _fill(pieces), pieces.size
    middles = [(x + d / 2, y + d / 2) for x, y in corners]
    dots = _dots(middles)
    pen.path(dots, f"{fill}-edge", d, cap="round")
    pen.path(dots, fill, d - max(1.4, 0.17 * d), cap="round")
    if pieces.look is Look.FULL and d > 8:
        glints = [(x - 0.14 * d, y - 0.16 * d) for x, y in middles]
        pen.path(_dots(glints), "glint", 0.22 * d, cap="round")


def _draw_bars(pen: _Pen, pieces: Pieces, corners: list[Spot]) -> None:
    fill, bead = _fill(pieces), pieces.size / 10
    dots = (0.0, (0.0, bead))
    small = bead < _SMALL_BEAD
    middles = [(x + bead / 2, y) for x, y in corners]
    outline = _lines([((x, y + bead / 2), (x, y + (9.5 if small else 9.7) * bead)) for x, y in middles])
    beads = _lines([((x, y + bead / 2), (x, y + 9.7 * bead)) for x, y in middles])
    pen.path(outline, f"{fill}-edge", 1.1 * bead, cap="round", dashes=None if small else dots)
    pen.path(beads, fill, 0.7 * bead, cap="round", dashes=dots)


def _draw_grid(pen: _Pen, fill: str, corners: list[Spot], side: float, edge: float) -> None:
    """Nine lines each way across every square, on a small one upright only: the dashes of one wide line."""
    if side < _SMALLEST_GRID:
        return
    cell = side / 10
    thin = 0.14 * cell + 0.1
    near, middle, far = edge / 2, side / 2, side - edge / 2
    upright = [((x + near, y + middle), (x + far, y + middle)) for x, y in corners]
    level = [((x + middle, y + near), (x + middle, y + far)) for x, y in corners] if side > _FINE else []
    pen.path(_lines(upright + level), f"{fill}-grid", far - near, dashes=(near + thin / 2, (thin, cell - thin)))


def _edge(size: float) -> float:
    return 1.2 if size > 10 else 0.8


def _draw_squares(pen: _Pen, pieces: Pieces, corners: list[Spot]) -> None:
    fill, edge = _fill(pieces), _edge(pieces.size)
    outline = _lines([_rectangle(x, y, pieces.size, pieces.size) for x, y in corners], closed=True)
    pen.path(outline, f"{fill}-edge", edge, fill)
    _draw_grid(pen, fill, corners, pieces.size, edge)


def _around_cube(x: float, y: float, a: float) -> tuple[Spot, ...]:
    d = a * DEPTH
    return ((x, y + d), (x + d, y), (x + d + a, y), (x + d + a, y + a), (x + a, y + a + d), (x, y + a + d))


def _draw_cubes(pen: _Pen, pieces: Pieces, corners: list[Spot]) -> None:
    fill, a = _fill(pieces), pieces.size
    d, edge = a * DEPTH, _edge(pieces.size)
    full = pieces.look is Look.FULL
    outline = [_around_cube(x, y, a) for x, y in corners]
    tops = [((x, y + d), (x + d, y), (x + d + a, y), (x + a, y + d)) for x, y in corners]
    sides = [((x + a, y + d), (x + d + a, y), (x + d + a, y + a), (x + a, y + a + d)) for x, y in corners]
    pen.path(_lines(outline, closed=True), f"{fill}-edge", edge, fill)
    pen.path(_lines(tops, closed=True), f"{fill}-edge", 0.6 * edge, "gold-top" if full else "light")
    pen.path(_lines(sides, closed=True), f"{fill}-edge", 0.6 * edge, "gold-side" if full else "light-side")
    _draw_grid(pen, fill, [(x, y + d) for x, y in corners], a, edge)


def _draw_dotted(pen: _Pen, pieces: Pieces, corners: list[Spot]) -> None:
    """Outlines of what has gone; of very small pieces they are whole lines."""
    outline = _lines([_OUTLINES[pieces.place](x, y, pieces.size) for x, y in corners], closed=True)
    small = pieces.size < (30 if pieces.place == TENS else 6)
    pen.path(outline, "gone", 0.7 if small else 1, dashes=None if small else (0.0, (1.8, 1.6)))


def _around_bead(x: float, y: float, d: float) -> tuple[Spot, ...]:
    c = 0.29 * d
    return (
        *((x + c, y), (x + d - c, y), (x + d, y + c), (x + d, y + d - c)),
        *((x + d - c, y + d), (x + c, y + d), (x, y + d - c), (x, y + c)),
    )


def _draw_bow(pen: _Pen, bow: Bow) -> None:
    x, y, s = bow.x, bow.y, bow.size / 2
    tails = [((x, y), (x - 0.55 * s, y + 0.95 * s)), ((x, y), (x + 0.55 * s, y + 0.95 * s))]
    pen.path(_lines(tails), bow.colour, 0.22 * s, cap="round")
    loops = [((x, y), (x + side * s, y - 0.6 * s), (x + side * s, y + 0.6 * s)) for side in (-1, 1)]
    pen.path(_lines(loops, closed=True), bow.colour, 0.15 * s, bow.colour)
    pen.path(_dots([(x, y)]), "paper", 0.5 * s, cap="round")
    pen.path(_dots([(x, y)]), bow.colour, 0.36 * s, cap="round")


_PIECES = {UNITS: _draw_beads, TENS: _draw_bars, HUNDREDS: _draw_squares, THOUSANDS: _draw_cubes}
_OUTLINES = {
    UNITS: _around_bead,
    TENS: lambda x, y, length: _rectangle(x, y, max(length / 10, 2.0), length),
    HUNDREDS: lambda x, y, side: _rectangle(x, y, side, side),
    THOUSANDS: _around_cube,
}
