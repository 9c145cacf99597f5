"""Figures as SVG, element by element. Only `sprite` adds something to what is drawn here: its views and a style.

Each `Pieces` mark is a group `<g id="its gid">`, and the first path of the group has exactly one subpath (one `M`) for
every piece: the outline of a bead, bar, square or cube. The beads of a bar and the grid of a square are dashes of a
line, so that a figure stays small. Colours are names of CSS variables, which the file's own style sheet holds.
"""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import pairwise

from lxml.etree import Element, SubElement, _Element, tostring

from generator.engine.places import HUNDREDS, TENS, THOUSANDS, UNITS
from generator.figures.shapes import DEPTH, HERE, Bow, Boxes, Label, Look, Mark, Part, Pieces, Spot, Stroke
from generator.figures.style import STYLE_SHEET

_DOT = ((0.0, 0.0), (0.0, 0.0))
"""A line that ends where it begins: with round ends it is a dot."""

_FINE = 20.0  # squares up to this side carry half a grid, and of these the smallest none
_SMALLEST_GRID = 9.0
_SMALL_BEAD = 3.0  # bars with smaller beads are beads on one dark stick


def draw(figure: Part, ground: str = "paper") -> bytes:
    """The figure as an SVG file, the same bytes on every machine.

    Its own ground keeps it readable where a browser does not tell it that the page is dark.
    """
    wide, high = _number(figure.width), _number(figure.height)
    svg = Element("svg", xmlns="http://www.w3.org/2000/svg", width=wide, height=high, viewBox=f"0 0 {wide} {high}")
    SubElement(svg, "style").text = STYLE_SHEET
    if ground:
        _draw_boxes(svg, Boxes(0, 0, HERE, figure.width, figure.height, ground))
    for mark in figure.marks:
        _draw_mark(svg, mark)
    return tostring(svg, encoding="unicode").encode()


def _draw_mark(svg: _Element, mark: Mark) -> None:
    match mark:
        case Pieces():
            group = SubElement(svg, "g", id=mark.gid)
            (_draw_dotted if mark.look is Look.DOTTED else _PIECES[mark.place])(group, mark)
        case Boxes():
            _draw_boxes(svg, mark)
        case Label():
            _draw_label(svg, mark)
        case Stroke():
            lines = "".join(_lines([(mark.x, mark.y)], line, closed=bool(mark.fill)) for line in mark.lines)
            _draw_path(svg, lines, _pen(mark.colour, mark.width, is_round=True), mark.fill)
        case Bow():
            _draw_bow(svg, mark)


def _draw_label(svg: _Element, label: Label) -> None:
    style = f"font-size:{_number(label.size)}px;fill:var(--{label.colour})"
    if label.bold:
        style += ";font-weight:700"
    if label.anchor != "start":
        style += f";text-anchor:{label.anchor}"
    SubElement(svg, "text", x=_number(label.x), y=_number(label.y), style=style).text = label.text


def _draw_boxes(svg: _Element, boxes: Boxes) -> None:
    edge = _pen(boxes.edge, boxes.line, dashes=boxes.dash) if boxes.edge else ""
    group = SubElement(svg, "g", style=_style(boxes.fill, edge))
    size = {"width": _number(boxes.width), "height": _number(boxes.height), "rx": _number(boxes.radius)}
    for x, y in boxes.spots:
        SubElement(group, "rect", size, x=_number(boxes.x + x), y=_number(boxes.y + y))


def _draw_path(parent: _Element, lines: str, pen: str, fill: str = "") -> None:
    SubElement(parent, "path", d=lines, style=_style(fill, pen))


def _style(fill: str, pen: str) -> str:
    """The style of an area and its edge, or of lines, which have no `fill`."""
    return f"fill:{f'var(--{fill})' if fill else 'none'}{pen}"


def _pen(
    colour: str, width: float, is_round: bool = False, dashes: tuple[float, float] | None = None, skipped: float = 0.0
) -> str:
    """How a line is drawn: round at its ends, in dashes (a dash, a blank), the first of them `skipped` pixels short."""
    style = f";stroke:var(--{colour});stroke-width:{_number(width)}"
    if is_round:
        style += ";stroke-linecap:round"
    if dashes:
        style += f";stroke-dasharray:{','.join(map(_number, dashes))}"
    if skipped:
        style += f";stroke-dashoffset:{_number(skipped)}"
    return style


@lru_cache(maxsize=1 << 14)
def _number(value: float) -> str:
    """A length, rounded to a hundredth of a pixel, without needless zeros."""
    return f"{round(value, 2):g}"


def _lines(corners: Iterable[Spot], spots: Sequence[Spot], closed: bool = False) -> str:
    """SVG path data of one line at every corner; `spots` are measured from it, `closed` leads back to the first."""
    left, top = spots[0]
    steps = (f"l{_number(x - before_x)} {_number(y - before_y)}" for (before_x, before_y), (x, y) in pairwise(spots))
    course = "".join(steps) + "z" * closed
    return "".join(f"M{_number(x + left)} {_number(y + top)}{course}" for x, y in corners)


def _each(pieces: Pieces, spots: Sequence[Spot], closed: bool = False) -> str:
    """SVG path data of the same line for every piece; `spots` are measured from its corner."""
    return _lines(_moved(pieces.spots, pieces.x, pieces.y), spots, closed)


def _moved(spots: Iterable[Spot], right: float, down: float) -> list[Spot]:
    return [(x + right, y + down) for x, y in spots]


def _fill(pieces: Pieces) -> str:
    return "gold" if pieces.look is Look.FULL else "light"


def _draw_beads(group: _Element, beads: Pieces) -> None:
    fill, d = _fill(beads), beads.size
    dots = _each(beads, _moved(_DOT, d / 2, d / 2))
    _draw_path(group, dots, _pen(f"{fill}-edge", d, is_round=True))
    _draw_path(group, dots, _pen(fill, d - max(1.4, 0.17 * d), is_round=True))
    if beads.look is Look.FULL and d > 8:
        glints = _each(beads, _moved(_DOT, 0.36 * d, 0.34 * d))
        _draw_path(group, glints, _pen("glint", 0.22 * d, is_round=True))


def _draw_bars(group: _Element, bars: Pieces) -> None:
    fill, bead = _fill(bars), bars.size / 10
    small = bead < _SMALL_BEAD
    dots = (0.0, bead)
    first = (bead / 2, bead / 2)
    outline = _each(bars, (first, (bead / 2, (9.5 if small else 9.7) * bead)))
    beads = _each(bars, (first, (bead / 2, 9.7 * bead)))
    _draw_path(group, outline, _pen(f"{fill}-edge", 1.1 * bead, is_round=True, dashes=None if small else dots))
    _draw_path(group, beads, _pen(fill, 0.7 * bead, is_round=True, dashes=dots))


def _draw_grid(group: _Element, pieces: Pieces, fill: str, down: float, edge: float) -> None:
    """Nine lines each way across every square (on a small one upright only), drawn as the dashes of one wide line.

    down    how far below the corner of a piece its square begins
    """
    side = pieces.size
    if side < _SMALLEST_GRID:
        return
    cell = side / 10
    thin = 0.14 * cell + 0.1
    near, middle, far = edge / 2, side / 2, side - edge / 2
    lines = _each(pieces, ((near, down + middle), (far, down + middle)))
    if side > _FINE:
        lines += _each(pieces, ((middle, down + near), (middle, down + far)))
    _draw_path(group, lines, _pen(f"{fill}-grid", far - near, dashes=(thin, cell - thin), skipped=near + thin / 2))


def _edge(size: float) -> float:
    return 1.2 if size > 10 else 0.8


def _draw_squares(group: _Element, squares: Pieces) -> None:
    fill, edge = _fill(squares), _edge(squares.size)
    _draw_path(group, _outlines(squares), _pen(f"{fill}-edge", edge), fill)
    _draw_grid(group, squares, fill, 0, edge)


def _draw_cubes(group: _Element, cubes: Pieces) -> None:
    fill, a = _fill(cubes), cubes.size
    d, edge = a * DEPTH, _edge(cubes.size)
    top = ((0, d), (d, 0), (d + a, 0), (a, d))
    side = ((a, d), (d + a, 0), (d + a, a), (a, a + d))
    _draw_path(group, _outlines(cubes), _pen(f"{fill}-edge", edge), fill)
    thin = _pen(f"{fill}-edge", 0.6 * edge)
    _draw_path(group, _each(cubes, top, closed=True), thin, "gold-top" if cubes.look is Look.FULL else "light")
    _draw_path(group, _each(cubes, side, closed=True), thin, f"{fill}-side")
    _draw_grid(group, cubes, fill, d, edge)


def _draw_dotted(group: _Element, pieces: Pieces) -> None:
    """Outlines of what has gone; of very small pieces they are whole lines."""
    small = pieces.size < (30 if pieces.place == TENS else 6)
    _draw_path(group, _outlines(pieces), _pen("gone", 0.7 if small else 1, dashes=None if small else (1.8, 1.6)))


def _outlines(pieces: Pieces) -> str:
    """The line around every piece."""
    size = pieces.size
    width = max(size / 10, 2.0) if pieces.place == TENS else size
    around: Sequence[Spot] = ((0, 0), (width, 0), (width, size), (0, size))
    if pieces.place == UNITS:
        near, far = 0.29 * size, 0.71 * size
        around = ((near, 0), (far, 0), (size, near), (size, far), (far, size), (near, size), (0, far), (0, near))
    elif pieces.place == THOUSANDS:
        d = size * DEPTH
        around = ((0, d), (d, 0), (d + size, 0), (d + size, size), (size, size + d), (0, size + d))
    return _each(pieces, around, closed=True)


def _draw_bow(svg: _Element, bow: Bow) -> None:
    s = bow.size / 2

    def drawn(*lines: Sequence[Spot], closed: bool = False) -> str:
        return "".join(_lines([(bow.x, bow.y)], line, closed) for line in lines)

    tails = [((0, 0), (side * 0.55 * s, 0.95 * s)) for side in (-1, 1)]
    loops = [((0, 0), (side * s, -0.6 * s), (side * s, 0.6 * s)) for side in (-1, 1)]
    _draw_path(svg, drawn(*tails), _pen(bow.colour, 0.22 * s, is_round=True))
    _draw_path(svg, drawn(*loops, closed=True), _pen(bow.colour, 0.15 * s), bow.colour)
    _draw_path(svg, drawn(_DOT), _pen("paper", 0.5 * s, is_round=True))
    _draw_path(svg, drawn(_DOT), _pen(bow.colour, 0.36 * s, is_round=True))


_PIECES = {UNITS: _draw_beads, TENS: _draw_bars, HUNDREDS: _draw_squares, THOUSANDS: _draw_cubes}
