"""The words in which pages speak of numbers, and what they say as values."""

import re

from generator.engine.sharing import Sharing
from tests.site.page_text import PLACES, divide

# A number, the counts of some places, cards, a set of places, or whether the whole statement is so.
Right = int | dict[int, int] | list[int] | set[int] | bool

_UP_TO_TWELVE = (
    *("zero", "one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)
_TEENS = ("thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen")
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_WORDS = {word: number for number, word in enumerate(_UP_TO_TWELVE)} | dict.fromkeys(("no", "none", "nothing"), 0)
_SPOKEN = {
    **_WORDS,
    **{word: 13 + at for at, word in enumerate(_TEENS)},
    **{word: 20 + 10 * at for at, word in enumerate(_TENS)},
}
PLACE_FORMS = {name.removesuffix("s") + ending: place for name, place in PLACES.items() for ending in ("", "s")}

N = r"(?:\d{1,3}(?:[,\u2009\u202f\u00a0]\d{3})+(?!\d)|\d+)"
SMALL = rf"(?:{N}|\b(?:{'|'.join(_WORDS)})\b)"
_ANY_WORD = rf"(?:{'|'.join((*_SPOKEN, 'hundred', 'thousand'))})\b"
_SMALL_WORD = rf"(?:{'|'.join(_SPOKEN)})\b"
SAID = rf"\b{_ANY_WORD}(?:[ -]{_ANY_WORD})*(?:(?<=hundred|housand) and {_SMALL_WORD}(?:-{_SMALL_WORD})?)?"
PLACE = rf"(?:{'|'.join(sorted(PLACE_FORMS, key=len, reverse=True))})\b"
PIECES = rf"(?:{N} {PLACE}(?:(?:, | and ){N} {PLACE})*|nothing)"
CARDS = rf"{N}(?:, {N})*(?: and {N})?"
HOLDS = rf"holds? (?P<p>{PIECES})"

PLACE_HEAD = rf"(?:{'|'.join(name.capitalize() for name in PLACES)})"
_ONE = rf"one {PLACE} (?:to each who stands|to (?:the|each) child) for {N}"
ONE_FOR_EACH = rf"{_ONE}(?:(?:, | and ){_ONE})*"

NAMED = re.compile(rf"(?P<dividend>{N}) (?:(?:among|between) (?P<among>{SMALL})|for (?P<ribbons>{SMALL}) with ribbons)")


def named_division(name: re.Match[str]) -> Sharing:
    """The division that a match of NAMED names."""
    divisor = read(name["ribbons"] or name["among"], 0)
    dividend = read(name["dividend"], 0)
    assert isinstance(dividend, int)
    assert isinstance(divisor, int)
    return divide(dividend, divisor, name["ribbons"] is not None)


def read(text: str, like: Right) -> Right:
    """What a page says in a few words, as a value of the same kind as the right one."""
    if isinstance(like, bool):
        return True
    if isinstance(like, dict):
        return pieces_in(text)
    if isinstance(like, list):
        return [number_in(card) for card in re.findall(N, text)]
    if isinstance(like, set):
        return {PLACE_FORMS[place] for place in re.findall(PLACE, text)}
    return number_in(text)


def pieces_in(text: str) -> dict[int, int]:
    """How many pieces of each place a text names."""
    return {PLACE_FORMS[place]: number_in(count) for count, place in re.findall(rf"({N}) ({PLACE})", text)}


def number_in(text: str) -> int:
    if digits := re.sub(r"\D", "", text):
        return -int(digits) if text[0] in "-\N{MINUS SIGN}" else int(digits)
    total = part = 0
    for word in re.split("[ -]", text.lower()):
        if word == "and":
            continue
        if word == "thousand":
            total, part = total + part * 1000, 0
        else:
            part = part * 100 if word == "hundred" else part + _SPOKEN[word]
    return total + part
