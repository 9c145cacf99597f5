"""Finished pages as trees of elements, read by lxml as a browser would read them."""

from collections.abc import Iterator
from typing import TypeAlias

from lxml.etree import HTMLParser, _Element, fromstring

Element: TypeAlias = _Element

# Attributes that hold several addresses, and all that hold any.
LISTS_OF_ADDRESSES = frozenset({"srcset", "imagesrcset"})
ADDRESSES = LISTS_OF_ADDRESSES.union(
    ("href", "xlink:href", "src", "data", "poster", "background", "action", "formaction", "manifest", "ping")
)

_PROGRAMS = frozenset(
    {"", "module", "importmap", "speculationrules", "text/javascript", "application/javascript", "text/ecmascript"}
)


def parse(text: str) -> Element:
    """The `html` element of a page, without comments. Missing elements such as the body are added."""
    parser = HTMLParser(encoding="utf-8", huge_tree=True, remove_comments=True, remove_pis=True)
    root: Element | None = fromstring(text.encode() or b" ", parser)  # nothing comes of a page without a tag
    return fromstring(b"<html>", parser) if root is None else root


def words(element: Element) -> str:
    """The text in an element, spaces run together."""
    return " ".join("".join(element.itertext()).split())


def inline_scripts(page: Element) -> Iterator[Element]:
    """The scripts that are written into a page: neither from a file, nor data."""
    for script in page.iter("script"):
        if "src" not in script.attrib and script.get("type", "").strip().lower() in _PROGRAMS:
            yield script
