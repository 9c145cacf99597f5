"""Values -> text that is safe on a page: words that can only be words."""

from __future__ import annotations

import re
from functools import lru_cache
from html import escape as escape_html

from markupsafe import Markup

# Marks that mean something to a Markdown reader anywhere, and those that do at the start of a line only.
_MARKS = re.compile(r"[\\`*_{}\[\]!|~^]|(?<!&)#|^\s*[+\-=:]|^\s*\d+[.)]", re.MULTILINE)
_SIGN = re.compile(r"\D")


@lru_cache(maxsize=5000)
def plain(text: str) -> Markup:
    """Any text as words: neither HTML nor Markdown in it means anything.

    Character references say the same to a browser and nothing to a Markdown reader. Most of what pages print are
    numbers, and the same ones again and again.
    """
    return Markup(_MARKS.sub(lambda mark: _SIGN.sub(_reference, mark[0]), escape_html(text)))


def _reference(sign: re.Match[str]) -> str:
    return f"&#{ord(sign[0])};"
