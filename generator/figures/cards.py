"""Number cards: one for every digit that is not zero, laid over each other so that they read as the number."""

from __future__ import annotations

from generator.engine.places import HUNDREDS, Counts
from generator.figures.shapes import HERE, Boxes, Label, Mark, Part
from generator.figures.style import place_colour
from generator.words.phrases import Phrases

_HEIGHT = 1.3
_BASE_LINE = 0.98
_TYPE = 1.02


def cards(number: int, cell: float, words: Phrases) -> Part:
    """The cards of a number on top of each other, the largest at the bottom: a zero is that of the card beneath.

    A digit takes one `cell`; a number of one digit that is not zero is a card alone.
    """
    digits = Counts.of(number)
    mark = words.grouping.written(number)[1:-3] if len(digits) > HUNDREDS + 1 else ""
    room = 0.4 * cell if mark else 0.0
    widths = [cell * (place + 1) + (room if place > HUNDREDS else 0) for place in range(len(digits))]
    marks: list[Mark] = []
    shows = len(digits) - 1
    for place in reversed(range(len(digits))):
        x = widths[-1] - widths[place]
        if digits[place] or place == len(digits) - 1:
            shows = place
            marks.append(Boxes(x, 0, HERE, widths[place], _HEIGHT * cell, "card", "ink", 1.0, 3))
        marks.append(_digit(x + cell / 2, cell, str(digits[place]), place_colour(shows)))
        if place == HUNDREDS + 1:
            marks.append(_digit(x + cell + room / 2, cell, mark, place_colour(shows)))
    return Part(widths[-1], _HEIGHT * cell, tuple(marks))


def sharers_card(sharers: int, cell: float) -> Part:
    """The card for how many are sharing, in ink and with a wide edge: it counts children, not beads."""
    width = cell * (0.66 * len(str(sharers)) + 0.6)
    box = Boxes(0, 0, HERE, width, _HEIGHT * cell, "card", "ink", 2.4, 5)
    return Part(width, _HEIGHT * cell, (box, _digit(width / 2, cell, str(sharers), "ink")))


def _digit(x: float, cell: float, digit: str, colour: str) -> Label:
    return Label(x, _BASE_LINE * cell, digit, _TYPE * cell, colour, bold=True, anchor="middle")
