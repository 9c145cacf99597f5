"""What a division is called: titles that begin with what differs, and one line of what is new in it."""

from generator.engine.features import Features, features_of
from generator.engine.sharing import Sharing
from generator.words.numbers import in_a_row, place_words, small_number
from generator.words.phrases import Phrases


def division_name(words: Phrases, sharing: Sharing) -> str:
    """'5,230 among four', '2,684 between two', '3,432 for twelve with ribbons'."""
    key = "title.ribbons" if sharing.ribbons else "title.plain-two" if sharing.divisor == 2 else "title.plain"
    return words.say(key, dividend=sharing.dividend, divisor=small_number(words, sharing.divisor))


def lesson_title(words: Phrases, sharing: Sharing) -> str:
    """'5,230 among four: exchange out of thousands and tens, two left over'."""
    return words.say("title.lesson", division=division_name(words, sharing), way=way_to_the_end(words, sharing))


def way_to_the_end(words: Phrases, sharing: Sharing) -> str:
    """How it goes and what is left over: 'exchange out of thousands and tens, two left over'."""
    return in_a_row(words, [way_of_sharing(words, sharing), *_left_over(words, sharing)])


def way_of_sharing(words: Phrases, sharing: Sharing) -> str:
    """How it goes until the end: 'exchange out of thousands, a zero inside the share', 'shares out as it lies'."""
    if not sharing.quotient:
        return words.say("way.too-few")
    return in_a_row(words, [_exchange(words, sharing), *_zeros(words, features_of(sharing))])


def _exchange(words: Phrases, sharing: Sharing) -> str:
    if sharing.exchanges:
        return words.say("way.exchange", places=place_words(words, sharing.exchanged.places_held))
    return words.say("way.no-exchange" if sharing.remainder else "way.as-it-lies")


def _zeros(words: Phrases, features: Features) -> list[str]:
    found = {"inside": len(features.zeros_inside_quotient), "at-end": len(features.zeros_at_quotient_end)}
    if all(found.values()):
        return [words.say("way.zero-inside-and-at-end")]
    return [
        words.say(f"way.zero{'s' if zeros > 1 else ''}-{where}", zeros=small_number(words, zeros))
        for where, zeros in found.items()
        if zeros
    ]


def _left_over(words: Phrases, sharing: Sharing) -> list[str]:
    if sharing.remainder == 0:
        return []
    if sharing.quotient == 0:
        return [words.say("title.all-left-over")]
    return [words.say("title.left-over", remainder=small_number(words, sharing.remainder))]
