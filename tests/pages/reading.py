"""What a reader meets on the built pages, for tests that hold words and advice."""

import posixpath
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from lxml import html

from generator.site.book import BOOK

NOT_READ = ("404", "reference/a-z", "today")
"""Besides the books, which are copies: the page for missing addresses, what people type into the search field, and the
page that scripts fill."""


def is_book(page: str) -> bool:
    """Whether a page of the site, by its path, is a book."""
    return page == BOOK or page.startswith("book-")


class Read(NamedTuple):
    """One page: its title, description and words for pictures; its text; the addresses that the text leads to."""

    around: tuple[str, ...]
    text: str
    links: frozenset[str]


def read_pages(site: Path) -> dict[str, Read]:
    """Every page of a site by its address without the ending."""
    named = {page.relative_to(site).with_suffix("").as_posix(): page for page in sorted(site.rglob("*.html"))}
    return {name: _read(name, page) for name, page in named.items() if name not in NOT_READ and not is_book(page.name)}


def _read(name: str, page: Path) -> Read:
    tree = html.parse(str(page)).getroot()
    for code in tree.xpath("//pre | //code | //script | //style"):
        code.drop_tree()
    around = tree.xpath("//title/text() | //meta[@name='description']/@content | //article//@alt")
    links = frozenset(_targets(name, tree.xpath("//article//a/@href")))
    text = " ".join(" ".join(part for article in tree.xpath("//article") for part in article.itertext()).split())
    return Read(tuple(map(str, around)), text, links)


def _targets(name: str, hrefs: list[str]) -> Iterator[str]:
    for href in hrefs:
        path = href.partition("#")[0]
        yield posixpath.normpath(posixpath.join(posixpath.dirname(name), path)).removesuffix(".html")
