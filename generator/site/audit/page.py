"""What a finished page says by itself, and what is wrong with it whatever the other pages are."""

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from generator.errors import Problem
from generator.site.html import ADDRESSES, LISTS_OF_ADDRESSES, Element, inline_scripts, parse, words
from generator.site.policy import script_hash

_SCHEME = re.compile(r"[a-z][a-z0-9+.-]*:", re.IGNORECASE)

_INTO_FILE = "move it into a file of its own"
_LINK_TAGS = frozenset({"a", "area"})
_RELATIONS_WITHOUT_REQUEST = frozenset({"author", "canonical", "help", "license", "next", "prev"})
_DECORATIVE = frozenset({"none", "presentation"})
_SCOPES = frozenset({"col", "row", "colgroup", "rowgroup"})
_IGNORED_IN_SCHEME = re.compile(r"[\x00-\x20]+")


class Link(NamedTuple):
    """An address inside the site that must lead somewhere."""

    attribute: str
    address: str


@dataclass
class ReadPage:
    """What was found on one page."""

    path: str
    title: str = ""
    anchors: set[str] = field(default_factory=set)
    links: list[Link] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)


def read_page(allowed_scripts: Collection[str], file: tuple[str, str]) -> ReadPage:
    """Read one page, given by path and text; `allowed_scripts` are hashes of scripts that the content policy allows."""
    path, text = file
    root, page = parse(text), ReadPage(path)
    for element in root.iter():
        for attribute, value in element.items():
            _read_attribute(element, attribute, value, page)
    page.problems += _problems(root, allowed_scripts)
    title = root.find("head/title")
    page.title = words(title) if title is not None else ""
    for there, key, remedy in (
        (root.get("lang"), "lang", "state the language in the html tag"),
        (page.title, "title", "give the page a title"),
        (any(map(words, root.iter("h1"))), "h1", "begin the page with a heading of the first level"),
    ):
        if not there:
            page.problems.append(Problem(key, "is missing", remedy))
    return page


def _read_attribute(element: Element, attribute: str, value: str, page: ReadPage) -> None:
    if attribute in ADDRESSES:
        for address in _addresses(attribute, value):
            problem = _refused(str(element.tag), element.get("rel", ""), attribute, address)
            if problem:
                page.problems.append(problem)
            elif not _SCHEME.match(address):
                page.links.append(Link(attribute, address))
    elif attribute == "style":
        problem = Problem("style", "is an attribute that the content policy refuses", "use a class instead")
        page.problems.append(problem)
    elif attribute.startswith("on"):
        page.problems.append(Problem(attribute, "is a script that the content policy refuses", _INTO_FILE))
    elif value and (attribute == "id" or (element.tag == "a" and attribute == "name" and value != element.get("id"))):
        if value in page.anchors:
            page.problems.append(Problem(f'id="{value}"', "is on this page twice", "give each its own"))
        page.anchors.add(value)


def _addresses(attribute: str, value: str) -> list[str]:
    if attribute not in LISTS_OF_ADDRESSES or value.lstrip().startswith("data:"):
        return [value.strip()]
    return [part.split()[0] for part in value.split(",") if part.strip()]


def _refused(tag: str, relation: str, attribute: str, address: str) -> Problem | None:
    """What is wrong with an address wherever it stands, or None."""
    key = f'{attribute}="{address}"'
    bare = _IGNORED_IN_SCHEME.sub("", address).lower()
    if bare.startswith(("javascript:", "vbscript:")):
        return Problem(key, "is a script in place of an address", "link to a page")
    link = tag in _LINK_TAGS and attribute in ("href", "xlink:href")
    if bare.startswith(("http:", "https:")):
        if link or (tag == "link" and set(relation.lower().split()) <= _RELATIONS_WITHOUT_REQUEST):
            return None
        return Problem(key, "makes a request to another host", "keep what the page needs in the handbook")
    if bare.startswith("//"):
        return Problem(key, "leaves out how to reach the other host", "write https: in front, in a plain link only")
    scheme = _SCHEME.match(bare)
    if scheme and scheme[0] not in (("mailto:", "tel:") if link else ("data:", "blob:")):
        return Problem(key, f"uses {scheme[0]}, which a page of the handbook must not", "link to a page or file of it")
    return None


def _problems(root: Element, allowed_scripts: Collection[str]) -> Iterator[Problem]:
    """What is wrong with scripts, styles, images and tables."""
    for script in inline_scripts(root):
        if script_hash(script) not in allowed_scripts:
            problem = "is written into the page and the content policy does not know it"
            yield Problem("script", problem, _INTO_FILE)
    if next(root.iter("style"), None) is not None:
        yield Problem("style", "is an element that the content policy refuses", "move it into a style sheet")
    for image in root.iter("img"):
        if not image.get("alt") and not ("alt" in image.attrib and image.get("role") in _DECORATIVE):
            remedy = 'say in alt what it shows, or mark decoration with alt="" role="presentation"'
            yield Problem(f'img src="{image.get("src", "")}"', "has no alternative text", remedy)
    for table in root.iter("table"):
        if table.get("role") not in _DECORATIVE:
            yield from _table_problems(table)


def _table_problems(table: Element) -> Iterator[Problem]:
    caption = table.find("caption")
    if caption is None or not words(caption):
        yield Problem("table", "has no caption", "say in a caption what the table holds")
    headers = [header for header in table.iter("th") if next(header.iterancestors("table")) is table]
    scopes = {header.get("scope", "").removesuffix("group") for header in headers}
    for scope, called in (("col", "column"), ("row", "row")):
        if scope not in scopes:
            remedy = f'mark what names each {called} with th scope="{scope}"'
            yield Problem("table", f"has no {called} headers", remedy)
    for header in headers:
        if header.get("scope") not in _SCOPES:
            yield Problem("th", "does not say what it names", 'add scope="col" or scope="row"')
