"""Pieces in place columns, the largest on the left, each kind under its count in words."""

from __future__ import annotations

from collections.abc import Callable, Collection

from generator.engine.places import Counts, place_name
from generator.figures.packing import CLOSE, LOOSE, block, widest_across
from generator.figures.shapes import HERE, Boxes, Part, Pieces, below, beside, text
from generator.figures.style import TEXT, place_colour
from generator.words.phrases import Phrases

_GAP = 18.0
_PAD = 6.0
_SCALES = (1.0, 0.9, 0.8, 0.7, 0.6)


def pieces(group: str, place: int, count: int, size: float, across: int = 1, pale: bool = False) -> Part:
    """Pieces of one kind with nothing written beside them; of more than ten, `across` blocks side by side."""
    packed = block(place, count, size, across)
    marks = (Pieces(0, 0, group, place, size, packed.spots, pale),) if count else ()
    return Part(packed.width, packed.height, marks)


def pieces_in_words(count: int, place: int, words: Phrases) -> str:
    """'1 ten', '12 hundreds', 'no tens'."""
    name = place_name(place)
    return words.say(f"piece.{name}", count=count) if count else words.say(f"figure.none.{name}")


def count_in_words(count: int, place: int, words: Phrases) -> Part:
    return text(pieces_in_words(count, place, words), TEXT, place_colour(place) if count else "muted", bold=count > 0)


def columns(
    counts: Counts, top: int, width: float, group: str, head: Callable[[int], Part], dealt: Collection[int] = ()
) -> Part | None:
    """Every place from `top` down to the units, below its head; the columns of places now `dealt` stand on a card.

    The pieces are as large as the width allows; more than ten of a kind are drawn small, in blocks of ten.
    None if the width is too small for any size.
    """
    places = range(top, -1, -1)
    many = [place for place in places if counts[place] > 10]
    pad = _PAD if dealt else 0.0
    gap = _GAP - 2 * pad
    for scale in _SCALES:
        size = {place: (CLOSE if place in many else LOOSE)[place] * scale for place in places}

        def column(place: int, across: int, size: dict[int, float] = size) -> Part:
            return below([head(place), pieces(group, place, counts[place], size[place], across)], 5)

        spare = width - sum(column(place, 1).width + _GAP for place in places if place not in many) - 2 * pad
        across = {place: widest_across(place, counts[place], size[place], spare / len(many) - _GAP) for place in many}
        row = [column(place, across.get(place, 1)) for place in places]
        if sum(part.width + _GAP for part in row) - _GAP + 2 * pad <= width:
            height = max(part.height for part in row)
            return beside([_padded(p, pad, height, place in dealt) for place, p in zip(places, row, strict=True)], gap)
    return None


def _padded(part: Part, pad: float, height: float, carded: bool) -> Part:
    wide, high = part.width + 2 * pad, height + 2 * pad
    card = (Boxes(0, 0, HERE, wide, high, "card", "ink", 1.2),) if carded else ()
    return Part(wide, high, (*card, part.at(pad, pad)))
