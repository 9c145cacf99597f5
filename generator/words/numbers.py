"""The English of numbers and pieces. A second language needs its own of this file and of templates/."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from generator.engine.places import Counts, place_name
from generator.errors import HandbookError

_SMALL = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
_SMALL += ["thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"]
_TENS = ["zero", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_SHAPES = ("bead", "bar", "square", "cube")


def number_words(number: int) -> str:
    """A number from 0 to 9,999 as it is said: 5,230 is 'five thousand two hundred thirty'. HandbookError for others."""
    if not 0 <= number <= 9999:
        raise HandbookError(f"{number} cannot be said in words here; give a number from 0 to 9999")
    if number < 20:
        return _SMALL[number]
    if number < 100:
        tens, units = divmod(number, 10)
        return _TENS[tens] + (f"-{_SMALL[units]}" if units else "")
    size, name = (1000, "thousand") if number >= 1000 else (100, "hundred")
    head, rest = divmod(number, size)
    return f"{_SMALL[head]} {name}" + (f" {number_words(rest)}" if rest else "")


def small_number(number: int) -> str:
    """In a sentence: words up to twelve, digits from there."""
    return number_words(number) if number <= 12 else str(number)


def count(number: int, singular: str, plural: str | None = None) -> str:
    """'1 exchange', '3 exchanges'."""
    return f"{number} {singular if number == 1 else plural or singular + 's'}"


def piece(number: int, place: int) -> str:
    """'1 ten', '12 hundreds'."""
    return count(number, place_name(place).removesuffix("s"))


def pieces(counts: Counts) -> str:
    """'5 thousands, 2 hundreds and 3 tens'; places without a piece are not named."""
    return listing([piece(counts[place], place) for place in counts.places_held]) or "nothing"


def shape(number: int, place: int) -> str:
    """A place by what lies on the mat: '1 square', '12 bars'."""
    return count(number, _SHAPES[place])


def names(places: Iterable[int]) -> str:
    """'thousands and tens'."""
    return listing([place_name(place) for place in places])


def listing(items: Sequence[str]) -> str:
    """'a, b and c'."""
    return " and ".join(filter(None, (", ".join(items[:-1]), items[-1]))) if items else ""


def capital(text: str) -> str:
    """The text with a capital first letter and the rest as it is."""
    return text[:1].upper() + text[1:]


def lower_first(text: str) -> str:
    """The text with a small first letter and the rest as it is."""
    return text[:1].lower() + text[1:]
