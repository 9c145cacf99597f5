"""The built pages use the words of the room: one word for one thing, and none of those in `words.toml`."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from fnmatch import fnmatch
from pathlib import Path

import pytest
from lxml import html

WORDS = tomllib.loads(Path(__file__).with_name("words.toml").read_text("utf-8"))["not"]
NOT_READ = ("book", "404", "reference/a-z")  # a copy of all pages, no page, and what people type


def texts(page: Path) -> Iterator[str]:
    """What a reader meets: title, description, text and the words for pictures, but no code."""
    tree = html.parse(str(page)).getroot()
    for code in tree.xpath("//pre | //code | //script | //style"):
        code.drop_tree()
    yield from tree.xpath("//title/text() | //meta[@name='description']/@content | //article//@alt")
    for article in tree.xpath("//article"):
        yield " ".join(" ".join(article.itertext()).split())


@pytest.fixture(scope="module")
def pages(site: Path) -> dict[str, list[str]]:
    """The texts of every page by its address."""
    named = {page.relative_to(site).with_suffix("").as_posix(): page for page in sorted(site.rglob("*.html"))}
    return {name: list(texts(page)) for name, page in named.items() if name not in NOT_READ}


@pytest.mark.parametrize("entry", WORDS, ids=lambda entry: entry["word"].split("|")[0])
def test_a_word_that_pages_do_not_use(entry: dict[str, str | list[str]], pages: dict[str, list[str]]) -> None:
    word = re.compile(rf"\b(?:{entry['word']})\b", re.IGNORECASE)
    used = [
        f"{name}: {text[max(0, found.start() - 30) : found.end() + 30]} (rather: {entry['instead']})"
        for name, own in pages.items()
        if not any(fnmatch(name, pattern) for pattern in entry.get("but", ()))
        for text in own
        for found in word.finditer(text)
    ]
    assert used == []
