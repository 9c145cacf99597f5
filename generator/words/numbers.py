"""Numbers, places and pieces as people say them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from generator.engine.places import HUNDREDS, THOUSANDS, Counts, place_name
from generator.errors import HandbookError
from generator.words.phrases import Phrases

_LARGEST_SAID = 9999
_LARGEST_SMALL = 12
_LARGEST_NAMED_PLACE = 6


def number_words(said: Phrases, number: int) -> str:
    """A number from 0 to 9,999 as it is said: 5,230 is 'five thousand two hundred thirty'. HandbookError for others."""
    if not 0 <= number <= _LARGEST_SAID:
        raise HandbookError(f"{number} cannot be said in words here; give a number from 0 to {_LARGEST_SAID}")
    if number <= 20:
        return said.say(f"number.{number}")
    if number < 100:
        tens, units = number - number % 10, number % 10
        if not units:
            return said.say(f"number.{tens}")
        return said.say("number.tens_and_units", tens=number_words(said, tens), units=number_words(said, units))
    place = THOUSANDS if number >= 1000 else HUNDREDS
    how_many, rest = divmod(number, 10**place)
    whole = said.say(f"number.of_{place_name(place)}", how_many=number_words(said, how_many))
    return said.say("number.with_rest", whole=whole, rest=number_words(said, rest)) if rest else whole


def small_number(said: Phrases, number: int) -> str:
    """In a sentence: words up to twelve, digits from there."""
    return number_words(said, number) if number <= _LARGEST_SMALL else said.grouping.written(number)


def counted(said: Phrases, number: int, one: str, many: str | None = None) -> str:
    """'1 exchange', '3 exchanges': for authored pages, which name the thing themselves."""
    return said.say("counted.some", count=number, one=one, many=many or said.say("counted.plural", one=one))


def place_word(said: Phrases, place: int) -> str:
    """'tens'."""
    return _of_a_place(said, "place", place)


def place_words(said: Phrases, places: Iterable[int]) -> str:
    """'thousands and tens'."""
    return listing(said, [place_word(said, place) for place in places])


def piece(said: Phrases, number: int, place: int) -> str:
    """'1 ten', '12 hundreds'."""
    return _of_a_place(said, "piece", place, count=number)


def one_piece(said: Phrases, place: int) -> str:
    """'one ten'."""
    return _of_a_place(said, "one_piece", place)


def pieces(said: Phrases, counts: Counts) -> str:
    """'5 thousands, 2 hundreds and 3 tens'; places without a piece are not named."""
    return listing(said, _each_piece(said, counts)) or said.say("piece.none")


def pieces_in_a_row(said: Phrases, counts: Counts) -> str:
    """'1 hundred, 2 tens'."""
    return in_a_row(said, _each_piece(said, counts)) or said.say("piece.none")


def shape(said: Phrases, number: int, place: int) -> str:
    """A place by what lies on the mat: '1 square', '12 bars'."""
    return said.say(f"shape.{place_name(place)}", count=number)


def listing(said: Phrases, items: Sequence[str]) -> str:
    """'a, b and c'."""
    *most, last = items or [""]
    return in_a_row(said, most) + said.say("list.last") + last if most else last


def in_a_row(said: Phrases, items: Iterable[str]) -> str:
    """'a, b, c'."""
    return said.say("list.comma").join(items)


def in_clauses(said: Phrases, items: Iterable[str]) -> str:
    """'a; b; c'."""
    return said.say("list.semicolon").join(items)


def capital(text: str) -> str:
    """The text with a capital first letter and the rest as it is."""
    return text[:1].upper() + text[1:]


def lower_first(text: str) -> str:
    """The text with a small first letter and the rest as it is."""
    return text[:1].lower() + text[1:]


def _each_piece(said: Phrases, counts: Counts) -> list[str]:
    return [piece(said, counts[place], place) for place in counts.places_held]


def _of_a_place(said: Phrases, table: str, place: int, **filled: int) -> str:
    name = place_name(place) if place <= _LARGEST_NAMED_PLACE else "larger"
    return said.say(f"{table}.{name}", power=place, **filled)
