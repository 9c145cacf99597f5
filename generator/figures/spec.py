"""What every figure of a lesson shows, worked out from the engine; nothing here knows how it is drawn."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from generator.engine.places import THOUSANDS, UNITS, Counts
from generator.engine.sharing import Sharing, Stage, Tray
from generator.errors import SharingError
from generator.figures.bank import exchanges
from generator.figures.cards import cards, sharers_card
from generator.figures.columns import columns, count_in_words
from generator.figures.shapes import INSIDE, Bow, Figure, Part, below, beside, framed, sheet, text
from generator.figures.style import SMALL, TEXT, place_colour
from generator.figures.trays import tray_rows
from generator.words.phrases import Phrases

_PAD = 8.0
_GAP = 9.0
_ON_A_PANEL = INSIDE - 2 * _PAD
_MOST_PAIRS_ACROSS = 6


def layout_figure(sharing: Sharing, words: Phrases) -> Figure:
    """The start: every place of the number with its large card, the card of the sharers, the empty trays.

    Piece groups: 'middle-<place>'. Raises SharingError for a number beyond the thousands.
    """
    _refuse_too_large(sharing)

    def head(place: int) -> Part:
        count = sharing.start[place]
        large = cards(count * 10**place, 18, words) if count else cards(1, 18, words)._replace(marks=())
        return below([large, count_in_words(count, place, words)], 3)

    middle = columns(sharing.start, len(sharing.start) - 1, _ON_A_PANEL, "middle", head)
    assert middle is not None
    waiting = beside([sharers_card(sharing.divisor, 18), text(words.say("figure.sharing"), TEXT, bold=True)], 8)
    nothing = Counts((0,) * len(sharing.start))
    empty = [Tray(sharing.mat[width], 10**width, nothing) for width in sharing.mat.widths]
    trays = tray_rows(empty, None, sharing.ribbons, INSIDE, words)
    return sheet(below([_mat(words.say("figure.in-the-middle"), middle), below([waiting, trays], 5)], _GAP))


def stage_figure(sharing: Sharing, stage: Stage, words: Phrases) -> Figure:
    """One place: the middle when it begins, every tray when it ends, the exchanges, the middle when it ends.

    Piece groups: 'middle-<place>', 'tray-<number>-<place>', 'to-bank-<place>', 'from-bank-<place>',
    'left-<place>'. Raises SharingError for a number beyond the thousands.
    """
    _refuse_too_large(sharing)
    dealt = [stage.level + width for width in sharing.mat.widths if stage.level + width < len(stage.start)]
    top = max([stage.level, *dealt, *stage.start.places_held])
    middle = _counted(stage.start, top, _ON_A_PANEL, "middle", words, dealt)
    assert middle is not None
    rounds = words.say("figure.rounds", count=stage.rounds) if stage.rounds else words.say("figure.no-round")
    trays = tray_rows(sharing.trays(stage.steps[-1].after), stage.level, sharing.ribbons, INSIDE, words)
    after = min(_afterwards(stage, words), key=lambda part: part.height)
    return sheet(below([_mat(words.say("figure.in-the-middle"), middle), _titled(rounds, trays), after], _GAP))


def cards_figure(sharing: Sharing, words: Phrases) -> Figure:
    """The end, told in cards: the number, how many shared it, one share, and what is left over kept apart.

    Piece groups: 'left-<place>'. Raises SharingError for a number beyond the thousands.
    """
    _refuse_too_large(sharing)
    has = words.say("figure.one-for-one-has") if sharing.ribbons else words.say("figure.each-has")
    number = _titled(words.say("figure.the-number"), _read(sharing.dividend, 34, words))
    by = _titled(words.say("figure.shared-by"), below([sharers_card(sharing.divisor, 26), _who(sharing, words)], 5))
    one = _read(sharing.quotient, 26, words) if sharing.quotient else text(words.say("figure.no-share"), TEXT)
    share = _titled(has, one)
    first = max(number.width, share.width)
    rest = _left(sharing.end.middle, UNITS, _ON_A_PANEL - first - 2 * _GAP, words)
    rows = [
        beside([number._replace(width=first), by], 2 * _GAP),
        beside([share._replace(width=first), *([rest] if rest else [])], 2 * _GAP),
    ]
    if not rest:
        rows += [part for part in [_left(sharing.end.middle, UNITS, _ON_A_PANEL, words)] if part]
    return sheet(framed(below(rows, 12), INSIDE, _PAD, "mat", "line"))


def _refuse_too_large(sharing: Sharing) -> None:
    if len(sharing.start) > THOUSANDS + 1:
        raise SharingError(f"no figure for {sharing.dividend}: the pieces end with the thousands, so at most 9999")


def _counted(
    counts: Counts, top: int, width: float, group: str, words: Phrases, dealt: Collection[int] = ()
) -> Part | None:
    return columns(counts, top, width, group, lambda place: count_in_words(counts[place], place, words), dealt)


def _read(number: int, cell: float, words: Phrases) -> Part:
    """The cards of a number, and beside them what they say, place by place."""
    digits = Counts.of(number)
    said = [count_in_words(digits[place], place, words) for place in digits.places_held or (UNITS,)]
    return beside([cards(number, cell, words), below(said, 0)], 10)


def _who(sharing: Sharing, words: Phrases) -> Part:
    """With ribbons: how many children stand for what; otherwise nothing needs saying."""
    lines: list[Part] = []
    for width in sharing.mat.widths if sharing.ribbons else ():
        said = text(words.say("figure.children-stand-for", count=sharing.mat[width], number=10**width), SMALL)
        bow = (Bow(9, said.height / 2 + 1, 16, place_colour(width)),) if width else ()
        lines.append(Part(said.width + 22, said.height, (*bow, said.at(22, 0))))
    return below(lines, 2)


def _titled(title: str, part: Part) -> Part:
    return below([text(title, TEXT, bold=True), part], 4)


def _mat(title: str, part: Part) -> Part:
    return framed(_titled(title, part), INSIDE, _PAD, "mat", "line")


def _afterwards(stage: Stage, words: Phrases) -> Iterator[Part]:
    """Every way to show the exchanges and what then lies in the middle: side by side or below each other."""
    below_each_other = _left(stage.end, stage.level, _ON_A_PANEL, words)
    assert below_each_other is not None
    mat = framed(below_each_other, INSIDE, _PAD, "mat", "line")
    if not stage.exchanged.pieces:
        yield mat
        return
    for across in range(1, _MOST_PAIRS_ACROSS + 1):
        bank = exchanges(stage.exchanged, across, words)
        if bank.width <= _ON_A_PANEL:
            yield below([framed(bank, INSIDE, _PAD, "card", "muted"), mat], _GAP)
        wide = bank.width + 2 * _PAD
        left = _left(stage.end, stage.level, _ON_A_PANEL - wide - _GAP, words)
        if left is not None:
            high = max(bank.height, left.height)
            at_the_bank = framed(bank._replace(height=high), wide, _PAD, "card", "muted")
            yield beside(
                [at_the_bank, framed(left._replace(height=high), INSIDE - wide - _GAP, _PAD, "mat", "line")], _GAP
            )


def _left(counts: Counts, level: int, width: float, words: Phrases) -> Part | None:
    """What lies in the middle after a stage; None if the width is too small."""
    last = level == UNITS
    if not counts.pieces:
        nothing = "figure.nothing-left-over" if last else "figure.nothing-in-the-middle"
        note = text(words.say(nothing), TEXT, bold=True)
        return note if note.width <= width else None
    row = _counted(counts, counts.places_held[0], width, "left", words)
    title = words.say("figure.left-over" if last else "figure.left-in-the-middle")
    return _titled(title, row) if row else None
