"""Changes to finished pages."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TypeAlias

Change: TypeAlias = Callable[[str, str], str]
"""From a page's path in the site and its text to its new text."""


def changed(pages: Iterable[tuple[str, str]], *changes: Change) -> Iterator[tuple[str, bytes]]:
    """Pages, by path, as files: all changes are made to each, one after the other."""
    for page, text in pages:
        for change in changes:
            text = change(page, text)
        yield page, text.encode()
