"""Values -> text that is safe on a page: numbers in the school's grouping, words that can only be words."""

from __future__ import annotations

import re
from functools import lru_cache
from html import escape as escape_html

from markupsafe import Markup

# Marks that mean something to a Markdown reader anywhere, and those that do at the start of a line only.
_MARKS = re.compile(r"[\\`*_{}\[\]!|~^]|(?<!&)#|^\s*[+\-=:]|^\s*\d+[.)]", re.MULTILINE)
_SIGN = re.compile(r"\D")


def grouped(number: int, separator: str, four_digits: bool = True) -> str:
    """Digits in threes, parted by the separator: 5,230 or 5 230; on request only from five digits on.

    Source: a space in threes, and none needed with four digits, is the SI Brochure 5.4.4; the comma is
    the use of classrooms in the United States.
    """
    return f"{number:,}".replace(",", separator) if four_digits or number >= 10_000 else str(number)


@lru_cache(maxsize=5000)
def plain(text: str) -> Markup:
    """Any text as words: neither HTML nor Markdown in it means anything.

    Character references say the same to a browser and nothing to a Markdown reader. Most of what pages print are
    numbers, and the same ones again and again.
    """
    return Markup(_MARKS.sub(lambda mark: _SIGN.sub(_reference, mark[0]), escape_html(text)))


def _reference(sign: re.Match[str]) -> str:
    return f"&#{ord(sign[0])};"
