"""Links that a school wrote, and those of them that lead to no page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from posixpath import dirname, join, normpath
from urllib.parse import unquote, urlsplit

from generator.errors import Fault
from generator.pages.writing.page import address
from generator.source.reading import printable

_NOT_OF_MARKDOWN = "book.html"


@dataclass(frozen=True)
class OwnLink:
    """Where a link on a page leads, and where a school wrote it; the line is 0 where a template made it."""

    page: str
    leads_to: str
    file: str
    line: int


def dead_links(links: Iterable[OwnLink], pages: list[str]) -> Iterator[Fault]:
    """A fault for every link to a page that is not among these; anchors are left to the audit of the finished site."""
    known = {*pages, *map(address, pages), _NOT_OF_MARKDOWN}
    for link in links:
        parts = urlsplit(link.leads_to)
        target = normpath(join(dirname(link.page), unquote(parts.path)))
        if not parts.scheme and parts.path.endswith((".md", ".html")) and target not in known:
            close = get_close_matches(target, pages, n=1)
            remedy = f'did you mean {{{{ to("{close[0]}") }}}}?' if close else "link to a page that is there"
            yield Fault(link.file, link.line, f'link to "{printable(link.leads_to)}"', "leads to no page", remedy)
