"""A place of a sharing in words: its heading, and the alternative text of its figure."""

from collections.abc import Iterator

from generator.engine.dealing import State
from generator.engine.places import UNITS
from generator.engine.sharing import Sharing, Stage
from generator.words.material import left_over
from generator.words.numbers import capital, in_a_row, in_clauses, listing, piece, pieces, place_word
from generator.words.phrases import Phrases


def stage_heading(words: Phrases, stage: Stage, sharing: Sharing) -> str:
    """'Thousands: 1 each, 1 to the bank'."""
    place = capital(place_word(words, stage.level))
    rounds = words.say(_heading(stage, sharing), place=place, rounds=stage.rounds, count=sharing.mat[UNITS])
    parts = [rounds, *_to_bank(words, stage)]
    if stage.level == UNITS and sharing.remainder:
        parts.append(words.say("title.left-over", remainder=sharing.remainder))
    return in_a_row(words, parts)


def _heading(stage: Stage, sharing: Sharing) -> str:
    if sharing.ribbons:
        if not sharing.mat[UNITS]:
            return "heading.rounds-nobody-for-one" if stage.rounds else "heading.none-nobody-for-one"
        return "heading.rounds-with-ribbons" if stage.rounds else "heading.none-with-ribbons"
    if stage.rounds:
        return "heading.rounds"
    return "heading.too-few" if stage.unfinished else "heading.nothing"


def _to_bank(words: Phrases, stage: Stage) -> Iterator[str]:
    for place in stage.exchanged.places_held:
        times = stage.exchanged[place]
        named = words.grouping.written(times) if place == stage.level else piece(words, times, place)
        yield words.say("heading.to-bank", pieces=named)


def stage_alternative(words: Phrases, stage: Stage, sharing: Sharing) -> str:
    """Alternative text of the figure of one place, or of a part of it."""
    trays = _trays(words, stage.after, sharing)
    lies = "alternative.left-over" if stage.ends_the_sharing else "alternative.middle"
    laid = words.say(_on_trays_then(stage), count=stage.rounds, pieces=pieces(words, stage.start), trays=trays)
    return " ".join([laid, *_exchanges(words, stage, sharing), words.say(lies, pieces=pieces(words, stage.end))])


def _on_trays_then(stage: Stage) -> str:
    if stage.at_the_bank:
        return "alternative.at-the-bank"
    return "alternative.after-rounds" if stage.goes_on else "alternative.stage"


def end_alternative(words: Phrases, sharing: Sharing) -> str:
    """Alternative text of the figure of the end: what every tray holds, and what is left over."""
    trays = _trays(words, sharing.end, sharing)
    return f"{words.say('alternative.end', trays=trays)} {left_over(words, sharing)}"


def _trays(words: Phrases, state: State, sharing: Sharing) -> str:
    """What every tray holds."""
    told: list[str] = []
    trays = sharing.trays(state)
    for tray in trays:
        are_all = sum(other.stands_for == tray.stands_for for other in trays) == 1
        with_ribbons = "alternative.trays-with-ribbons" if are_all else "alternative.some-trays-with-ribbons"
        plain = "alternative.trays" if tray.holds.pieces else "alternative.trays-empty"
        key = with_ribbons if sharing.ribbons else plain
        holds = pieces(words, tray.holds)
        told.append(words.say(key, count=tray.sharers, stands_for=tray.stands_for, pieces=holds))
    return in_clauses(words, told)


def _exchanges(words: Phrases, stage: Stage, sharing: Sharing) -> Iterator[str]:
    for place in dict.fromkeys(trip.place for trip in stage.trips):
        times = stage.exchanged[place]
        moved = words.say(
            "alternative.exchange", pieces=piece(words, times, place), smaller=piece(words, 10 * times, place - 1)
        )
        if sharing.ribbons and stage.rounds:
            moved = words.say("alternative.exchange-then", when=capital(_when(words, stage, place)), exchange=moved)
        yield moved


def _when(words: Phrases, stage: Stage, place: int) -> str:
    """'before rounds 2 and 7', 'after the last round'."""
    rounds = [trip.rounds for trip in stage.trips if trip.place == place]
    before = [words.grouping.written(number + 1) for number in rounds if number < stage.rounds]
    when = [words.say("alternative.before-rounds", count=len(before), rounds=listing(words, before))] if before else []
    if stage.rounds in rounds:
        when.append(words.say("alternative.after-the-last"))
    return listing(words, when)
