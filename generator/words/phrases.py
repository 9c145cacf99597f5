"""The sentences that the program writes: one file of phrases for each language, filled in here.

A phrase is a text with named places in braces, or a table of such texts by plural category (`one`, `other`; Unicode
CLDR). Of a table, the number given as `count` picks the text. The browser's script reads the same file by the same
rules, so braces hold names and nothing else.
"""

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import Any, NamedTuple

from generator import PROJECT
from generator.errors import HandbookError

Phrase = str | Mapping[str, str]


class Grouping(NamedTuple):
    """The mark between the thousands and the hundreds of a number, and whether numbers of four digits have it too.

    Source: a space in threes, and none needed with four digits, is the SI Brochure 5.4.4; the comma is
    the use of classrooms in the United States.
    """

    mark: str = ","
    in_four_digits: bool = True

    def written(self, number: int) -> str:
        """5,230 or 5 230; with no mark in four digits 5230."""
        return f"{number:,}".replace(",", self.mark) if self.in_four_digits or number >= 10_000 else str(number)


class Phrases(NamedTuple):
    """The phrases of one language, a code such as 'en', with numbers as the school writes them."""

    language: str
    grouping: Grouping = Grouping()

    def say(self, key: str, /, **places: str | int) -> str:
        """A phrase with its places filled in. Raises HandbookError for an unknown key, place or plural category."""
        phrases = _read(self.language).phrases
        if key not in phrases:
            raise HandbookError(f"there is no phrase {key} in {_shown(self.language)}")
        text = phrases[key]
        try:
            if not isinstance(text, str):
                text = text[category(self.language, int(places["count"]))]
            return text.format_map({place: self._said(value) for place, value in places.items()})
        except KeyError as missing:
            given = ", ".join(places) or "nothing"
            raise HandbookError(f"{_shown(self.language)}: {key}: is not given {missing}, but {given}") from None

    def has(self, key: str) -> bool:
        return key in _read(self.language).phrases

    def as_data(self) -> dict[str, Any]:
        """All that scripts need to say them: phrases by key, plural categories, how numbers are written."""
        return {**_read(self.language)._asdict(), "grouping": self.grouping._asdict()}

    def _said(self, value: str | int) -> str:
        return value if isinstance(value, str) else self.grouping.written(value)


class _File(NamedTuple):
    """What a file of phrases holds.

    phrases: by dotted key
    plural: by category, the whole numbers that belong to it; all others belong to `other`
    """

    phrases: Mapping[str, Phrase]
    plural: Mapping[str, Sequence[int]]


def category(language: str, count: int) -> str:
    """The plural category of a whole number, "other" for any that the file does not list."""
    plural = _read(language).plural
    return next((category for category, numbers in plural.items() if count in numbers), "other")


def _shown(language: str) -> str:
    """The path of its file from the top of the project."""
    return f"handbook/{language}/phrases.toml"


@cache
def _read(language: str) -> _File:
    tables = tomllib.loads((PROJECT / _shown(language)).read_text("utf-8"))
    plural = tables.pop("plural")
    return _File(dict(_flat("", tables)), plural)


def _flat(prefix: str, table: Mapping[str, Any]) -> Iterator[tuple[str, Phrase]]:
    """Keys of nested tables joined by dots; a table of the forms of one text is a phrase itself."""
    for key, value in table.items():
        if isinstance(value, str) or "other" in value:
            yield prefix + key, value
        else:
            yield from _flat(f"{prefix}{key}.", value)
