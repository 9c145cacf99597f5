"""The trays: one row for each, across the place columns; the column of the place at work has one outline."""

from generator.figures.lattice import on_a_tray
from generator.figures.shapes import Bow, Boxes, Label, Look, Mark, Part, Pieces, Spot
from generator.figures.view import FAINT, View, outlined


def trays(view: View) -> Part:
    """All trays. Boxes and pieces that look alike are one mark, whichever tray they belong to."""
    form = view.form
    few, some, many = form.rows
    count = len(view.frame.trays)
    high = few if count <= 4 else some if count <= 6 else many
    gap = 3 if high < 30 else 4
    tops: list[float] = []
    names: list[Mark] = []
    y = 0.0
    before = None
    for number, width in enumerate(view.frame.trays, start=1):
        if form.narrow and view.frame.mat.ribbons and width != before:
            names.append(view.bold(8, y + 2 + form.text, view.words.say(f"figure.for-{10**width}")))
            y += 2 + 1.4 * form.text
        before = width
        tops.append(y)
        names += _name(view, number, width, high).at(0, y)
        y += high + gap
    rims = Boxes(0, 0, tuple((1.0, top) for top in tops), view.width - 2, high, "tray", "rim", 1.8, 8)
    columns = [mark for place, x in view.columns for mark in _column(view, place, x, tops, high)]
    return Part(view.width, y - gap, (rims, *names, *columns))


def _column(view: View, place: int, x: float, tops: list[float], high: float) -> list[Mark]:
    """One place on all trays."""
    form, scene = view.form, view.scene
    lattice = on_a_tray(place, view.frame.on_a_tray.at(place), form.pitch, high)
    down = (high - lattice.height(1)) / 2
    faint: list[Spot] = []
    at_work: list[float] = []
    spots: dict[Look, list[Spot]] = {Look.LIGHT: [], Look.FULL: []}
    for width, top in zip(view.frame.trays, tops, strict=True):
        holds, new = scene.stage.after.share.raised(width).at(place), scene.new.raised(width).at(place)
        for look, first, count in ((Look.LIGHT, 0, holds - new), (Look.FULL, holds - new, new)):
            spots[look].extend((dx, top + down + dy) for dx, dy in lattice.spots(first, count))
        if place in scene.active and place == scene.stage.level + width and not scene.stage.at_the_bank:
            at_work.append(top)
        elif not holds:
            faint.append((x + 3, top + 4.5))
    wide = form.column - 6
    marks: list[Mark] = []
    if faint:
        marks.append(Boxes(0, 0, tuple(faint), wide, high - 9, "", "faint", 0.9, 4, FAINT))
    for look, corners in spots.items():
        if corners:
            marks.append(Pieces(x + form.pad, 0, "trays", place, lattice.size, tuple(corners), look))
    if at_work:
        marks.append(outlined(x + 3, at_work[0] + 2.8, wide, at_work[-1] + high - at_work[0] - 5.6))
    return marks


def _name(view: View, number: int, width: int, high: float) -> Part:
    """The number of a tray; with ribbons whom it is for, and the bow of the ribbon."""
    form = view.form
    base = high / 2 + 0.36 * form.text
    marks: list[Mark] = []
    if not view.frame.mat.ribbons:
        if form.narrow:
            marks.append(view.bold(12, base, view.words.grouping.written(number))._replace(anchor="middle"))
        else:
            marks.append(view.bold(12, base, view.say("figure.tray", number=number)))
    elif not form.narrow:
        marks.append(Label(9, base, view.say(f"figure.for-{10**width}"), 0.94 * form.text))
    if width:
        x = form.rail / 2 + 2.5 if not form.bow else view.width - 17  # halfway between rim and slot
        marks.append(Bow(x, 0.43 * high, min(form.bow or 0.6 * high, 0.75 * high), width))
    return Part(view.width, high, tuple(marks))
