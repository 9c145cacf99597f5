"""Number cards as they are: one for every digit that is not zero, pushed together from the right."""

from generator.engine.places import Counts, place_name
from generator.figures.shapes import HERE, Boxes, Label, Mark, Part

_HEIGHT = 1.36
_BASE_LINE = 1.02
_TYPE = 1.04
_SIDE = 0.12  # of a cell, beside the first and the last digit


def cards(number: int, cell: float) -> Part:
    """The cards of a number on top of each other, the largest at the bottom: a zero is that of the card beneath.

    A digit takes one `cell`; a number of one digit that is not zero is a card alone.
    """
    digits = Counts.of(number)
    full = cell * (len(digits) + 2 * _SIDE)
    marks: list[Mark] = []
    shows = len(digits) - 1
    for place in reversed(range(len(digits))):
        wide = cell * (place + 1 + 2 * _SIDE)
        if digits[place] or place == len(digits) - 1:
            shows = place
            marks.append(Boxes(full - wide, 0, HERE, wide, _HEIGHT * cell, "card", "card-edge", 1.1, 3))
        marks.append(_digit(full - wide + (0.5 + _SIDE) * cell, cell, str(digits[place]), f"card-{place_name(shows)}"))
    return Part(full, _HEIGHT * cell, tuple(marks))


def sharers_card(sharers: int, cell: float) -> Part:
    """The card for how many are sharing, in ink and with a wide edge: it counts children, not beads."""
    width = cell * (0.66 * len(str(sharers)) + 0.6)
    box = Boxes(0, 0, HERE, width, _HEIGHT * cell, "card", "card-edge", 2.2, 5)
    return Part(width, _HEIGHT * cell, (box, _digit(width / 2, cell, str(sharers), "card-ink")))


def _digit(x: float, cell: float, digit: str, colour: str) -> Label:
    return Label(x, _BASE_LINE * cell, digit, _TYPE * cell, colour, bold=True, anchor="middle")
