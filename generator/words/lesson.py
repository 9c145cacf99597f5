"""The words of a lesson's page: what is set out, every place, the cards at the close, putting the shares together."""

from collections.abc import Iterator
from itertools import groupby
from typing import Any, NamedTuple

from generator.engine.places import UNITS, Counts, place_name
from generator.engine.sharing import Sharing, Stage
from generator.engine.shelf import cards, needs
from generator.words.hands import hands_at
from generator.words.material import cards_named, ribbons_worn, small_cards, trays
from generator.words.numbers import (
    capital,
    in_clauses,
    listing,
    material,
    number_words,
    pieces,
    place_word,
    stands_for_word,
)
from generator.words.phrases import Phrases
from generator.words.spoken import Said, said_in_parts
from generator.words.stages import stage_alternative, stage_heading


class Speech(NamedTuple):
    """Sentences that one person says in a row; `who` is a key of the school's roles."""

    who: str
    sentences: tuple[str, ...]


class PartText(NamedTuple):
    """A part of a place in words: what is said, what the hands do, the alternative text; `id` names its screen."""

    id: str
    at_the_bank: bool
    said: tuple[Speech, ...]
    hands: str
    alternative: str


class PlaceText(NamedTuple):
    """One place in words: its heading, the alternative text of its whole figure, and its parts."""

    level: int
    heading: str
    alternative: str
    parts: tuple[PartText, ...]


def place_texts(words: Phrases, sharing: Sharing) -> tuple[PlaceText, ...]:
    """Every place from the largest to the units."""
    return tuple(_place_text(words, sharing, stage) for stage in sharing.stages)


def _place_text(words: Phrases, sharing: Sharing, stage: Stage) -> PlaceText:
    told = zip(stage.parts, said_in_parts(words, sharing, stage), hands_at(words, sharing, stage), strict=True)
    parts: list[PartText] = []
    for part, said, hands in told:
        alike = sum(before.at_the_bank == part.at_the_bank for before in parts)
        name = f"{place_name(stage.level)}{'-bank' if part.at_the_bank else ''}{f'-{alike + 1}' if alike else ''}"
        alternative = stage_alternative(words, part, sharing)
        parts.append(PartText(name, part.at_the_bank, _by_speaker(said), hands, alternative))
    heading, whole = stage_heading(words, stage, sharing), stage_alternative(words, stage, sharing)
    return PlaceText(stage.level, heading, whole, tuple(parts))


def _by_speaker(lines: list[Said]) -> tuple[Speech, ...]:
    speeches = groupby(lines, key=lambda line: line.who)
    return tuple(Speech(who, tuple(line.text for line in said)) for who, said in speeches)


def to_set_out(words: Phrases, sharing: Sharing) -> tuple[str, ...]:
    """What lies ready before the children come, one thing a line."""
    needed, ready = needs(sharing), sharing.from_bank
    large_cards = "lesson.large-cards-with-ribbons" if sharing.ribbons else "lesson.large-cards"
    each = small_cards(words, needed.small_cards, sharing)
    lines = (
        words.say("lesson.number", count=sharing.start.pieces, pieces=pieces(words, sharing.start)),
        words.say(large_cards, cards=cards_named(words, needed.large_cards), divisor=sharing.divisor),
        trays(words, sharing),
        ribbons_worn(words, sharing) if sharing.ribbons else "",
        words.say("lesson.bank" if ready.pieces else "lesson.no-bank", pieces=pieces(words, ready))
        + (words.say("lesson.bank-cup") if ready.at(UNITS) else ""),
        words.say("lesson.small-cards" if sharing.quotient else "lesson.no-small-cards", cards=each),
        words.say("lesson.dish") if sharing.remainder else "",
    )
    return tuple(filter(None, lines))


def rounds_with_ribbons(words: Phrases, sharing: Sharing) -> str:
    """What each is given in a round, by the ribbons that are worn, and what is done where that is not enough."""
    *larger, smallest = sharing.mat.widths
    bank = words.say("lesson.rounds-bank") if sharing.exchanges else ""
    if not larger:
        return words.say("lesson.rounds", alike=words.say("lesson.rounds-alike"), told="", bank=bank)
    clauses = [
        words.say(
            "lesson.rounds-larger",
            stands_for=stands_for_word(words, width),
            times=stands_for_word(words, width - smallest),
            smallest=stands_for_word(words, smallest),
        )
        for width in reversed(larger)
    ]
    differ = words.say("lesson.rounds-differ", larger=capital(in_clauses(words, clauses)))
    if sharing.exchanges:
        end = words.say("lesson.rounds-look-first" if sharing.look_first else "lesson.rounds-take-back")
        differ += words.say("lesson.rounds-too-few", end=end)
    return words.say("lesson.rounds", alike="", told=differ, bank=bank)


def cards_at_the_close(words: Phrases, sharing: Sharing) -> Iterator[str]:
    """Who fetches which small cards, and what the cards say, one sentence a line."""
    fetched = needs(sharing).small_cards
    if not sharing.quotient:
        yield words.say("lesson.no-card", count=sharing.remainder)
    elif sharing.ribbons:
        for child in fetched:
            key = "lesson.fetches" if child.stands_for == 1 else "lesson.fetches-with-ribbon"
            yield words.say(key, stands_for=child.stands_for, cards=cards_named(words, child.cards))
        yield _answer(words, sharing)
    else:
        quotient = number_words(words, sharing.quotient)
        yield words.say("lesson.each-fetches", cards=cards_named(words, fetched[0].cards), quotient=quotient)
        if 0 in Counts.of(sharing.quotient):
            yield words.say("lesson.zero-shows")
    if sharing.quotient and sharing.remainder:
        yield words.say("lesson.stays-apart", pieces=pieces(words, sharing.end.middle))


def _answer(words: Phrases, sharing: Sharing) -> str:
    """The share of a child for one; if there is none, what each of ten would have of the tray of a child for ten."""
    if sharing.mat[UNITS]:
        return words.say("lesson.answer", quotient=sharing.quotient)
    width = sharing.mat.widths[-1]
    each = [
        words.say("lesson.one-for-every", piece=material(words, place, 1), larger=material(words, place + width, 1))
        for place in Counts.of(sharing.quotient).places_held
    ]
    asked = words.say(
        "lesson.answer-nobody-for-one",
        stands_for=stands_for_word(words, width),
        each=capital(listing(words, each)),
        quotient=sharing.quotient,
    )
    return f"{asked} {words.say('lesson.fetches-answer', cards=cards_named(words, cards(sharing.quotient)))}"


class Screen(NamedTuple):
    """What is shown alone when a lesson is presented. Its link shows `shown`; for a place that is its number card."""

    id: str
    shown: str
    name: str


def screens(words: Phrases, places: tuple[PlaceText, ...]) -> tuple[Screen, ...]:
    """What is presented, in order; every part of a place has a screen of its own."""
    names = {part: words.say(f"lesson.screen.{part}") for part in ("set-out", "finished", "check")}
    set_out, *at_the_end = (Screen(part, name, name) for part, name in names.items())
    of_places: list[Screen] = []
    for level, _, _, parts in places:
        place = capital(place_word(words, level))
        at_place = str(10**level), place
        at_bank = words.say("lesson.screen.bank"), words.say("lesson.screen.to-bank", place=place)
        of_places += [Screen(part.id, *(at_bank if part.at_the_bank else at_place)) for part in parts]
    return (set_out, *of_places, *at_the_end)


def put_together(words: Phrases, sharing: Sharing) -> Iterator[dict[str, Any]]:
    """Adding up all shares and what is left over, the units first: ten of one place make one of the next.

    For every place: the sum in words, how many pieces stay, and how many go up to the next place.
    """
    goes_up = 0
    left_over = sharing.end.middle
    for place, out in enumerate(sharing.out_of_the_bank(sharing.end)):
        together = _together(words, out - left_over[place], left_over[place], goes_up)
        goes_up, stays = divmod(out + goes_up, 10)
        yield {"place": place, "together": together, "stays": stays, "goes_up": goes_up}


def _together(words: Phrases, on_trays: int, left_over: int, brought_up: int) -> str:
    """'28 on the trays + 2 kept apart = 30', without summands of 0."""
    named = {
        "lesson.together.on-trays": on_trays,
        "lesson.together.kept-apart": left_over,
        "lesson.together.brought-up": brought_up,
    }
    parts = [words.say(key, pieces=number) for key, number in named.items() if number]
    if len(parts) < 2:
        return parts[0] if parts else words.say("glance.nothing")
    plus = words.say("lesson.together.plus").join(parts)
    return words.say("lesson.together.sum", parts=plus, pieces=sum(named.values()))
