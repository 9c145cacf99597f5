"""What is said in a lesson: something at every place, nothing twice in a row, and every number as the engine has it.

Own reasoning, no source. Numbers are read back from the words as the audit of numbers reads them.
"""

import re
from itertools import pairwise

import pytest

from generator.engine.dealing import Action
from generator.engine.places import HUNDREDS, TENS, UNITS
from generator.engine.sharing import Sharing, Stage, share
from generator.words.numbers import said_piece
from generator.words.phrases import Phrases
from generator.words.spoken import BANKER, GUIDE, Said, opening, said_at
from tests.sampling import sample
from tests.site.numbers_words import SAID, number_in
from tests.stock import sources

WORDS = Phrases("en")
LESSONS = sources().lessons
DIVISIONS = [
    *((lesson.dividend, lesson.divisor, lesson.ribbons) for lesson in LESSONS),
    *sample(((dividend, divisor, False) for dividend in range(1, 10_000, 37) for divisor in range(2, 13)), 300),
    *sample(((dividend, divisor, True) for dividend in range(7, 10_000, 97) for divisor in (10, 12, 30, 102, 321)), 60),
]
SHARINGS = [
    share(dividend, divisor, ribbons=ribbons, look_first=look_first)
    for dividend, divisor, ribbons in DIVISIONS
    for look_first in (False, True)
]

KINDS = ("unit", "ten", "hundred", "thousand")
PIECE = re.compile(rf"(?!no\b)({SAID}) ({'|'.join(KINDS)})s?\b", re.IGNORECASE)


def said(sharing: Sharing) -> list[list[Said]]:
    return [list(said_at(WORDS, sharing, stage)) for stage in sharing.stages]


def sentences(text: str) -> list[str]:
    return [part for part in re.split(r"(?<=[.?!]) ", text) if part]


def counted(text: str) -> list[tuple[int, int]]:
    """Every count of pieces in a text, with their place: 'twelve hundreds' as (12, 2)."""
    return [(number_in(number), KINDS.index(kind.lower())) for number, kind in PIECE.findall(text)]


def right_numbers(sharing: Sharing, stage: Stage) -> list[list[tuple[int, int]]]:
    """What each line of a stage may count: these pieces in this order, or only the first of them, or none."""
    level, widths = stage.level, sharing.mat.widths
    largest = level + len(sharing.mat) - 1
    begins = [(1, level + width) for width in widths] if sharing.ribbons else [(stage.start[level], level)]
    if sharing.ribbons and not stage.rounds and not stage.unfinished:
        begins = [(1, largest)]
    lines: list[list[tuple[int, int]]] = []
    actions = [step.action for step in stage.steps]
    dealt = max((at for at, action in enumerate(actions) if action is Action.DEAL), default=-1)
    exchanges = [(at, step.place) for at, step in enumerate(stage.steps) if step.action is Action.EXCHANGE]
    during = list(dict.fromkeys(place for at, place in exchanges if at < dealt))
    afterwards = [place for at, place in exchanges if at > dealt]
    for place in during:
        lines += [[(1, place)], [(1, place), (10, place - 1)]]
    first = actions.index(Action.DEAL) if stage.rounds else 0
    lines.insert(2 * len({place for at, place in exchanges if at < first}), begins)
    if stage.unfinished:
        lines.append([])
    if afterwards:
        lines.append([(len(afterwards), largest), (10, largest - 1)])
        lines += [[(1, largest), (10, largest - 1)]] * (largest not in during)
    if level == UNITS:
        end = sharing.end.middle
        lines.append([(end[place], place) for place in end.places_held])
    return lines


def test_numbers_are_read_back_as_they_are_said() -> None:
    for number in range(1, 120):
        for place in (TENS, HUNDREDS):
            assert counted(f"{said_piece(WORDS, number, place)} come next") == [(number, place)]


def test_something_is_said_at_every_place_and_by_the_banker_at_every_first_trip_of_one() -> None:
    for sharing in SHARINGS:
        for stage, lines in zip(sharing.stages, said(sharing), strict=True):
            trips = {step.place for step in stage.steps if step.action is Action.EXCHANGE}
            assert lines[0].who == GUIDE
            assert len([line for line in lines if line.who == BANKER]) == len(trips)


def test_no_sentence_is_said_twice_in_a_row() -> None:
    for sharing in SHARINGS:
        texts = [opening(WORDS, sharing), *(line.text for lines in said(sharing) for line in lines)]
        spoken = [sentence for text in texts for sentence in sentences(text)]
        assert [pair for pair in pairwise(spoken) if pair[0] == pair[1]] == []


def test_every_number_is_said_right() -> None:
    for sharing in SHARINGS:
        for stage, lines in zip(sharing.stages, said(sharing), strict=True):
            for line, right in zip(lines, right_numbers(sharing, stage), strict=True):
                assert (found := counted(line.text)) == right[: len(found)], line
                for children in re.findall(r"([a-z]+) (?:of you|trays)", line.text):
                    assert children == "each" or number_in(children) == sharing.divisor


@pytest.mark.parametrize(
    ("division", "first"),
    [
        ((8448, 4), "We begin with the largest, the thousands: one to every tray, in turn."),
        ((1246, 2), "We begin with the largest: one thousand, and there are two of you."),
        ((8, 4), "There are only units: one to every tray, in turn."),
        ((3, 5), "There are only three units, and there are five of you."),
        ((1, 2), "There is only one unit, and there are two of you."),
    ],
)
def test_how_a_lesson_begins(division: tuple[int, int], first: str) -> None:
    assert said(share(*division))[0][0].text == first


@pytest.mark.parametrize(
    ("division", "stage", "short"),
    [
        ((2904, 22), 1, "There are no tens. One hundred goes to the bank for some."),
        ((2350, 11), 2, "There are no units. One ten goes to the bank for some."),
        ((1021, 123), 1, "First we need more tens. One hundred goes to the bank for them."),
    ],
    ids=["no tens", "no units", "few tens"],
)
def test_the_bank_comes_first_in_words_where_it_comes_before_the_first_round(
    division: tuple[int, int], stage: int, short: str
) -> None:
    """Who gets what is said once the pieces for it are there."""
    lines = said(share(*division, ribbons=True))[stage]
    assert lines[0].text == short
    assert next(line for line in lines[1:] if line.who == GUIDE and " too. " not in line.text).text.count(" gets ") > 1


def test_the_bank_comes_later_in_words_where_it_comes_between_rounds() -> None:
    lines = said(share(3432, 12, ribbons=True))[1]
    assert lines[1].text == "We need more tens. One hundred goes to the bank for them."


def test_what_else_is_short_before_the_first_round_is_not_called_the_first() -> None:
    """Of 1,021 for 123, a hundred and then one of its tens are changed before the first round of the tens."""
    guide = [line.text for line in said(share(1021, 123, ribbons=True))[1] if line.who == GUIDE]
    assert guide[1] == "We need more units too. One ten goes to the bank for them."


@pytest.mark.parametrize(
    ("division", "last"),
    [
        ((8448, 4), "Nothing is left over. Does every tray hold the same? Count and see."),
        ((2685, 2), "One unit does not go round. It is left over."),
        ((5230, 4), "Two units do not go round. They are left over."),
        ((3, 5), "Three units are left over, and nobody gets any. That is an answer too."),
    ],
)
def test_how_a_lesson_ends(division: tuple[int, int], last: str) -> None:
    assert said(share(*division))[-1][-1].text == last


def test_a_guide_who_looks_first_takes_no_round_back() -> None:
    sharing = share(5230, 4, look_first=True)
    texts = [line.text for lines in said(sharing) for line in lines]
    assert "There is not one for everybody, so nobody gets one now." in texts
    assert not [text for text in texts if "back" in text]
