"""Figures of no single division: the pieces, the path of the lessons, what a shelf allows."""

from collections.abc import Sequence

from generator.engine.places import HUNDREDS, TENS, THOUSANDS, UNITS, place_name
from generator.figures.cards import cards
from generator.figures.formats import Format
from generator.figures.shapes import (
    HERE,
    Boxes,
    Label,
    Look,
    Mark,
    Part,
    Pieces,
    Spot,
    Stroke,
    below,
    beside,
    footprint,
    framed,
    sheet,
    text,
    text_width,
)
from generator.words.numbers import piece
from generator.words.phrases import Phrases

_PAD = 10.0
_ARROW = 16.0  # long


def pieces_figure(form: Format, words: Phrases) -> Part:
    """The four pieces in true proportion with their cards, and how ten of one are one of the next.

    Piece groups: 'one' for the four, then 'ten' beside 'makes'.
    """
    bead = 4.2 if form.narrow else 7.0
    ones = [_one(place, bead, form, words) for place in (THOUSANDS, HUNDREDS, TENS, UNITS)]
    free = form.sheet - 2 * _PAD - sum(part.width for part in ones)
    row = beside(ones, free / 3)
    panels = [_ten_make_one(place, 0.9 * bead, form, words) for place in (HUNDREDS, TENS, UNITS)]
    wide = form.sheet if form.narrow else (form.sheet - 2 * _PAD) / 3
    if not form.narrow:
        high = max(part.height for part in panels)
        panels = [part._replace(height=high) for part in panels]
    exchanged = [framed(part, wide, 8, "tray", "rim") for part in panels]
    lower = below(exchanged, 9) if form.narrow else beside(exchanged, _PAD)
    return sheet(below([framed(row, form.sheet, _PAD, "mat", "stitch"), lower], 9))


def _size(place: int, bead: float) -> float:
    return bead if place == UNITS else 10 * bead


def _one(place: int, bead: float, form: Format, words: Phrases) -> Part:
    said = text(piece(words, 1, place), form.text, place_name(place), bold=True)
    head = below([cards(10**place, form.text if form.narrow else 1.3 * form.text), said], 3)
    size = _size(place, bead)
    one = Part(*footprint(place, size), (Pieces(0, 0, "one", place, size, HERE),))
    return below([head, one], 6)


def _ten_make_one(place: int, bead: float, form: Format, words: Phrases) -> Part:
    """Ten beads as long as a bar, ten bars as wide as a square, ten squares piled as high as a cube."""
    size = _size(place, bead)
    steps: dict[int, Spot] = {UNITS: (0, size), TENS: (size / 10, 0), HUNDREDS: (0.6 * bead, -0.6 * bead)}
    right, down = steps[place]
    top = -min(0, 9 * down)
    wide, high = footprint(place, size)
    spots = tuple((n * right, top + n * down) for n in reversed(range(10)))
    piled = place == HUNDREDS
    marks = [Pieces(0, 0, "ten", place, size, spots, Look.LIGHT if piled else Look.FULL)]
    if piled:
        marks.append(Pieces(0, 0, "front", place, size, spots[-1:]))
    ten = Part(wide + 9 * right, high + 9 * abs(down), tuple(marks))
    larger = _size(place + 1, bead)
    one = Part(*footprint(place + 1, larger), (Pieces(0, 0, "makes", place + 1, larger, HERE),))
    height = max(ten.height, one.height)
    between = Part(_ARROW, height, (_arrow(height / 2 + 1.3 * form.text),))
    named = []
    for count, at, part in ((10, place, ten), (1, place + 1, one)):
        lowered = Part(part.width, height, part.at(0, height - part.height))
        named.append(below([text(piece(words, count, at), form.text), lowered], 6))
    return beside([named[0], between, named[1]], 6)


def _arrow(y: float) -> Stroke:
    """An arrow to the right."""
    head = ((_ARROW - 4, y - 4), (_ARROW, y), (_ARROW - 4, y + 4))
    return Stroke(0, 0, (((0, y), (_ARROW, y)), head), "muted", 1.3)


def path_figure(steps: Sequence[tuple[str, int]], form: Format) -> Part:
    """The steps of the path from top to bottom, each with one bead for every lesson, threaded in fives.

    steps: name and number of lessons. Piece groups: 'step-<number>'.
    """
    room = form.sheet - 2 * _PAD
    begin = 34.0
    widest = begin + max(text_width(name, form.text) for name, _ in steps)
    beads_at = begin if form.narrow else widest + 12
    down = 1.5 * form.text if form.narrow else 0.0  # the thread of beads below the name, or beside it
    high = 30.0 + down
    most = max(lessons for _, lessons in steps)
    pitch = min(12.0, (room - beads_at - 30) / (most + most // 5 * 0.6))
    stops = tuple((11.0, high * index + 15) for index in range(len(steps)))
    marks: list[Mark] = [Stroke(0, 0, (stops,), "rim", 3.0)]
    for index, (name, lessons) in enumerate(steps):
        y = high * index + 15
        thread = y + down
        beads = tuple((n * pitch + n // 5 * 0.6 * pitch, 0.0) for n in range(lessons))
        end = beads_at + (beads[-1][0] if beads else 0)
        base = 0.36 * form.text
        marks += [
            Boxes(-1.5, y - 12.5, HERE, 25, 25, "tray", "rim", 1.6, 12),
            Label(11, y + base, str(index + 1), form.text, "ink", True, "middle"),
            Label(begin, y + base, name, form.text),
            Stroke(0, 0, (((beads_at - 4, thread), (end + pitch + 2, thread)),), "rim", 0.8),
            Label(end + pitch + 8, thread + base, str(lessons), form.text, "ink", True),
        ]
        if beads:
            marks.append(Pieces(beads_at, thread - pitch * 0.43, f"step-{index + 1}", UNITS, 0.86 * pitch, beads))
    return sheet(framed(Part(room, high * len(steps), tuple(marks)), form.sheet, _PAD, "mat", "stitch"))


def allowed_figure(rows: Sequence[tuple[int, float, float]], form: Format, words: Phrases) -> Part:
    """For every group size how much of all four-digit numbers the shelf allows, as a bar with its percentage.

    rows: sharers, share between 0 and 1, and that share with one more box of ten-bars (striped).
    """
    high, bar_high = 26.0, 15.0
    room = form.sheet - 2 * _PAD
    left = text_width(words.say("figure.sharers", count=12), form.text) + 8
    right = text_width("100 % → 100 %", form.text, bold=True) + 8
    full = room - left - right
    marks: list[Mark] = []
    for index, (sharers, share, with_more) in enumerate(rows):
        y = high * index + (high - bar_high) / 2
        said = _percent(share, words)
        if with_more > share:
            said = words.say("figure.from-to", now=said, then=_percent(with_more, words))
        marks += [
            Label(0, y + 12.5, words.say("figure.sharers", count=sharers), form.text),
            Boxes(left, y, HERE, full, bar_high, "tray", "rim", 1.0, 3),
            *_striped(left + full * share, y, full * (with_more - share), bar_high),
            *_bar(left, y, full * share, bar_high),
            Label(left + full + 8, y + 12.5, said, form.text, "ink", True),
        ]
    chart = Part(room, high * len(rows), tuple(marks))
    title = text(words.say("figure.allowed-in-short" if form.narrow else "figure.allowed"), form.text, bold=True)
    return sheet(framed(below([title, _legend(form, words), chart], 4), form.sheet, _PAD, "mat", "stitch"))


def _bar(x: float, y: float, width: float, height: float) -> list[Mark]:
    return [Boxes(x, y, HERE, width, height, "gold", "gold-edge", 1.2, 3)] if width > 0 else []


def _striped(x: float, y: float, width: float, height: float) -> list[Mark]:
    if width <= 0:
        return []
    outline = Boxes(x, y, HERE, width, height, "now", "light-edge", 1.2, 3)
    stripes = tuple(((4.0 * n + 3, 0.0), (4.0 * n + 3, height)) for n in range(int(width / 4)))
    return [outline, Stroke(x, y, stripes, "light-edge", 0.9)] if stripes else [outline]


def _legend(form: Format, words: Phrases) -> Part:
    now = Part(20, 17, (*_bar(0, 3, 20, 11),))
    then = Part(20, 17, (*_striped(0, 3, 20, 11),))
    as_it_is, with_more = (text(words.say(key), form.text) for key in ("figure.shelf-now", "figure.shelf-with-more"))
    both = [beside([now, as_it_is], 8), beside([then, with_more], 8)]
    return below(both, 2) if form.narrow else beside(both, 16)


def _percent(share: float, words: Phrases) -> str:
    """Whole per cent; 0 and 100 only when they are exact."""
    number: int | str = round(100 * share)
    if share > 0 and number == 0:
        number = "<1"
    elif share < 1 and number == 100:
        number = ">99"
    return words.say("figure.percent", number=number)
