"""The end of a lesson, told in cards: the number, how many shared it, one share, and what is left over kept apart."""

from collections.abc import Sequence

from generator.engine.places import UNITS, Counts, place_name
from generator.engine.sharing import Sharing
from generator.figures.cards import cards, sharers_card
from generator.figures.formats import Format
from generator.figures.lattice import in_the_middle
from generator.figures.shapes import HERE, Bow, Boxes, Look, Part, below, beside, framed, sheet, text
from generator.figures.view import laid
from generator.words.numbers import piece
from generator.words.phrases import Phrases

_PAD = 12.0


def end_in_cards_figure(sharing: Sharing, form: Format, words: Phrases) -> Part:
    """The figure of the end. Its only group of pieces: 'left'."""
    cell = 2.1 * form.text
    nothing = text(words.say("figure.no-share"), form.text)
    share = _cards_and_words(sharing.quotient, cell, form, words) if sharing.quotient else nothing
    by = below([sharers_card(sharing.divisor, cell), _who(sharing, form, words)], 6)
    parts = [
        _titled(words.say("figure.the-number"), _cards_and_words(sharing.dividend, cell, form, words), form),
        _titled(words.say("figure.shared-by"), by, form),
        _titled(words.say(_whose(sharing)), share, form),
    ]
    if sharing.remainder:
        left = _left_over(sharing.end.middle, form, words)
        parts.append(_titled(words.say("figure.left-over-in-the-end"), left, form))
    gap = 2 * form.text
    told = below(_in_lines(parts, form.sheet - 2 * _PAD, gap), 14)
    wide = form.sheet if form.narrow else told.width + 2 * _PAD
    return sheet(framed(told, wide, _PAD, "mat", "stitch"))


def _whose(sharing: Sharing) -> str:
    if not sharing.ribbons:
        return "figure.each-has-in-the-end"
    return "figure.one-for-one-has" if sharing.mat[UNITS] else "figure.the-answer"


def _in_lines(parts: Sequence[Part], width: float, gap: float) -> list[Part]:
    """Parts in lines no wider than `width`, filled from the left."""
    lines: list[Part] = []
    for part in parts:
        if lines and lines[-1].width + gap + part.width <= width:
            lines[-1] = beside([lines[-1], part], gap)
        else:
            lines.append(part)
    return lines


def _titled(title: str, part: Part, form: Format) -> Part:
    return below([text(title, form.text, bold=True), part], 6)


def _cards_and_words(number: int, cell: float, form: Format, words: Phrases) -> Part:
    """The cards of a number, and beneath them what they say, place by place."""
    digits = Counts.of(number)
    return below([cards(number, cell), _in_words(digits, form, words)], 6)


def _in_words(counts: Counts, form: Format, words: Phrases) -> Part:
    said = [(piece(words, counts[place], place), place) for place in counts.places_held]
    return below([text(each, form.text, place_name(place), bold=True) for each, place in said], 0)


def _who(sharing: Sharing, form: Format, words: Phrases) -> Part:
    """How many children there are; with ribbons, how many stand for what."""
    if not sharing.ribbons:
        return text(words.say("figure.sharers", count=sharing.divisor), form.text)
    lines: list[Part] = []
    for width in sharing.mat.widths:
        said = text(words.say("figure.children-stand-for", count=sharing.mat[width], number=10**width), form.text)
        bow = (Bow(9, said.height / 2, 16, width),) if width else ()
        lines.append(Part(said.width + 22, said.height, (*bow, *said.at(22, 0))))
    return below(lines, 2)


def _left_over(counts: Counts, form: Format, words: Phrases) -> Part:
    """The pieces in a dish, and beneath it what they are."""
    piles: list[Part] = []
    for place in counts.places_held:
        lattice = in_the_middle(place, counts[place], form.pitch * (2 if form.narrow else 1))
        piles.append(laid("left", lattice, 0, counts[place], Look.FULL))
    lying = beside(piles, form.text)
    wide, high = lying.width + 14, lying.height + 12
    dish = Boxes(0, 0, HERE, wide, high, "tray", "ink", 1.4, min(high / 2, 14))
    return below([Part(wide, high, (dish, *lying.at(7, 6))), _in_words(counts, form, words)], 6)
