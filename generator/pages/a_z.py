"""Every page under every word by which people may look for it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from datetime import date

from generator.pages.environment import Writer
from generator.pages.page import Page, front_matter
from generator.pages.words import capital

PATH = "reference/a-z.md"


def a_z_page(pages: Iterable[Page], reviewed: date, writer: Writer) -> Page:
    """All titles and other words in the order of the alphabet; what begins with a digit comes first."""
    entries: dict[str, dict[str, Page]] = defaultdict(dict)
    for page in pages:
        for word in (page.title, *page.meta["tags"]):
            entries[capital(word)][page.path] = page
    letters: dict[str, list[tuple[str, tuple[Page, ...]]]] = defaultdict(list)
    for word in sorted(entries, key=lambda word: (word.casefold(), word)):
        letters[word[0].upper() if word[0].isalpha() else "0-9"].append((word, tuple(entries[word].values())))
    body, pictures = writer.render("a-z.md.jinja", PATH, {"letters": letters})
    tags = ["index", "find a page", "all pages", "list of everything"]
    meta = front_matter("Every page by the words people use.", tags, reviewed, writer.school.review.months)
    return Page(PATH, "A-Z of situations", meta, body, pictures)
