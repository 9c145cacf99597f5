"""What a figure of a lesson is drawn from, and the marks that several of its parts need."""

from collections.abc import Mapping
from typing import NamedTuple

from generator.figures.formats import Format
from generator.figures.lattice import Lattice
from generator.figures.scene import Frame, Scene
from generator.figures.shapes import HERE, Boxes, Label, Look, Mark, Part, Pieces
from generator.words.phrases import Phrases

FAINT = (2.0, 3.0)
_OUTLINE = 1.7


class View(NamedTuple):
    """One figure that is to be drawn: its scene, the frame of its lesson, its measures, and phrases."""

    scene: Scene
    frame: Frame
    form: Format
    words: Phrases

    @property
    def width(self) -> float:
        return self.form.width(self.frame.places, self.frame.mat.ribbons)

    @property
    def columns(self) -> list[tuple[int, float]]:
        """Every place with the left edge of its column, the largest first."""
        return [(place, self.form.x(place, self.frame.places)) for place in reversed(range(self.frame.places))]

    def left(self, place: int) -> float:
        """Where the pieces and the words of a column begin."""
        return self.form.x(place, self.frame.places) + self.form.pad

    def say(self, key: str, **filled: int | str) -> str:
        """The words of a wide figure, or their short form in a narrow one where there is one."""
        short = f"{key}-in-short"
        return self.words.say(short if self.form.narrow and self.words.has(short) else key, **filled)

    def name(self, key: str) -> Label:
        """What bank or middle is called, in its upper left corner."""
        x, lines = (8, 1.1) if self.form.title else (12, 1.65)
        return self.bold(x, lines * self.form.text, self.say(key))

    def bold(self, x: float, y: float, text: str, colour: str = "ink") -> Label:
        return Label(x, y, text, self.form.text, colour, bold=True)


def outlined(x: float, y: float, width: float, height: float, fill: str = "", radius: float = 5.0) -> Boxes:
    """The outline of the place at work."""
    return Boxes(x, y, HERE, width, height, fill, "ink", _OUTLINE, radius)


def slots(view: View, y: float, height: float, grounds: Mapping[int, str]) -> list[Mark]:
    """The slot of every place, filled with its ground, faint if that is "". Slots that look alike are one mark."""
    marks: list[Mark] = []
    for ground in sorted(set(grounds.values())):
        spots = tuple((x + 3, y) for place, x in view.columns if grounds[place] == ground)
        box = Boxes(0, 0, spots, view.form.column - 6, height, ground, radius=5)
        if not ground:
            box = box._replace(edge="faint", dash=FAINT)
        elif ground == "now":
            box = box._replace(edge="ink", line=_OUTLINE)
        marks.append(box)
    return marks


def laid(group: str, lattice: Lattice, first: int, count: int, look: Look) -> Part:
    """Pieces on a lattice, from its place `first` on."""
    mark = Pieces(0, 0, group, lattice.place, lattice.size, lattice.spots(first, count), look)
    return Part(lattice.width(count), lattice.height(count), (mark,))
