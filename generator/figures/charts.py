"""Figures of no single division: the pieces, the path of the lessons, what a shelf allows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from generator.engine.places import HUNDREDS, TENS, THOUSANDS, UNITS
from generator.figures.bank import arrow
from generator.figures.cards import cards
from generator.figures.columns import count_in_words, pieces, pieces_in_words
from generator.figures.packing import footprint
from generator.figures.shapes import (
    HERE,
    INSIDE,
    Boxes,
    Figure,
    Label,
    Mark,
    Part,
    Pieces,
    Spot,
    Stroke,
    below,
    beside,
    framed,
    sheet,
    text,
)
from generator.figures.style import SMALL, TEXT
from generator.words.phrases import Phrases

_PAD = 10.0
_BEAD = 5.5
_TRUE_SIZE = {UNITS: _BEAD, TENS: 10 * _BEAD, HUNDREDS: 10 * _BEAD, THOUSANDS: 10 * _BEAD}
_PILE = 3.0


def pieces_figure(words: Phrases) -> Figure:
    """The four pieces in true proportion with their cards, and how ten of one are one of the next.

    Piece groups: 'one-<place>' for the four, then 'ten-<place>' beside 'makes-<place>'.
    """
    ones = [_one(place, words) for place in (THOUSANDS, HUNDREDS, TENS, UNITS)]
    free = INSIDE - 2 * _PAD - sum(part.width for part in ones)
    exchanged = [_ten_make_one(place, words) for place in (HUNDREDS, TENS, UNITS)]
    high = max(part.height for part in exchanged)
    pad = 8.0
    panels = [framed(part._replace(height=high), part.width + 2 * pad, pad, "card", "muted") for part in exchanged]
    gap = (INSIDE - sum(part.width for part in panels)) / (len(panels) - 1)
    return sheet(below([framed(beside(ones, free / 3), INSIDE, _PAD, "mat", "line"), beside(panels, gap)], 9))


def _one(place: int, words: Phrases) -> Part:
    head = below([cards(10**place, 18, words), count_in_words(1, place, words)], 3)
    return below([head, pieces("one", place, 1, _TRUE_SIZE[place])], 6)


def _ten_make_one(place: int, words: Phrases) -> Part:
    """Ten beads as long as a bar, ten bars as wide as a square, ten squares piled as high as a cube."""
    size = _TRUE_SIZE[place]
    steps: dict[int, Spot] = {UNITS: (0, size), TENS: (size / 10, 0), HUNDREDS: (_PILE, -_PILE)}
    right, down = steps[place]
    top = -min(0, 9 * down)
    wide, high = footprint(place, size)
    spots = tuple((n * right, top + n * down) for n in reversed(range(10)))
    piled = place == HUNDREDS
    marks = [Pieces(0, 0, "ten", place, size, spots, pale=piled)]
    if piled:
        marks.append(Pieces(0, 0, "front", place, size, spots[-1:]))
    ten = Part(wide + 9 * right, high + 9 * abs(down), tuple(marks))
    one = pieces("makes", place + 1, 1, _TRUE_SIZE[place + 1])
    height = max(ten.height, one.height)
    between = Part(16, height, (arrow(0, height / 2 + 22, 16),))
    named = []
    for count, at, part in ((10, place, ten), (1, place + 1, one)):
        lowered = Part(part.width, height, (part.at(0, height - part.height),))
        named.append(below([text(pieces_in_words(count, at, words), SMALL), lowered], 6))
    return beside([named[0], between, named[1]], 6)


def path_figure(steps: Sequence[tuple[str, int]]) -> Figure:
    """The steps of the path from top to bottom, each with one bead for every lesson, threaded in fives.

    steps: name and number of lessons. Piece groups: 'step-<number>-units'.
    """
    high = 27.0
    words_wide = max(len(name) for name, _ in steps) * SMALL * 0.57 + 44
    most = max(lessons for _, lessons in steps)
    room = INSIDE - 2 * _PAD - words_wide - 30
    pitch = min(11.0, room / (most + most // 5 * 0.6))
    x = 11.0
    stops = tuple((x, high * index + high / 2) for index in range(len(steps)))
    marks: list[Mark] = [Stroke(0, 0, (stops,), "wood", 3.0)]
    for index, (name, lessons) in enumerate(steps):
        y = high * index + high / 2
        beads = tuple((n * pitch + n // 5 * 0.6 * pitch, 0.0) for n in range(lessons))
        end = words_wide + (beads[-1][0] if beads else 0)
        marks += [
            Boxes(x - 10.5, y - 10.5, HERE, 21, 21, "card", "wood", 1.6, 10),
            Label(x, y + 4.5, str(index + 1), SMALL, "ink", True, "middle"),
            Label(32, y + 4.5, name, SMALL),
            Stroke(0, 0, (((words_wide - 4, y), (end + pitch + 2, y)),), "edge", 0.8),
            Pieces(words_wide, y - pitch * 0.43, f"step-{index + 1}", UNITS, 0.86 * pitch, beads),
            Label(end + pitch + 8, y + 4.5, str(lessons), SMALL, "ink", True),
        ]
    return sheet(framed(Part(INSIDE - 2 * _PAD, high * len(steps), tuple(marks)), INSIDE, _PAD, "mat", "line"))


def allowed_figure(rows: Sequence[tuple[int, float]], more: Mapping[int, float], words: Phrases) -> Figure:
    """For every group size how much of all four-digit numbers the shelf allows, as a bar with its percentage.

    rows: sharers, share between 0 and 1; more: by sharers, the share with one more box of ten-bars (striped).
    """
    high, bar_high = 25.0, 15.0
    left, right = 92.0, 116.0 if more else 62.0
    full = INSIDE - 2 * _PAD - left - right
    marks: list[Mark] = []
    for index, (sharers, share) in enumerate(rows):
        y = high * index + (high - bar_high) / 2
        with_more = more.get(sharers, share) if more else share
        said = _percent(share, words)
        if with_more > share:
            said = words.say("figure.from-to", now=said, then=_percent(with_more, words))
        marks += [
            Label(0, y + 12.5, words.say("figure.sharers", count=sharers), SMALL),
            Boxes(left, y, HERE, full, bar_high, "tray", "line", 1.0, 3),
            *_striped(left + full * share, y, full * (with_more - share), bar_high),
            *_bar(left, y, full * share, bar_high),
            Label(left + full + 8, y + 12.5, said, SMALL, "ink", True),
        ]
    chart = Part(INSIDE - 2 * _PAD, high * len(rows), tuple(marks))
    title = text(words.say("figure.allowed"), TEXT, bold=True)
    parts = [title, _legend(words), chart] if more else [title, chart]
    return sheet(framed(below(parts, 4), INSIDE, _PAD, "mat", "line"))


def _bar(x: float, y: float, width: float, height: float) -> list[Mark]:
    return [Boxes(x, y, HERE, width, height, "gold", "edge", 1.2, min(3, width / 2))] if width > 0 else []


def _striped(x: float, y: float, width: float, height: float) -> list[Mark]:
    if width <= 0:
        return []
    outline = Boxes(x, y, HERE, width, height, "card", "edge", 1.2, min(3, width / 2))
    stripes = tuple(((4.0 * n + 3, 0.0), (4.0 * n + 3, height)) for n in range(int(width / 4)))
    return [outline, Stroke(x, y, stripes, "edge", 0.9)] if stripes else [outline]


def _legend(words: Phrases) -> Part:
    now = Part(20, 17, (*_bar(0, 3, 20, 11),))
    then = Part(20, 17, (*_striped(0, 3, 20, 11),))
    as_it_is, with_more = (text(words.say(key), SMALL) for key in ("figure.shelf-now", "figure.shelf-with-more"))
    return beside([now, as_it_is, then, with_more], 8)


def _percent(share: float, words: Phrases) -> str:
    """Whole per cent; 0 and 100 only when they are exact."""
    number: int | str = round(100 * share)
    if share > 0 and number == 0:
        number = "<1"
    elif share < 1 and number == 100:
        number = ">99"
    return words.say("figure.percent", number=number)
