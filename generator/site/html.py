"""Reading finished pages: every tag and where it stands in the text.

The pages are written by our own templates and by the renderer, so this reads well-formed HTML only: it
repairs nothing and builds no tree. It is several times as fast as the parser of the standard library,
against which its tests hold it, and gives exact positions, so that a page can be changed in place.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from html import unescape
from types import MappingProxyType
from typing import NamedTuple

VOID = frozenset(["area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"])

ADDRESSES = frozenset(
    (
        *("href", "xlink:href", "src", "srcset", "imagesrcset", "data", "poster", "background"),
        *("action", "formaction", "manifest", "ping"),
    )
)
LISTS_OF_ADDRESSES = frozenset({"srcset", "imagesrcset"})

_INSIDE = r"""[^>"']*+(?:(?:"[^"]*"|'[^']*')[^>"']*+)*+"""


def _token(which: str = "") -> re.Pattern[str]:
    """A comment, an element of bare text, or a tag of which `which` holds; the parts are for `tags` to name."""
    return re.compile(
        rf"<!--.*?(?:-->|\Z)"
        rf"|<((?i:script|style|textarea|title))(?=[\s/>])({_INSIDE})>(.*?)</(?i:\1)\s*>"
        rf"|<{which}(/?)([a-zA-Z][^\s/>]*)({_INSIDE})>",
        re.DOTALL,
    )


def telling(opening: Iterable[str], closing: Iterable[str]) -> re.Pattern[str]:
    """Tags with attributes, opening tags of some names and closing tags of some.

    Most tags of a page are plain ones, so passing over them reads a page several times as fast.
    """
    return _token(rf"(?=[a-zA-Z][^\s/>]*[\s/]|(?i:{'|'.join(opening)})>|/(?i:{'|'.join(closing)})[\s/>])")


TOKEN = _token()
_ATTRIBUTE = re.compile(r"""([^\s"'>/=]+)(?:\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s"'>]+)))?""")


class Tag(NamedTuple):
    """An opening or closing tag; `text[start:end]` is the tag as written.

    `source` is what stands between the name and the closing bracket. The elements that hold bare text (script,
    style, textarea, title) come as one tag: `inner` is their text, and `end` lies behind their closing tag.
    """

    name: str
    closes: bool
    source: str
    start: int
    end: int
    inner: str = ""

    @property
    def attributes(self) -> Mapping[str, str]:
        return attributes(self.source)

    @property
    def classes(self) -> frozenset[str]:
        return frozenset(self.attributes.get("class", "").split())


def tags(text: str, start: int = 0, end: int | None = None, which: re.Pattern[str] = TOKEN) -> Iterator[Tag]:
    """Every tag between two positions, or those of a `telling` pattern; comments and declarations are passed over."""
    found = which.finditer(text, start) if end is None else which.finditer(text, start, end)
    for token in found:
        bare, bare_source, inner, slash, name, source = token.groups()
        if name is not None:
            yield Tag(name.lower(), slash == "/", source, token.start(), token.end())
        elif bare is not None:
            yield Tag(bare.lower(), False, bare_source, token.start(), token.end(), inner)


@lru_cache(maxsize=1 << 16)
def attributes(source: str) -> Mapping[str, str]:
    """The attributes of a tag, names in lower case, in the order written; one without a value has an empty one."""
    found: dict[str, str] = {}
    for name, double, single, plain in _ATTRIBUTE.findall(source):
        found.setdefault(name.lower(), unescape(double or single or plain))
    return MappingProxyType(found)


def line_at(text: str, position: int) -> int:
    """The line, counted from 1, on which a position lies."""
    return text.count("\n", 0, position) + 1


def closing(text: str, opening: Tag) -> Tag | None:
    """The tag that closes an element, or None if nothing does."""
    depth = 0
    for tag in tags(text, opening.start):
        if tag.name == opening.name:
            depth += -1 if tag.closes else 1
            if not depth:
                return tag
    return None


def words(text: str) -> str:
    """The text of a piece of HTML without its tags, spaces run together."""
    return " ".join(unescape(TOKEN.sub("", text)).split())
