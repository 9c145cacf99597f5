"""What templates print: words that mean nothing to HTML or Markdown, numbers as the school writes them, addresses."""

import re
from datetime import date
from functools import lru_cache
from html import escape
from typing import Any
from urllib.parse import quote

from jinja2 import Undefined
from markupsafe import Markup

from generator.errors import HandbookError
from generator.words.phrases import Grouping

LARGEST_PAGE = 1_000_000  # characters
_OF_PYTHON = re.compile(r" at 0x|[A-Z]\w+\(\w+=")  # in the repr of an object, also inside a text
_WITH_WORDS = (str, int, float, date, Undefined)
# Marks that mean something to a Markdown reader anywhere, and those that do at the start of a line only.
_MARKS = re.compile(r"[\\`*_{}\[\]!|~^]|(?<!&)#|^\s*[+\-=:]|^\s*\d+[.)]", re.MULTILINE)
_HALF_A_CHARACTER = re.compile("[\ud800-\udfff]")


def as_address(path: str) -> Markup:
    """A path as an address that a Markdown reader takes as it is."""
    return Markup(quote(path, safe="/#"))


def printed(grouping: Grouping, value: Any) -> Markup:
    """A value as a template prints it. HandbookError for a text that is too long, and for a list or other object."""
    text = grouping.written(value) if isinstance(value, int) and not isinstance(value, bool) else str(value)
    if len(text) > LARGEST_PAGE:
        raise HandbookError(f"it grows to more than {LARGEST_PAGE} characters")
    if not text.isascii() and (half := _HALF_A_CHARACTER.search(text)):
        raise HandbookError(f"it prints U+{ord(half[0]):X}, half a character")
    if _OF_PYTHON.search(text) or not isinstance(value, _WITH_WORDS):
        raise HandbookError("it prints something that is neither a text nor a number")
    return value if isinstance(value, Markup) else _plain(text)


@lru_cache(maxsize=5000)
def _plain(text: str) -> Markup:
    """Any text as words: neither HTML nor Markdown in it means anything.

    Character references say the same to a browser and nothing to a Markdown reader. Most of what pages print are
    numbers, and the same ones again and again.
    """
    return Markup(_MARKS.sub(_as_references, escape(text)))


def _as_references(mark: re.Match[str]) -> str:
    return "".join(sign if sign.isdecimal() else f"&#{ord(sign)};" for sign in mark[0])
