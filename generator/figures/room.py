"""A scene of a lesson as a figure: the bank above, the middle, the trays below, in place columns that never move."""

from generator.engine.places import UNITS, Mat, place_name
from generator.figures.bank import bank
from generator.figures.lanes import lane_at_the_bank, lane_to_the_trays
from generator.figures.middle import middle
from generator.figures.shapes import HERE, Boxes, Label, Mark, Part, below, sheet
from generator.figures.trays import trays
from generator.figures.view import FAINT, View, outlined
from generator.words.numbers import place_word

_MARGIN = 1.0


def room_figure(view: View) -> Part:
    """The whole figure. Groups of pieces: 'ready', 'to-bank', 'from-bank', 'middle', 'left' (in the dish), 'trays'."""
    parts = [_heads(view)]
    if view.frame.exchanges:
        parts += [bank(view), lane_at_the_bank(view)]
    parts += [middle(view), lane_to_the_trays(view), trays(view), _share(view)]
    return _stacked(view, parts)


def small_figure(view: View) -> Part:
    """The middle and one tray of each sort, for a plan. Groups of pieces: 'middle', 'left' (in the dish), 'trays'."""
    view = view._replace(frame=view.frame._replace(trays=view.frame.mat.widths))
    return _stacked(view, [_heads(view), middle(view), lane_to_the_trays(view), trays(view)])


def _stacked(view: View, parts: list[Part]) -> Part:
    stacked = below(parts, 0)
    return sheet(Part(view.width, stacked.height + 2 * _MARGIN, stacked.at(0, _MARGIN)))


def _heads(view: View) -> Part:
    """The names of the places; those at work are outlined."""
    form = view.form
    high = form.head - 4
    marks: list[Mark] = []
    for place, x in view.columns:
        if place in view.scene.active:
            marks.append(outlined(x + 1, 0, form.column - 2, high, "now", high / 2))
        word, base = place_word(view.words, place), high / 2 + 0.36 * form.text
        marks.append(view.bold(x + form.column / 2, base, word, place_name(place))._replace(anchor="middle"))
    return Part(view.width, form.head, tuple(marks))


def _share(view: View) -> Part:
    """The share as far as it is known, each digit in its column; before the first round an empty row as high."""
    form, scene, share = view.form, view.scene, view.scene.stage.after.share
    top = 1.4 * form.text if form.narrow else 0.0
    if scene.laid_out:
        return Part(view.width, top + form.share, ())
    says = view.say(_whose_share(view.frame.mat))
    base = 1.35 * form.text if form.narrow else 0.7 * form.share
    marks: list[Mark] = [view.bold(8 if form.narrow else 12, base, says)]
    for place, _ in view.columns:
        x = view.left(place)
        if place < scene.known_from:
            high = 0.62 * form.share
            marks.append(Boxes(x, top + 0.24 * form.share, HERE, 0.8 * high, high, "", "faint", 1, 3, FAINT))
        elif place == UNITS or any(share[place:]):  # no zero in front
            digit = str(share[place])
            marks.append(Label(x, top + 0.8 * form.share, digit, form.digit, place_name(place), bold=True))
    return Part(view.width, top + form.share, tuple(marks))


def _whose_share(mat: Mat) -> str:
    if not mat.ribbons:
        return "figure.each-has"
    return "figure.child-for-one" if mat[UNITS] else "figure.answer-so-far"
