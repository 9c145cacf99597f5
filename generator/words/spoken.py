"""What is said at one place of a sharing: where it begins, on the way to the bank, and at the end.

Most sentences can be said in three ways. They are taken in turn from place to place, so that the same division always
has the same words, and no two places in a row have the same ones.
"""

from collections.abc import Iterator
from itertools import chain
from typing import NamedTuple

from generator.engine.dealing import Action, Step
from generator.engine.places import UNITS
from generator.engine.sharing import Sharing, Stage
from generator.words.numbers import (
    capital,
    listing,
    number_words,
    one_piece,
    place_word,
    said_piece,
    said_pieces,
    small_number,
    stands_for_word,
)
from generator.words.phrases import Phrases

GUIDE, BANKER = "guide", "bank_keeper"
_WAYS = 3


class Said(NamedTuple):
    """A line that somebody says.

    who: a key of the school's roles
    made: how many movements of the place are made before it is said
    """

    who: str
    text: str
    made: int


def opening(words: Phrases, sharing: Sharing) -> str:
    """What the guide says first, unless the lesson has words of its own."""
    dividend = number_words(words, sharing.dividend)
    if not sharing.ribbons:
        key = "guide.among-two" if sharing.divisor == 2 else "guide.among"
        among = words.say(key, divisor=small_number(words, sharing.divisor))
        key = "guide.opening-of-units" if 0 < sharing.dividend < 10 else "guide.opening"
        return words.say(key, count=sharing.dividend, dividend=dividend, among=among)
    sharers, divisor = capital(small_number(words, sharing.sharers)), number_words(words, sharing.divisor)
    key = "guide.opening-with-ribbons"
    return words.say(key, count=sharing.sharers, dividend=dividend, sharers=sharers, divisor=divisor)


def said_at(words: Phrases, sharing: Sharing, stage: Stage) -> Iterator[Said]:
    """What guide and banker say at one stage, in order. Numbers are said up to 9,999; HandbookError beyond."""
    return chain(*said_in_parts(words, sharing, stage))


def said_in_parts(words: Phrases, sharing: Sharing, stage: Stage) -> list[list[Said]]:
    """The lines of `said_at` for each part of the stage.

    Of pieces of one place that go to the bank between rounds only the first is spoken of. With ribbons pieces can be
    short before the first round: who gets what is said when they are there.
    """
    way = (sharing.stages[0].level - stage.level) % _WAYS + 1
    said: list[list[Said]] = []
    told: set[tuple[int, bool]] = set()
    first = next((at for at, step in enumerate(stage.movements) if step.action is Action.DEAL), 0)
    who_gets_what = Said(GUIDE, _beginning(words, sharing, stage, way), first)
    made = 0
    for part in stage.parts:
        lines = [] if said or first else [who_gets_what]
        for step in part.steps:
            if first and made == first:
                lines.append(who_gets_what)
            place, is_later = step.place, step.after.share[stage.level] == stage.rounds
            if step.action is Action.EXCHANGE and (place, is_later) not in told:
                times = part.exchanged[place] if is_later else 1
                key = _to_the_bank(stage, step, way, is_first=not told)
                lines.append(Said(GUIDE, _said_of(words, key, place, times), made))
                if (place, False) not in told:
                    lines.append(Said(BANKER, _said_of(words, f"banker.{way}", place, 1), made))
                told.add((place, is_later))
            made += 1
        if stage.unfinished and not part.goes_on and not part.at_the_bank:
            lines.append(_too_few(words, sharing, stage, way))
        said.append(lines)
    if stage.level == UNITS:
        made -= bool(sharing.remainder)  # what is left over is kept apart after it
        said[-1].append(Said(GUIDE, _end(words, sharing), made))
    return said


def _too_few(words: Phrases, sharing: Sharing, stage: Stage, way: int) -> Said:
    """What is said of a round that cannot be finished: once it is begun, or instead of it with look_first."""
    given_out = max((at for at, step in enumerate(stage.movements, 1) if step.action is Action.DEAL), default=0)
    key, made = ("look-first", given_out) if sharing.look_first else ("take-back", given_out + 1)
    return Said(GUIDE, words.say(f"guide.{key}.{way}"), made)


def _to_the_bank(stage: Stage, step: Step, way: int, *, is_first: bool) -> str:
    """The key of what is said on a trip: after the last round; with ribbons, between rounds or before the first."""
    given = step.after.share[stage.level]
    if given == stage.rounds:
        return f"guide.to-bank.{way}"
    if given:
        return f"guide.short.{way}"
    if not stage.start[step.place - 1]:
        return "guide.at-first.none"
    return f"guide.short-at-first.{way}" if is_first else "guide.at-first.too"


def _beginning(words: Phrases, sharing: Sharing, stage: Stage, way: int) -> str:
    """What the guide says where a place begins: how much there is, and who gets what."""
    if sharing.ribbons:
        return _beginning_with_ribbons(words, sharing, stage, way)
    place, there = stage.level, stage.start[stage.level]
    return words.say(
        f"guide.{_how_it_begins(sharing, stage, way)}",
        count=there,
        number=number_words(words, there),
        place=place_word(words, place),
        pieces=said_piece(words, there, place),
        capital_pieces=capital(said_piece(words, there, place)),
        children=number_words(words, sharing.divisor),
    )


def _how_it_begins(sharing: Sharing, stage: Stage, way: int) -> str:
    """The end of the key of the sentence that fits what lies in the middle, in plain sharing."""
    there, laid = stage.start[stage.level], sharing.start[stage.level]
    if not there:
        return f"nothing.{way}" if stage.level > UNITS else "nothing-at-the-end"
    if stage is sharing.stages[0]:
        first = "largest" if stage.level > UNITS else "only-units"
        return first if stage.rounds else f"{first}-too-few"
    if not stage.rounds:
        return f"too-few.{way}"
    if there == laid:
        return f"next.{way}"
    return f"together.{way}" if laid else "filled"


def _beginning_with_ribbons(words: Phrases, sharing: Sharing, stage: Stage, way: int) -> str:
    widest = len(sharing.mat) - 1
    if not stage.rounds and not stage.unfinished:
        one, stands_for = one_piece(words, stage.level + widest), stands_for_word(words, widest)
        key = f"guide.no-round.{way}" if stage.level > UNITS else "guide.no-round-at-the-end"
        return words.say(key, one=one, stands_for=stands_for)
    each = [
        words.say(
            "guide.gets" if stage.rounds else "guide.would-get",
            count=sharing.mat[width],
            stands_for=stands_for_word(words, width),
            piece=one_piece(words, stage.level + width),
        )
        for width in sharing.mat.widths
    ]
    key = "largest-with-ribbons" if stage is sharing.stages[0] else f"round.{way}"
    return words.say(f"guide.{key}", each=listing(words, each))


def _said_of(words: Phrases, key: str, place: int, times: int) -> str:
    """A sentence about so many pieces of a place that go to the bank."""
    return words.say(
        key,
        count=times,
        pieces=capital(said_piece(words, times, place)),
        one=capital(one_piece(words, place)),
        smaller=place_word(words, place - 1),
    )


def _end(words: Phrases, sharing: Sharing) -> str:
    left = sharing.end.middle
    if not left.pieces:
        return words.say("guide.nothing-left-over-with-ribbons" if sharing.ribbons else "guide.nothing-left-over")
    pieces = said_pieces(words, left)
    if sharing.ribbons and sharing.quotient:
        return words.say("guide.left-over-with-ribbons", pieces=pieces)
    key = "guide.left-over" if sharing.quotient else "guide.all-left-over"
    return words.say(key, count=left.pieces, pieces=capital(pieces))
