"""The bank in a figure: the pieces brought to it, those it has given, in tens, or at the beginning what lies ready."""

from collections.abc import Iterator
from math import ceil

from generator.engine.places import TENS
from generator.figures.lattice import in_the_middle, one_row
from generator.figures.shapes import HERE, Boxes, Look, Mark, Part, Pieces, Spot, below, text
from generator.figures.view import View, laid, slots

_BOARD = 4.0


def bank(view: View) -> Part:
    """A shelf with a slot for every place, as wide as the figure."""
    form = view.form
    height = form.title + form.bank
    top = form.inset
    high = height - _BOARD - 5 - top
    lying = {place: list(_at_the_bank(view, place, high - 6)) for place, _ in view.columns}
    marks: list[Mark] = [
        Boxes(1, 0, HERE, view.width - 2, height, "bank", "rim", 1.4, 5),
        view.name("figure.bank"),
        Boxes(1, height - _BOARD, HERE, view.width - 2, _BOARD, "board", radius=2),
        *slots(view, top, high, {place: "bank-slot" if parts else "" for place, parts in lying.items()}),
    ]
    for place, parts in lying.items():
        x = view.left(place)
        for part in parts:
            marks += part.at(x, top + (high - part.height) / 2)
            x += part.width + form.pad
    return Part(view.width, height, tuple(marks))


def _at_the_bank(view: View, place: int, high: float) -> Iterator[Part]:
    form, exchanged = view.form, view.scene.stage.exchanged
    came, went, ready = exchanged.at(place), 10 * exchanged.at(place + 1), view.scene.ready.at(place)
    room = form.column - 2 * form.pad
    wide = (room - form.pad) / 2 if came and went else room
    if came:
        as_in_the_middle = in_the_middle(place, view.frame.most.at(place), form.pitch).size
        yield laid("to-bank", one_row(place, came, wide, min(high, 1.3 * as_in_the_middle)), 0, came, Look.FULL)
    if went:
        yield _in_tens("from-bank", place, went, Look.DOTTED, wide, high, form.pitch / 2)
    if ready:
        said = text(view.say("figure.ready", count=ready), form.text)
        blocks = _in_tens("ready", place, ready, Look.LIGHT, wide, high - said.height, form.pitch / 2)
        yield below([blocks, said], 0)


def _in_tens(group: str, place: int, count: int, look: Look, wide: float, high: float, largest: float) -> Part:
    """Small pieces in blocks of ten that fit into the room: two rows of five squares or beads, or one of ten bars.

    The room of one piece, a cell, is `largest` at most.
    """
    blocks = ceil(count / 10)

    def cells_down(across: int) -> float:
        return 2.6 * ceil(blocks / across) - 0.6

    def cell_of(across: int) -> float:
        return min(largest, wide / (5.7 * across - 0.7), high / cells_down(across))

    across = max(range(1, blocks + 1), key=cell_of)
    cell = cell_of(across)
    size, step, in_a_line = (2 * cell, cell / 2, 10) if place == TENS else (0.8 * cell, cell, 5)
    spots: list[Spot] = []
    for index in range(count):
        block, inside = divmod(index, 10)
        down, right = divmod(block, across)
        row, column = divmod(inside, in_a_line)
        spots.append((right * 5.7 * cell + column * step, down * 2.6 * cell + row * cell))
    return Part(wide, cells_down(across) * cell, (Pieces(0, 0, group, place, size, tuple(spots), look),))
