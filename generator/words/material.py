"""Trays, cards and the shelf in words."""

from __future__ import annotations

from collections.abc import Sequence

from generator.engine.observations import Observation
from generator.engine.places import HUNDREDS, UNITS, Counts, place_name
from generator.engine.sharing import Sharing
from generator.engine.shelf import ChildCards, Shortage, cards
from generator.words.numbers import in_a_row, in_clauses, listing, pieces
from generator.words.phrases import Phrases


def card_values(words: Phrases, values: Sequence[int]) -> str:
    """The cards of a number as one reads them: '5,000, 200 and 30'."""
    return listing(words, [words.grouping.written(value) for value in values])


def cards_named(words: Phrases, values: Sequence[int]) -> str:
    """The same in a sentence, where a single card is called one: 'the card 7'."""
    return words.say("small-cards.named", count=len(values), cards=card_values(words, values))


def small_cards(words: Phrases, fetched: Sequence[ChildCards], sharing: Sharing) -> str:
    """The cards that each sort of child fetches."""
    key = "small-cards.each-with-ribbons" if sharing.ribbons else "small-cards.each"
    each = [
        words.say(key, cards=cards_named(words, child.cards), count=child.sharers, stands_for=child.stands_for)
        for child in fetched
    ]
    return in_clauses(words, each)


def cards_to_fetch(words: Phrases, fetched: Sequence[ChildCards], sharing: Sharing) -> str:
    """The same in short, for a card to print."""
    if not sharing.quotient:
        return words.say("cards.none")
    key = "cards.for-one-who" if sharing.ribbons else "cards.for-each"
    each = [
        words.say(key, cards=card_values(words, child.cards), count=child.sharers, stands_for=child.stands_for)
        for child in fetched
    ]
    return in_clauses(words, each)


def ribbons_worn(words: Phrases, sharing: Sharing) -> str:
    """'Ribbons, blue for ten: 1 child stands for 10. 2 children wear none.'"""
    plain = sharing.mat[UNITS]
    widths = [width for width in sharing.mat.widths if width]
    who = [words.say("ribbons.stand-for", count=sharing.mat[width], stands_for=10**width) for width in widths]
    colours = listing(words, [_colour(words, width) for width in reversed(widths)])
    worn = words.say("ribbons.worn", colours=colours, who=in_a_row(words, who))
    without = words.say("ribbons.without" if plain else "ribbons.nobody-without", count=plain)
    return f"{worn} {without} {words.say('ribbons.how-worn')}"


def _colour(words: Phrases, width: int) -> str:
    known = place_name(width) if width <= HUNDREDS else "larger"
    return words.say(f"ribbons.colour.{known}", stands_for=10**width)


def layout_alternative(words: Phrases, sharing: Sharing) -> str:
    """The figure of what is set out, for those who do not see it."""
    trays_for = [
        words.say("alternative.empty-tray-for", sharers=sharing.mat[width], stands_for=10**width)
        for width in sharing.mat.widths
    ]
    key = "alternative.empty-trays-with-ribbons" if sharing.ribbons else "alternative.empty-trays"
    ready = sharing.from_bank
    on_cards = card_values(words, cards(sharing.dividend))
    sentences = [
        words.say("alternative.layout", pieces=pieces(words, sharing.start), cards=on_cards, divisor=sharing.divisor),
        *([words.say("lesson.bank", pieces=pieces(words, ready))] if ready.pieces else []),
        words.say(key, count=sharing.sharers, who=in_a_row(words, trays_for)),
    ]
    return " ".join(sentences)


def cards_alternative(words: Phrases, sharing: Sharing) -> str:
    """The figure of the finished cards, for those who do not see it."""
    shown = words.say(
        "alternative.cards", dividend=sharing.dividend, divisor=sharing.divisor, quotient=sharing.quotient
    )
    return f"{shown} {left_over(words, sharing)}"


def left_over(words: Phrases, sharing: Sharing) -> str:
    """What lies apart at the end of a figure, for those who do not see it."""
    key = "alternative.left-over" if sharing.remainder else "alternative.nothing-left-over"
    return words.say(key, pieces=pieces(words, sharing.end.middle))


def product(words: Phrases, sharing: Sharing) -> str:
    """How the shares make the number again."""
    return words.say(
        "glance.product-and-rest" if sharing.remainder else "glance.product",
        quotient=sharing.quotient,
        divisor=sharing.divisor,
        remainder=sharing.remainder,
        dividend=sharing.dividend,
    )


def what_is_seen(words: Phrases, seen: Observation, ribbons: bool, left: Counts | None = None) -> str:
    """What is read on the trays at the close, and what is left over: '1,307 on each of 4 trays, 2 left over'.

    left: the pieces, where larger ones may be among them, which are not left over but lie in the middle still.
    """
    key = "observed.all" if len(seen.trays) == 1 else "observed.some-with-ribbons" if ribbons else "observed.some"
    parts = [words.say(key, value=tray.value, count=tray.sharers, stands_for=tray.stands_for) for tray in seen.trays]
    if left and left.pieces > left[UNITS]:
        parts.append(words.say("observed.in-the-middle", pieces=pieces(words, left)))
    elif seen.left is not None:
        parts.append(words.say("observed.left-over" if seen.left else "observed.nothing-left-over", value=seen.left))
    return in_a_row(words, parts)


def thing_short(words: Phrases, short: Shortage) -> str:
    """What the shelf has too little of: 'ribbons for ten'."""
    place = f"place.{short.what}"
    return words.say(place if words.has(place) else f"shortage.thing.{short.what}")


def shortage(words: Phrases, short: Shortage) -> str:
    """'40 units are needed, we have 30'."""
    key = "shortage.cards" if short.what.endswith("_cards_to") else "shortage.pieces"
    return words.say(key, thing=thing_short(words, short), needed=short.needed, owned=short.owned)


def to_buy(words: Phrases, short: Shortage) -> str:
    """'10 units, to have 40'."""
    if short.what.endswith("_cards_to"):
        return words.say("shortage.cards-to-buy", thing=thing_short(words, short), needed=short.needed)
    more = words.say(f"shortage.more.{short.what}", count=short.needed - short.owned)
    return words.say("shortage.pieces-to-buy", things=more, needed=short.needed)


def on_our_shelf(words: Phrases, shortages: Sequence[Shortage]) -> str:
    """'has it', 'short of tens, trays'."""
    if not shortages:
        return words.say("shortage.has-it")
    return words.say("shortage.short-of", things=in_a_row(words, [thing_short(words, short) for short in shortages]))
