"""The middle: a mat with a slot for every place, its count, its pieces, and the dish for what is left over."""

from collections.abc import Iterator

from generator.engine.places import UNITS, place_name
from generator.figures.cards import cards
from generator.figures.lattice import Lattice, in_the_middle
from generator.figures.scene import Slot, next_row_of_ten
from generator.figures.shapes import HERE, Boxes, Label, Look, Mark, Part, Pieces, text_width
from generator.figures.view import View, laid, slots

_STITCH = (5.0, 3.0)
_BELOW_THE_PIECES = 10.0
_ABOVE_THE_DISH = 3.0
_BESIDE_THE_DISH = 6.0  # from the edge of the column


def middle(view: View) -> Part:
    """The mat, in all figures of a lesson as high as the most that ever lies on it needs."""
    form, scene = view.form, view.scene
    top = form.title
    height = top + form.label + max(_height(view, place) for place, _ in view.columns) + _BELOW_THE_PIECES
    lying = [*scene.middle, Slot(0, 0)]  # one more than there are, for a number of one place
    grounds = {place: _ground(view, place, lying[place]) for place, _ in view.columns}
    marks: list[Mark] = [
        Boxes(1, 0, HERE, view.width - 2, height, "mat", "stitch", 1.4, 9, _STITCH),
        view.name("figure.middle"),
        *slots(view, form.inset, height - form.inset - 5, grounds),
    ]
    if not scene.laid_out:
        marks += _key(view)
    for place, _ in view.columns:
        x, slot, lattice = view.left(place), lying[place], _lattice(view, place)
        marks += _count(view, place, slot).at(x, top)
        marks += _pieces(lattice, slot).at(x, top + form.label + 2)
        if slot.left:
            dish = _dish(view, lattice, slot.left)
            aside = min(_BESIDE_THE_DISH, (form.column - dish.width) / 2)
            marks += dish.at(x - form.pad + aside, height - dish.height - 7)
    return Part(view.width, height, tuple(marks))


def _key(view: View) -> Iterator[Mark]:
    """What full, light and dotted mean: in the rail, or in a narrow figure beside the name, if there is room."""
    form = view.form
    bead, text = 0.75 * form.text, form.text
    said = [(look, view.say(f"figure.key.{look}")) for look in Look]
    x, y = 7.5, 3.1 * form.text
    if form.narrow:
        wide = sum(text_width(words, text) + 2.55 * bead for _, words in said)
        x, y = view.width - wide - 2, 1.1 * text
        if x < text_width(view.say("figure.middle"), text, bold=True) + 12:
            return
    for look, words in said:
        yield Pieces(x, y - 0.9 * bead, "key", UNITS, bead, HERE, look)
        yield Label(x + 1.3 * bead, y, words, text, "muted")
        if form.narrow:
            x += text_width(words, text) + 2.55 * bead
        else:
            y += 1.25 * text


def _ground(view: View, place: int, slot: Slot) -> str:
    if place in view.scene.active:
        return "now"
    return "mat-slot" if slot.before or slot.after else ""


def _lattice(view: View, place: int) -> Lattice:
    return in_the_middle(place, view.frame.most.at(place), view.form.pitch)


def _height(view: View, place: int) -> float:
    """The height that a place needs below its count, with the dish for what is left over."""
    lattice, left = _lattice(view, place), view.frame.left.at(place)
    dish = _dish(view, lattice, left).height + _ABOVE_THE_DISH if left else 0
    return max(lattice.height(view.frame.most.at(place)) + dish, 3 * view.form.pitch)


def _count(view: View, place: int, slot: Slot) -> Part:
    """How many pieces there are and, if that has changed, were before; at the beginning the large card."""
    form = view.form
    if view.scene.laid_out and slot.after:
        card = cards(slot.after * 10**place, 0.6 * form.label)
        return Part(card.width, form.label, card.at(0, (form.label - card.height) / 2 + 3))
    base = 0.72 * form.label + 1
    there = Label(0, base, view.words.grouping.written(slot.after), form.counts, place_name(place), bold=True)
    if slot.before != slot.after:
        was = Label(0, base, view.say("figure.count-before", count=slot.before), form.counts, "muted")
        return Part(0, form.label, (was, there._replace(x=0.6 * form.counts * len(was.text))))
    return Part(0, form.label, (there if slot.after else there._replace(colour="muted", bold=False),))


def _pieces(lattice: Lattice, slot: Slot) -> Part:
    """The pieces on the lattice: what has come, then in a new row of ten what lay there before, then what has gone."""
    marks: list[Mark] = []
    first = 0
    for count, look in ((slot.came, Look.FULL), (slot.stayed, Look.LIGHT), (slot.gone, Look.DOTTED)):
        if count:
            first = next_row_of_ten(first) if look is Look.LIGHT else first
            marks += laid("middle", lattice, first, count, look).marks
            first += count
    return Part(lattice.width(first), lattice.height(first), tuple(marks))


def _dish(view: View, lattice: Lattice, count: int) -> Part:
    """What is left over, kept apart, under its words."""
    text = view.form.text
    inside = laid("left", lattice, 0, count, Look.FULL)
    rim = 0.3 * view.form.pitch
    wide, high, top = inside.width + 2 * rim, inside.height + 7, 1.35 * text
    dish = Boxes(0, top, HERE, wide, high, "tray", "ink", 1.4, min(high / 2, 10))
    words = view.bold(2, text, view.say("figure.left-over"))
    return Part(wide, top + high, (words, dish, *inside.at(rim, top + 3.5)))
