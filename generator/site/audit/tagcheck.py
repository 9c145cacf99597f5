"""What a single tag says by itself, on whatever page it stands: the small checks of the audit."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from hashlib import sha256
from typing import NamedTuple

from generator.errors import Problem
from generator.site.html import ADDRESSES, LISTS_OF_ADDRESSES, Tag, tags, words

SCHEME = re.compile(r"[a-z][a-z0-9+.-]*:", re.IGNORECASE)
INTO_FILE = "move it into a file of its own"

_LINK_TAGS = frozenset({"a", "area"})
_RELATIONS_WITHOUT_REQUEST = frozenset({"author", "canonical", "help", "license", "next", "prev"})
_SCRIPT_TYPES = frozenset(
    {"", "module", "importmap", "speculationrules", "text/javascript", "application/javascript", "text/ecmascript"}
)
STRUCTURE = frozenset({"html", "title", "body", "h1", "script", "table", "caption", "th"})
_DECORATIVE = frozenset({"none", "presentation"})
_IGNORED_IN_SCHEME = re.compile(r"[\x00-\x20]+")


class Link(NamedTuple):
    """An address inside the site that must lead somewhere."""

    attribute: str
    address: str


class Seen(NamedTuple):
    """What one tag says by itself, on whatever page it stands. The positions in `tag` are those within it."""

    tag: Tag
    anchors: tuple[str, ...] = ()
    links: tuple[Link, ...] = ()
    wrongs: tuple[Problem, ...] = ()


NOTHING = Seen(Tag("", False, "", 0, 0))


def script_hash(script: str) -> str:
    """How a content policy names an inline script, without the quotes around it."""
    return "sha256-" + b64encode(sha256(script.encode()).digest()).decode()


def is_known(script: Tag, allowed: Collection[str]) -> bool:
    """Whether a script element comes from a file, is no program, or has a hash that the policy allows."""
    said = script.attributes
    if "src" in said or said.get("type", "").strip().lower() not in _SCRIPT_TYPES:
        return True
    return script_hash(script.inner) in allowed


@lru_cache(maxsize=1 << 16)
def look_at(written: str) -> Seen:
    """What a tag as it is written says by itself: NOTHING if the audit can pass over it.

    Most tags of a site repeat word for word, so this is remembered.
    """
    tag = next(tags(written), None)
    if tag is None or (tag.closes and tag.name not in STRUCTURE):
        return NOTHING
    said = {} if tag.closes else tag.attributes
    anchors = [said["id"]] if said.get("id") else []
    if tag.name == "a" and said.get("name") and said["name"] not in anchors:
        anchors.append(said["name"])
    links: list[Link] = []
    wrongs: list[Problem] = []
    for attribute, value in said.items():
        if attribute in ADDRESSES:
            for address in _split(attribute, value):
                wrong = _refuse(tag.name, said, attribute, address)
                if wrong is not None:
                    wrongs.append(wrong)
                elif not SCHEME.match(address) and not address.startswith("//"):
                    links.append(Link(attribute, address))
        elif attribute == "style":
            wrongs.append(Problem("style", "is an attribute that the content policy refuses", "use a class instead"))
        elif attribute.startswith("on"):
            wrongs.append(Problem(attribute, "is a script that the content policy refuses", INTO_FILE))
    if tag.name == "style":
        wrongs.append(Problem("style", "is an element that the content policy refuses", "move it into a style sheet"))
    elif tag.name == "img" and not said.get("alt") and not ("alt" in said and said.get("role") in _DECORATIVE):
        remedy = 'say in alt what it shows, or mark decoration with alt="" role="presentation"'
        wrongs.append(Problem(f'img src="{said.get("src", "")}"', "has no alternative text", remedy))
    if not (anchors or links or wrongs or tag.name in STRUCTURE):
        return NOTHING
    return Seen(tag, tuple(anchors), tuple(links), tuple(wrongs))


def _split(attribute: str, value: str) -> list[str]:
    if attribute not in LISTS_OF_ADDRESSES or value.lstrip().startswith("data:"):
        return [value.strip()]
    return [part.split()[0] for part in value.split(",") if part.strip()]


def _refuse(name: str, said: Mapping[str, str], attribute: str, address: str) -> Problem | None:
    """What is wrong with an address wherever it stands, or None."""
    key = f'{attribute}="{address}"'
    bare = _IGNORED_IN_SCHEME.sub("", address).lower()
    if bare.startswith(("javascript:", "vbscript:")):
        return Problem(key, "is a script in place of an address", "link to a page")
    link = name in _LINK_TAGS and attribute in ("href", "xlink:href")
    if bare.startswith(("http:", "https:")):
        if link or (name == "link" and set(said.get("rel", "").lower().split()) <= _RELATIONS_WITHOUT_REQUEST):
            return None
        return Problem(key, "makes a request to another host", "keep what the page needs in the handbook")
    if bare.startswith("//"):
        return Problem(key, "leaves out how to reach the other host", "write https: in front, in a plain link only")
    scheme = SCHEME.match(bare)
    if scheme and scheme[0] not in (("mailto:", "tel:") if link else ("data:", "blob:")):
        return Problem(key, f"uses {scheme[0]}, which a page of the handbook must not", "link to a page or file of it")
    return None


@dataclass
class Table:
    """A table while its tags go by; `start` is where it begins."""

    tag: Tag
    start: int
    caption: bool = False
    scopes: set[str] = field(default_factory=set)
    bare: list[int] = field(default_factory=list)

    def take(self, tag: Tag, start: int, text: str) -> None:
        """Note a caption or header cell of this table, which begins at a position of the page."""
        if tag.name == "caption":
            self.caption = bool(words(text[start : text.find("</caption", start)]))
        else:
            scope = tag.attributes.get("scope", "")
            self.scopes.add(scope.removesuffix("group"))
            if scope not in ("col", "row", "colgroup", "rowgroup"):
                self.bare.append(start)

    def wrongs(self) -> Iterator[tuple[int, Problem]]:
        """What is wrong with the table, once all of it has been seen, each with its position."""
        if self.tag.attributes.get("role") in _DECORATIVE:
            return
        if not self.caption:
            yield self.start, Problem("table", "has no caption", "say in a caption what the table holds")
        for scope, called in (("col", "column"), ("row", "row")):
            if scope not in self.scopes:
                remedy = f'mark what names each {called} with th scope="{scope}"'
                yield self.start, Problem("table", f"has no {called} headers", remedy)
        for position in self.bare:
            yield position, Problem("th", "does not say what it names", 'add scope="col" or scope="row"')
