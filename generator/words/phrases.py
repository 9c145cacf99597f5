"""The sentences that the program writes: one file of phrases for each language, filled in here.

A phrase is a text with named places in braces, or a table of such texts by plural category (`one`, `other`; Unicode
CLDR). Of a table, the number given as `count` picks the text. The browser's script reads the same file by the same
rules, so braces hold names and nothing else.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from babel import Locale
from babel.plural import PluralRule

from generator import HANDBOOK
from generator.errors import HandbookError

_PLACE = re.compile(r"\{(\w+)\}")


@dataclass(frozen=True)
class Phrases:
    """The phrases of one language, by dotted key; `written` writes a whole number as the school does."""

    texts: Mapping[str, str | Mapping[str, str]] = field(repr=False)
    plural: PluralRule = field(repr=False)
    written: Callable[[int], str] = str

    def say(self, key: str, **places: str | int) -> str:
        """A phrase with its places filled in. Raises HandbookError for an unknown key, place or plural category."""
        try:
            text = self.texts[key]
            if not isinstance(text, str):
                text = text[self.plural(int(places["count"]))]
            return _PLACE.sub(lambda place: self._said(places[place[1]]), text)
        except KeyError as missing:
            raise HandbookError(f"phrase {key}: there is no {missing}") from None

    def _said(self, value: str | int) -> str:
        return value if isinstance(value, str) else self.written(value)


def phrases(language: str, written: Callable[[int], str] = str) -> Phrases:
    """The phrases of a language, a code such as 'en'."""
    return Phrases(_texts(language), Locale(language).plural_form, written)


@cache
def _texts(language: str) -> Mapping[str, str | Mapping[str, str]]:
    file: Path = HANDBOOK / language / "phrases.toml"
    return dict(_flat("", tomllib.loads(file.read_text("utf-8"))))


def _flat(prefix: str, table: Mapping[str, Any]) -> Iterator[tuple[str, str | Mapping[str, str]]]:
    """Keys of nested tables joined by dots; a table with `other` is a phrase with forms."""
    for key, value in table.items():
        if isinstance(value, str) or "other" in value:
            yield prefix + key, value
        else:
            yield from _flat(f"{prefix}{key}.", value)
