"""What a division is called: titles that begin with what differs, and one line of what is new in it."""

from __future__ import annotations

from generator.engine.features import Features, features_of
from generator.engine.sharing import Sharing
from generator.words.numbers import in_a_row, place_words, small_number
from generator.words.phrases import Phrases


def division_name(said: Phrases, sharing: Sharing) -> str:
    """'5,230 among four', '3,432 for twelve with ribbons'."""
    key = "title.ribbons" if sharing.ribbons else "title.plain"
    return said.say(key, dividend=sharing.dividend, divisor=small_number(said, sharing.divisor))


def lesson_title(said: Phrases, sharing: Sharing) -> str:
    """'5,230 among four: exchange out of thousands and tens, two left over'."""
    way = in_a_row(said, [way_of_sharing(said, sharing), *_left_over(said, sharing)])
    return said.say("title.lesson", division=division_name(said, sharing), way=way)


def way_of_sharing(said: Phrases, sharing: Sharing) -> str:
    """How it goes until the end: 'exchange out of thousands, a zero inside the share', 'shares out as it lies'."""
    features = features_of(sharing)
    if features.nobody_gets_any:
        return said.say("way.too_few")
    return in_a_row(said, [_exchange(said, features), *_zeros(said, features)])


def _exchange(said: Phrases, features: Features) -> str:
    if features.exchange_from:
        return said.say("way.exchange", places=place_words(said, features.exchange_from))
    return said.say("way.as_it_lies" if features.exact else "way.no_exchange")


def _zeros(said: Phrases, features: Features) -> list[str]:
    if features.zeros_inside_quotient and features.zeros_at_quotient_end:
        return [said.say("way.zero_inside_and_at_end")]
    if features.zeros_inside_quotient:
        return [said.say("way.zero_inside")]
    return [said.say("way.zero_at_end")] if features.zeros_at_quotient_end else []


def _left_over(said: Phrases, sharing: Sharing) -> list[str]:
    if sharing.remainder == 0:
        return []
    if sharing.quotient == 0:
        return [said.say("title.all_left_over")]
    return [said.say("title.left_over", remainder=small_number(said, sharing.remainder))]
