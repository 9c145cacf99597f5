"""Trays, cards and the shelf in words."""

from __future__ import annotations

from collections.abc import Sequence

from generator.engine.observations import Observation
from generator.engine.sharing import Sharing
from generator.engine.shelf import ChildCards, Shortage, cards
from generator.words.numbers import in_a_row, in_clauses, listing, pieces
from generator.words.phrases import Phrases


def card_values(said: Phrases, values: Sequence[int]) -> str:
    """The cards of a number as one reads them: '5,000, 200 and 30'."""
    return listing(said, [said.grouping.written(value) for value in values])


def small_cards(said: Phrases, fetched: Sequence[ChildCards], sharing: Sharing) -> str:
    """The cards that each sort of child fetches."""
    key = "small_cards.each_with_ribbons" if sharing.ribbons else "small_cards.each"
    each = [
        said.say(key, cards=card_values(said, child.cards), count=child.sharers, stands_for=child.stands_for)
        for child in fetched
    ]
    return in_clauses(said, each)


def cards_to_fetch(said: Phrases, fetched: Sequence[ChildCards], sharing: Sharing) -> str:
    """The same in short, for a card to print."""
    if not sharing.quotient:
        return said.say("cards.none")
    key = "cards.for_one_who" if sharing.ribbons else "cards.for_each"
    each = [said.say(key, cards=card_values(said, child.cards), stands_for=child.stands_for) for child in fetched]
    return in_clauses(said, each)


def ribbons_worn(said: Phrases, sharing: Sharing) -> str:
    """'2 children stand for 100, 1 child stands for 10'."""
    widths = [width for width in sharing.mat.widths if width]
    return in_a_row(
        said, [said.say("ribbons.stand_for", count=sharing.mat[width], stands_for=10**width) for width in widths]
    )


def layout_alternative(said: Phrases, sharing: Sharing) -> str:
    """The figure of what is set out, for those who do not see it."""
    trays_for = [
        said.say("alternative.empty_tray_for", sharers=sharing.mat[width], stands_for=10**width)
        for width in sharing.mat.widths
    ]
    key = "alternative.empty_trays_with_ribbons" if sharing.ribbons else "alternative.empty_trays"
    return said.say(
        "alternative.layout",
        pieces=pieces(said, sharing.start),
        cards=card_values(said, cards(sharing.dividend)),
        divisor=sharing.divisor,
        trays=said.say(key, count=sharing.sharers, who=in_a_row(said, trays_for)),
    )


def cards_alternative(said: Phrases, sharing: Sharing) -> str:
    """The figure of the finished cards, for those who do not see it."""
    return said.say(
        "alternative.cards_and_rest" if sharing.remainder else "alternative.cards",
        dividend=sharing.dividend,
        divisor=sharing.divisor,
        quotient=sharing.quotient,
        pieces=pieces(said, sharing.end.middle),
    )


def product(said: Phrases, sharing: Sharing) -> str:
    """How the shares make the number again."""
    return said.say(
        "glance.product_and_rest" if sharing.remainder else "glance.product",
        quotient=sharing.quotient,
        divisor=sharing.divisor,
        remainder=sharing.remainder,
        dividend=sharing.dividend,
    )


def what_is_seen(said: Phrases, seen: Observation, ribbons: bool) -> str:
    """What is read on the trays at the close, and what is left over: '1,307 on each of the 4 trays, 2 left over'."""
    key = "seen.all" if len(seen.trays) == 1 else "seen.some_with_ribbons" if ribbons else "seen.some"
    parts = [said.say(key, value=tray.value, count=tray.sharers, stands_for=tray.stands_for) for tray in seen.trays]
    if seen.left is not None:
        parts.append(said.say("seen.left_over" if seen.left else "seen.nothing_left_over", value=seen.left))
    return in_a_row(said, parts)


def thing_short(said: Phrases, short: Shortage) -> str:
    """What the shelf has too little of: 'ribbons for ten'."""
    return said.say(f"shortage.thing.{short.what}")


def shortage(said: Phrases, short: Shortage) -> str:
    """'40 units are needed, we have 30'."""
    key = "shortage.cards" if short.what.endswith("_cards_to") else "shortage.pieces"
    return said.say(key, thing=thing_short(said, short), needed=short.needed, owned=short.owned)


def on_our_shelf(said: Phrases, shortages: Sequence[Shortage]) -> str:
    """'has it', 'short of tens, trays'."""
    if not shortages:
        return said.say("shortage.has_it")
    return said.say("shortage.short_of", things=in_a_row(said, [thing_short(said, short) for short in shortages]))
