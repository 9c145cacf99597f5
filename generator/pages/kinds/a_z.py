"""Every page under every word by which people may look for it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from generator.pages.writing.environment import Writer
from generator.pages.writing.page import Page
from generator.words.numbers import capital

PATH = "reference/a-z.md"


@dataclass(frozen=True)
class Entry:
    """A page with all words by which people may look for it."""

    path: str
    title: str
    words: tuple[str, ...]


@dataclass(frozen=True)
class Entries:
    """Every page of the handbook, and when the list of them was last read through."""

    entries: tuple[Entry, ...]
    reviewed: date


def entries(pages: Iterable[Page], reviewed: date) -> Entries:
    """Pages with their titles and tags; a tag without a letter is for the search field alone."""
    return Entries(tuple(Entry(page.path, page.title, _words(page)) for page in pages), reviewed)


def _words(page: Page) -> tuple[str, ...]:
    return (page.title, *(tag for tag in page.meta["tags"] if any(map(str.isalpha, tag))))


def write_a_z(writer: Writer, every: Entries) -> Page:
    """All titles and other words in the order of the alphabet; what begins with a digit comes first."""
    pages: dict[str, dict[str, Entry]] = defaultdict(dict)
    for entry in every.entries:
        for word in entry.words:
            pages[capital(word)][entry.path] = entry
    letters: dict[str, list[tuple[str, tuple[Entry, ...]]]] = defaultdict(list)
    for word in sorted(pages, key=lambda word: (word.casefold(), word)):
        letters[word[0].upper() if word[0].isalpha() else "0-9"].append((word, tuple(pages[word].values())))
    return writer.page("a-z", PATH, {"letters": letters}, every.reviewed)
