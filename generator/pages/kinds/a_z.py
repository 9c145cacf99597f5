"""Every page under every word by which people may look for it."""

import re
from collections import defaultdict
from collections.abc import Iterable
from datetime import date
from math import inf

from generator.pages.writing.page import Page
from generator.pages.writing.writer import Writer
from generator.words.numbers import capital

PATH = "reference/a-z.md"


def write_a_z(writer: Writer, every: Iterable[Page], reviewed: date) -> Page:
    """Pages by title and tags in the order of the alphabet; what begins with a number comes first, by its value.

    A tag without a letter is for the search field alone.
    """
    pages: dict[str, dict[str, Page]] = defaultdict(dict)
    for page in every:
        for word in (page.title, *(tag for tag in page.meta["tags"] if any(map(str.isalpha, tag)))):
            pages[capital(word)][page.path] = page
    letters: dict[str, list[tuple[str, tuple[Page, ...]]]] = defaultdict(list)
    mark = writer.school.numbers.mark
    for word in sorted(pages, key=lambda word: _place(word, mark)):
        letters[word[0].upper() if word[0].isalpha() else "0-9"].append((word, tuple(pages[word].values())))
    return writer.page("a-z", PATH, {"letters": letters}, reviewed)


def _place(word: str, mark: str) -> tuple[float, str, str]:
    """Where a word stands among others: 9 children, 10 children, 2,047 for 20, bank; `mark` stands within numbers."""
    number = re.match(r"\d+", word.replace(mark, ""))
    return int(number[0]) if number else inf, word.casefold(), word
