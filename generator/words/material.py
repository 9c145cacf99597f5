"""Trays, cards and the shelf in words."""

from collections import Counter
from collections.abc import Sequence

from generator.engine.dealing import Action
from generator.engine.observations import Observation
from generator.engine.places import HUNDREDS, TENS, UNITS, Counts, place_name
from generator.engine.sharing import Sharing
from generator.engine.shelf import ChildCards, Needs, Shelf, Shortage, cards
from generator.words.numbers import in_a_row, in_clauses, listing, pieces
from generator.words.phrases import Phrases

_NOTHING = Counts()


def card_values(words: Phrases, values: Sequence[int]) -> str:
    """The cards of a number as one reads them: '5,000, 200 and 30'."""
    return listing(words, [words.grouping.written(value) for value in values])


def cards_named(words: Phrases, values: Sequence[int]) -> str:
    """The same in a sentence, where a single card is called one: 'the card 7'."""
    return words.say("small-cards.named", count=len(values), cards=card_values(words, values))


def small_cards(words: Phrases, fetched: Sequence[ChildCards], sharing: Sharing) -> str:
    """The cards that each sort of child fetches, and those of the answer if no child stands for one."""
    key = "small-cards.each-with-ribbons" if sharing.ribbons else "small-cards.each"
    each = [
        words.say(key, cards=cards_named(words, child.cards), count=child.sharers, stands_for=child.stands_for)
        for child in fetched
    ]
    if sharing.ribbons and not sharing.mat[UNITS]:
        each.append(words.say("small-cards.for-answer", cards=cards_named(words, cards(sharing.quotient))))
    return in_clauses(words, each)


def trays(words: Phrases, sharing: Sharing) -> str:
    """What is set out for each child; with cups where unit beads lie in the middle or, even for a moment, on a tray."""
    return words.say("lesson.trays", count=sharing.sharers, cups=_cups(words, sharing))


def _cups(words: Phrases, sharing: Sharing) -> str:
    if not sharing.pieces_needed[UNITS]:
        return ""
    begun = any(step.action in (Action.DEAL, Action.START) for step in sharing.stages[-1].steps)
    return words.say("lesson.cups" if begun and sharing.mat[UNITS] else "lesson.cup-in-the-middle")


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
    """Alternative text of the figure of what is set out."""
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
    """Alternative text of the figure of the finished cards."""
    key = "alternative.cards" if sharing.quotient else "alternative.no-cards"
    shown = words.say(key, dividend=sharing.dividend, divisor=sharing.divisor, quotient=sharing.quotient)
    return f"{shown} {left_over(words, sharing)}"


def left_over(words: Phrases, sharing: Sharing) -> str:
    """What is left over, as the alternative text of a figure ends."""
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


def what_is_seen(
    words: Phrases, seen: Observation, ribbons: bool, lying: Counts = _NOTHING, rightly: Counts = _NOTHING
) -> str:
    """What is read on the trays at the close, and what is left over: '1,307 on each of 4 trays, 2 left over'.

    lying: the pieces that are not on a tray; rightly: those that are rightly left over.
    """
    key = "observed.all" if len(seen.trays) == 1 else "observed.some"
    parts = [
        words.say(key, value=tray.value, count=tray.sharers, whose=whose_tray(words, tray.stands_for, ribbons))
        for tray in seen.trays
    ]
    if seen.left is not None:
        parts.append(_not_on_trays(words, seen.left, lying, rightly))
    return in_a_row(words, parts)


def whose_tray(words: Phrases, stands_for: int, ribbons: bool) -> str:
    """' for 10'; "" without ribbons."""
    return words.say("observed.whose", stands_for=stands_for) if ribbons else ""


def _not_on_trays(words: Phrases, value: int, lying: Counts, rightly: Counts) -> str:
    """'2 left over'; or, if a larger piece lies there that should not, what is still in the middle."""
    if any(lying.at(place) > rightly.at(place) for place in range(TENS, len(lying))):
        return words.say("observed.in-the-middle", pieces=pieces(words, lying))
    return words.say("observed.left-over" if value else "observed.nothing-left-over", value=value)


def thing_short(words: Phrases, short: Shortage) -> str:
    """What the shelf has too little of: 'ribbons for ten'."""
    place = f"place.{short.what}"
    return words.say(place if words.has(place) else f"shortage.thing.{short.what}")


def shortage(words: Phrases, short: Shortage) -> str:
    """'units (40 needed, we have 30)'."""
    key = "shortage.cards" if short.what.endswith("_cards_to") else "shortage.pieces"
    return words.say(key, thing=thing_short(words, short), needed=short.needed, owned=short.owned)


def substitutes(words: Phrases, needed: Needs, shelf: Shelf) -> str:
    """What will do for a day: missing cards and sets written on paper, mats for missing trays; a sentence for each."""
    lacking: Counter[int] = Counter()
    for child in needed.small_cards:
        lacking.update({card: child.sharers for card in child.cards if card > shelf.small_cards_to})
    lacking.update(card for card in needed.large_cards if card > shelf.large_cards_to)
    told = [words.say("shortage.on-paper", count=count, value=card) for card, count in lacking.items()]
    if (sets := needed.small_sets - shelf.small_sets) > 0:
        told.append(words.say("shortage.sets-on-paper", count=sets))
    if (trays := needed.trays - shelf.trays) > 0:
        told.append(words.say("shortage.mats-for-trays", count=trays))
    return " ".join(told)


def to_buy(words: Phrases, short: Shortage) -> str:
    """'10 units, to make 40'."""
    if short.what.endswith("_cards_to"):
        return words.say("shortage.cards-to-buy", thing=thing_short(words, short), needed=short.needed)
    more = words.say(f"shortage.more.{short.what}", count=short.needed - short.owned)
    return words.say("shortage.pieces-to-buy", things=more, needed=short.needed)


def on_our_shelf(words: Phrases, shortages: Sequence[Shortage]) -> str:
    """'has enough', 'short of tens, trays'."""
    if not shortages:
        return words.say("shortage.has-it")
    return words.say("shortage.short-of", things=in_a_row(words, [thing_short(words, short) for short in shortages]))
