"""Numbers, places and pieces as people say them."""

import re
from collections.abc import Iterable, Sequence

from generator.engine.places import HUNDREDS, THOUSANDS, Counts, place_name
from generator.errors import HandbookError
from generator.words.phrases import Phrases

_LARGEST_SAID = 9999
_LARGEST_SMALL = 12
_LARGEST_NAMED_PLACE = 6


def number_words(words: Phrases, number: int) -> str:
    """A number from 0 to 9,999 in words, as in Britain: 5,230 is 'five thousand two hundred and thirty'.

    HandbookError for others.
    """
    if not 0 <= number <= _LARGEST_SAID:
        raise HandbookError(f"{number} cannot be said in words here; give a number from 0 to {_LARGEST_SAID}")
    units = number % 10
    if number <= 20 or (number < 100 and not units):
        return words.say(f"number.{number}")
    if number < 100:
        tens = number_words(words, number - units)
        return words.say("number.tens-and-units", tens=tens, units=number_words(words, units))
    place = THOUSANDS if number >= 1000 else HUNDREDS
    how_many, rest = divmod(number, 10**place)
    whole = words.say(f"number.of-{place_name(place)}", how_many=number_words(words, how_many))
    if not rest:
        return whole
    key = "number.with-less" if rest < 100 else "number.with-hundreds"
    return words.say(key, whole=whole, rest=number_words(words, rest))


def small_number(words: Phrases, number: int) -> str:
    """In a sentence: words up to twelve, digits from there."""
    return number_words(words, number) if number <= _LARGEST_SMALL else words.grouping.written(number)


def counted(words: Phrases, number: int, one: str, many: str | None = None) -> str:
    """'1 exchange', '3 exchanges': for authored pages, which name the thing themselves."""
    return words.say("counted.some", count=number, one=one, many=many or words.say("counted.plural", one=one))


def place_word(words: Phrases, place: int) -> str:
    """'tens'."""
    return words.say(f"place.{_name(place)}", power=place)


def stands_for_word(words: Phrases, width: int) -> str:
    """The number that somebody with a ribbon stands for, 10**width, in words: 'one', 'ten', 'a hundred'."""
    return words.say(f"stands-for.{place_name(width)}")


def place_words(words: Phrases, places: Iterable[int]) -> str:
    """'thousands and tens'."""
    return listing(words, [place_word(words, place) for place in places])


def piece(words: Phrases, number: int, place: int) -> str:
    """'1 ten', '12 hundreds'."""
    return _pieces_of(words, number, place, words.grouping.written(number))


def one_piece(words: Phrases, place: int) -> str:
    """'one ten'."""
    return said_piece(words, 1, place)


def said_piece(words: Phrases, number: int, place: int) -> str:
    """A piece with its number in words: 'one ten', 'twelve hundreds'."""
    return _pieces_of(words, number, place, number_words(words, number))


def said_pieces(words: Phrases, counts: Counts) -> str:
    """Pieces with their numbers in words: 'nine hundreds, and two tens'."""
    places = counts.places_held
    before_the_last = "list.apart" if len(places) > 1 and places[-2] >= HUNDREDS else "list.last"
    return listing(words, [said_piece(words, counts[place], place) for place in places], before_the_last)


def pieces(words: Phrases, counts: Counts) -> str:
    """'5 thousands, 2 hundreds and 3 tens'; places without a piece are not named."""
    each = [piece(words, counts[place], place) for place in counts.places_held]
    return listing(words, each) or words.say("piece.none")


def shape(words: Phrases, number: int, place: int) -> str:
    """A place by what lies on the mat: '1 square', '12 bars'."""
    return words.say(f"shape.{place_name(place)}", count=number)


def material(words: Phrases, place: int, count: int) -> str:
    """What so many pieces of a place are called, without their number: 'bar', 'bars'."""
    if place > THOUSANDS:
        return words.say("material.larger", count=count, worth=10**place)
    return words.say(f"material.{place_name(place)}", count=count)


def listing(words: Phrases, items: Sequence[str], before_the_last: str = "list.last") -> str:
    """'a, b and c'; with "list.or" before the last: 'a, b or c'."""
    *most, last = items or [""]
    return in_a_row(words, most) + words.say(before_the_last) + last if most else last


def in_a_row(words: Phrases, items: Iterable[str]) -> str:
    """'a, b, c'."""
    return words.say("list.comma").join(items)


def in_clauses(words: Phrases, items: Iterable[str]) -> str:
    """'a; b; c'."""
    return words.say("list.semicolon").join(items)


def capital(text: str) -> str:
    """The text with a capital first letter and the rest as it is."""
    return text[:1].upper() + text[1:]


def lower_first(text: str) -> str:
    """The text with a small first letter and the rest as it is."""
    return text[:1].lower() + text[1:]


def first_sentence(text: str) -> str:
    """The first sentence of a text: after 'e.g. one' and the like it goes on."""
    return re.split(r"(?<=[.!?…])\s+(?![a-z])", text, maxsplit=1)[0]


def _pieces_of(words: Phrases, count: int, place: int, number: str) -> str:
    return words.say(f"piece.{_name(place)}", count=count, number=number, power=place)


def _name(place: int) -> str:
    return place_name(place) if place <= _LARGEST_NAMED_PLACE else "larger"
