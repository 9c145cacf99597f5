"""One division in words, place by place: what the guide says, what the hands do, what lies where afterwards."""

from __future__ import annotations

from collections.abc import Iterator

from generator.engine.places import UNITS
from generator.engine.sharing import Sharing, Stage, Tray
from generator.engine.steps import Action, Step
from generator.words.numbers import (
    capital,
    in_a_row,
    in_clauses,
    number_words,
    one_piece,
    piece,
    pieces,
    place_word,
    small_number,
)
from generator.words.phrases import Phrases


def opening(said: Phrases, sharing: Sharing) -> str:
    """What the guide says first, unless the lesson has words of its own."""
    dividend = number_words(said, sharing.dividend)
    if not sharing.ribbons:
        return said.say("guide.opening", dividend=dividend, divisor=small_number(said, sharing.divisor))
    sharers, divisor = small_number(said, sharing.sharers), number_words(said, sharing.divisor)
    return said.say("guide.opening_with_ribbons", dividend=dividend, sharers=sharers, divisor=divisor)


def exchange_words(said: Phrases, stage: Stage) -> str:
    """What the guide says at the first exchange of a stage that has one."""
    place = stage.exchanged.places_held[0]
    return said.say("guide.exchange", one=capital(one_piece(said, place)), smaller=place_word(said, place - 1))


def left_over_words(said: Phrases, sharing: Sharing) -> str:
    """What the guide says of what is left over."""
    left = sharing.end.middle
    return said.say("guide.left_over", count=left.pieces, pieces=capital(pieces(said, left)))


def stage_heading(said: Phrases, stage: Stage, sharing: Sharing) -> str:
    """'Thousands: 1 each, 1 to the bank'."""
    rounds = said.say(_heading(stage, sharing), place=capital(place_word(said, stage.level)), rounds=stage.rounds)
    return in_a_row(said, [rounds, *_to_bank(said, stage), *_left_over(said, stage, sharing)])


def _heading(stage: Stage, sharing: Sharing) -> str:
    if sharing.ribbons:
        return "heading.rounds_with_ribbons" if stage.rounds else "heading.none_with_ribbons"
    if stage.rounds:
        return "heading.rounds"
    return "heading.too_few" if _unfinished(stage) else "heading.nothing"


def _to_bank(said: Phrases, stage: Stage) -> Iterator[str]:
    for place in stage.exchanged.places_held:
        times = stage.exchanged[place]
        named = said.grouping.written(times) if place == stage.level else piece(said, times, place)
        yield said.say("heading.to_bank", pieces=named)


def _left_over(said: Phrases, stage: Stage, sharing: Sharing) -> list[str]:
    left = sharing.remainder if stage.level == UNITS else 0
    return [said.say("heading.left_over", remainder=left)] if left else []


def stage_caption(said: Phrases, stage: Stage, sharing: Sharing) -> str:
    """What is dealt at one place, what goes to the bank, and what lies in the middle then."""
    dealt = "rounds" if stage.rounds else "unfinished" if _unfinished(stage) else "nothing"
    lies = "empty" if not stage.end.pieces else "left_over" if stage.level == UNITS else "middle"
    exchange = "caption.exchange_with_ribbons" if sharing.ribbons else "caption.exchange"
    sentences = [
        *_served_round(said, stage, sharing),
        said.say(f"caption.{dealt}", count=stage.rounds),
        *_exchanges(said, exchange, stage),
        said.say(f"caption.{lies}", pieces=pieces(said, stage.end)),
    ]
    return " ".join(sentences)


def _served_round(said: Phrases, stage: Stage, sharing: Sharing) -> Iterator[str]:
    if sharing.ribbons:
        yield said.say("caption.round_with_ribbons", pieces=_served(said, "caption", stage.level, sharing))


def stage_alternative(said: Phrases, stage: Stage, sharing: Sharing) -> str:
    """The figure of one place for those who do not see it."""
    trays = in_clauses(said, [_tray(said, tray, sharing) for tray in sharing.trays(stage.steps[-1].after)])
    lies = "left_over" if stage.level == UNITS else "middle"
    sentences = [
        said.say("alternative.stage", pieces=pieces(said, stage.start), trays=trays),
        *_exchanges(said, "alternative.exchange", stage),
        said.say(f"alternative.{lies}", pieces=pieces(said, stage.end)),
    ]
    return " ".join(sentences)


def _tray(said: Phrases, tray: Tray, sharing: Sharing) -> str:
    key = "alternative.trays_with_ribbons" if sharing.ribbons else "alternative.trays"
    return said.say(key, count=tray.sharers, stands_for=tray.stands_for, pieces=pieces(said, tray.holds))


def _exchanges(said: Phrases, key: str, stage: Stage) -> Iterator[str]:
    for place in stage.exchanged.places_held:
        times = stage.exchanged[place]
        yield said.say(key, pieces=piece(said, times, place), smaller=piece(said, 10 * times, place - 1))


def _served(said: Phrases, table: str, level: int, sharing: Sharing) -> str:
    """With ribbons: what each kind of sharer is dealt in a round at this level."""
    return in_a_row(
        said,
        [
            said.say(f"{table}.piece_with_ribbons", piece=one_piece(said, level + width), stands_for=10**width)
            for width in sharing.mat.widths
        ],
    )


def hands(said: Phrases, step: Step, sharing: Sharing) -> str:
    """What the hands do in one step; nothing where they only go on to the next place."""
    level = step.after.level
    match step.action:
        case Action.DEAL if sharing.ribbons:
            return said.say("hands.deal_with_ribbons", pieces=_served(said, "hands", level, sharing))
        case Action.DEAL:
            return said.say("hands.deal", piece=one_piece(said, level))
        case Action.START:
            return said.say("hands.start", reached=step.after.ahead, sharers=sharing.sharers)
        case Action.TAKE_BACK:
            return said.say("hands.take_back")
        case Action.EXCHANGE:
            one, smaller = one_piece(said, step.place), place_word(said, step.place - 1)
            return said.say("hands.exchange", one=one, smaller=smaller)
        case Action.SET_ASIDE:
            return said.say("hands.set_aside", pieces=pieces(said, step.after.middle))
        case Action.NOTHING:
            key = "hands.nothing_with_ribbons" if sharing.ribbons else "hands.nothing"
            return said.say(key, place=place_word(said, level))
        case Action.GO_ON:
            return ""


def _unfinished(stage: Stage) -> bool:
    """Whether a round is begun here that cannot be finished."""
    return any(step.action is Action.START for step in stage.steps)
