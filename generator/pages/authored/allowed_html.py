"""What the Markdown of a school may become: words, tables, figures and links, and nothing that runs or loads.

Markdown lets HTML through, so what counts is what comes out. It is converted as MkDocs will convert it, and the result
is held against lists of what is allowed. Only plainly written tags pass (attributes in double quotes, every element
closed, no comments): then no two readers can disagree about where a tag begins. The page's figures, and every class
but those of the theme, may be used. A form may hold fields, but nothing that says where to send them.
"""

import re
import tomllib
from collections.abc import Collection, Iterator
from functools import cache
from html import unescape
from itertools import starmap
from pathlib import Path
from typing import Any, TypeAlias
from urllib.parse import urlsplit

import yaml
from markdown import Markdown

from generator import HANDBOOK, PROJECT
from generator.errors import Problem
from generator.source.fields import unprintable
from generator.source.reading import YAML_LOADER, printable

LARGEST_RESULT = 4_000_000
_ALWAYS_IN_MKDOCS = ("toc", "tables", "fenced_code")

_TAG = re.compile(r'<(/?)([A-Za-z][A-Za-z0-9]*)((?:\s+[A-Za-z][\w-]*(?:="[^"]*")?)*)\s*/?>')
_ATTRIBUTE = re.compile(r'([A-Za-z][\w-]*)(?:="([^"]*)")?')
_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:")
_PLAIN_ID = re.compile(r"(?!__)[\w-]+", re.ASCII)
_OF_THE_THEME = re.compile(r"md-|mermaid$")
"""Classes by which the theme finds its own parts, and by which it loads a program from elsewhere."""

_LINK_WITHOUT_WORDS = re.compile(r"""<a\s[^>]*href="([^"]*)"[^>]*>\s*</a>""")
_ITEM = re.compile(r"(?:[-*+]|\d+\.) ")
_TWO_LIKE_ITEMS = r"^ *(?:([-*+•·\u2013])|\d+([.)]))[ \xa0].*(?<!<br />)(?=\n *(?:\1|\d+\2)[ \xa0])"
_LOST_ITEM = re.compile(rf"(?<=\n) *(?:[-*+]|1\.) .*|{_TWO_LIKE_ITEMS}", re.MULTILINE)
_ROW = re.compile(r" *\|.*\|")
_CODE = re.compile(r"<(pre|code)\b.*?</\1>", re.DOTALL)
_FOR_A_TABLE = 'write a list, or HTML with <caption> and <th scope="col"> and <th scope="row">'
_HEADINGS = {"h1", "h2", "h3", "h4", "h5", "h6"}
_PIXELS = re.compile(r"[0-9]{1,5}")
_SPACES_OF_A_TEXT = str.maketrans("\t\n\r", "   ")

_ALLOWED: dict[str, Any] = tomllib.loads(Path(__file__).with_suffix(".toml").read_text("utf-8"))
_BLOCK = rf"</?(?:{'|'.join(_ALLOWED['blocks'])})\b"
_WORDS_OF_A_BLOCK = re.compile(rf"({_BLOCK}(?<!<pre)[^<>]*>)(.*?)(?={_BLOCK})", re.DOTALL | re.IGNORECASE)

# The pictures of the theme, as a page at the root of the handbook shows them.
_OUR_IMAGES = frozenset(f"images/{file.name}" for file in (HANDBOOK / "theme" / "images").iterdir())

# What must not be there, and how it may be written in the source, to find its line.
Refusal: TypeAlias = tuple[Problem, str]


def refusals(markdown: str, figures: Collection[str], heading: str = "## ") -> Iterator[Refusal]:
    """Everything in the Markdown of a page that must not be there.

    `figures` are the addresses of its figures; `heading` begins the highest heading that may be added.
    """
    if hidden := unprintable(markdown.translate(_SPACES_OF_A_TEXT)):
        yield Problem("", f"holds the hidden character {hidden}", "take it out"), ""
    html = reader().reset().convert(markdown)
    if len(html) > LARGEST_RESULT:
        yield Problem("", f"grows to more than {LARGEST_RESULT} characters", "take out what repeats so often"), ""
        return
    yield from _lost_lists_and_tables(html, markdown)
    yield from _unread(_TAG.sub("\0", _CODE.sub("\0", html)), markdown)
    for address in _LINK_WITHOUT_WORDS.findall(html):
        yield Problem("a link", "has no words", "write them between [ and ]"), unescape(address)
    broken = list(_broken_tags(html))
    yield from broken or _about_tags(html, figures, heading)


def _broken_tags(html: str) -> Iterator[Refusal]:
    """Every < that does not begin a plainly written tag."""
    for after in _TAG.sub("\0", html).split("<")[1:]:
        rest = after.partition("\0")[0].rstrip()
        start = printable(f"<{rest}", most=40)
        if rest.startswith("!--"):
            yield Problem(start, "is a comment that readers would be sent", "write {# ... #}"), "<!--"
        else:
            remedy = 'write tags as <name attribute="value">, and &lt; for the sign itself'
            yield Problem(start, "is not a plainly written tag", remedy), f"<{rest[:8]}"


def _about_tags(html: str, figures: Collection[str], heading: str) -> Iterator[Refusal]:
    """What is wrong with tags that are all plainly written."""
    foreign: set[str] = set()
    open_tags: list[tuple[str, re.Match[str]]] = []
    headings: set[str] = set()
    for tag in _TAG.finditer(html):
        slash, name, attributes = tag[1], tag[2].lower(), tag[3]
        if name not in _ALLOWED["blocks"] and name not in _ALLOWED["within_words"]:
            if name not in foreign:
                remedy = "use Markdown, or &lt; for the sign itself"
                yield Problem(f"<{slash}{name}>", "is not allowed on a page", remedy), f"<{slash}{name}"
            foreign.add(name)
        elif slash:
            last, opened = open_tags.pop() if open_tags else ("", tag)
            if last != name:
                nothing_open = Problem(f"</{name}>", "closes what is not open", "open and close tags in pairs")
                late = name if len(re.findall(rf"<{last}\b", html)) == html.count(f"</{last}>") else ""
                yield _never_closed(last, opened, late) if name in dict(open_tags) else (nothing_open, f"</{name}")
                return
        else:
            if name not in _ALLOWED["never_closed"]:
                open_tags.append((name, tag))
            if name == "h1" and headings:
                words = unescape(html[tag.end() :].partition("<")[0])
                problem, remedy = "is a second heading of the first level", f'write "{heading}" for those below it'
                if "h1" not in headings:
                    problem, remedy = "stands below other headings", "begin the page with it"
                yield Problem(f'"{printable(words)}"', problem, remedy), words
            headings.update({name} & _HEADINGS)
            said = [(key.lower(), unescape(value)) for key, value in _ATTRIBUTE.findall(attributes)]
            yield from ((problem, f"<{name}") for problem in _about_tag(name, said))
            for key, value in said:
                yield from _about_attribute(name, key, value, figures)
    yield from starmap(_never_closed, open_tags)


def _lost_lists_and_tables(html: str, markdown: str) -> Iterator[Refusal]:
    """Lines that were meant for a list or a table and have become words of a paragraph or of another block."""
    tabbed = {line.expandtabs(4) for line in markdown.split("\n") if "\t" in line.strip()}
    for tag, words in _WORDS_OF_A_BLOCK.findall(html):
        rows = [line for line in words.split("\n") if _ROW.match(line) or unescape(line) in tabbed]
        found = _LOST_ITEM.search(words)
        item = found[0].strip() if found else ""
        if _ITEM.match(item) and tag + words in markdown:
            yield _lost(item, "is no list within HTML", "write <ul><li>")
        elif found and _ITEM.match(item):
            remedy = "leave a line empty above it"
            if tag == "<li>":
                remedy = "set it in by four spaces"
            elif found[0].startswith("    "):
                remedy = f"take out the spaces before it, and {remedy}"
            yield _lost(item, "is no list so close below a line of text", remedy)
        elif item:
            yield _lost(item, "is no item of a list", 'begin each with "- " or "1. ", the first below an empty line')
        elif len(rows) > 1:
            yield _lost(rows[0].strip(), "is no row of a table", _FOR_A_TABLE)


def _unread(text: str, markdown: str) -> Iterator[Refusal]:
    """Signs of Markdown that have no effect and so are shown, except those written with a \\ before them."""
    for kind in _ALLOWED["unread"]:
        for found in dict.fromkeys(re.findall(kind["pattern"], text)):
            if re.search(rf"(?<!\\){re.escape(unescape(found))}", markdown):
                yield _lost(found, kind["problem"], kind["remedy"])


def _lost(line: str, problem: str, remedy: str) -> Refusal:
    return Problem(f'"{printable(unescape(_TAG.sub("", line)))}"', problem, remedy), unescape(line.partition("<")[0])


def _never_closed(name: str, opened: re.Match[str], before: str = "") -> Refusal:
    """A tag that is never closed or, with `before`, too late. The words after it are sought: others may be closed."""
    words = re.split(r"[<&\n]", opened.string[opened.end() : opened.end() + 40])[0]
    never = Problem(f"<{name}>", "is never closed", f"close it with </{name}>")
    late = Problem(f"<{name}>", "is closed too late", f"close it before </{before}>")
    return late if before else never, opened[0] + words


def _about_tag(name: str, said: Collection[tuple[str, str]]) -> Iterator[Problem]:
    """What is wrong with a tag and all its attributes together."""
    attributes = dict(said)
    if name == "input" and attributes.get("type", "text") not in _ALLOWED["input_types"]:
        problem = "is neither a box to tick nor a field to write in"
        yield Problem("<input>", problem, 'write type="checkbox" or type="text"')
    if name == "img" and not attributes.get("alt"):
        yield Problem("<img>", "does not say what it shows", 'say it in alt="..."')
    if name == "th" and "scope" not in attributes:
        yield Problem("a table", "has headings that do not say what they name", _FOR_A_TABLE)
    if len(attributes) < len(said):
        yield Problem(f"<{name}>", "says something twice", "write each attribute once")


def _about_attribute(name: str, key: str, value: str, figures: Collection[str]) -> Iterator[Refusal]:
    """What is wrong with one attribute of a tag."""
    shown = f'{key}="{printable(value)}"'
    if key not in _ALLOWED["attributes_of_all"] and key not in _ALLOWED["attributes_of"].get(name, ()):
        yield Problem(f"{key} of <{name}>", "is not allowed on a page", "take it out"), f"{key}="
    elif key == "for" and not _PLAIN_ID.fullmatch(value):
        yield Problem(shown, "is not a field of this page", "write the id of one"), value
    elif key == "id" and not _PLAIN_ID.fullmatch(value):
        remedy = "write letters, digits and hyphens, no two underscores at the start"
        yield Problem(shown, "is not a plain name", remedy), value
    elif key == "class":
        for word in value.split():
            if _OF_THE_THEME.match(word):
                problem = "is one that the theme keeps for its own scripts"
                yield Problem(f'class="{printable(word)}"', problem, "take it out"), word
    elif name in ("img", "source") and key in ("width", "height") and not _PIXELS.fullmatch(value):
        yield Problem(shown, "is no number of pixels", "write one, or leave it out"), value
    elif key == "tabindex" and value != "0":
        yield Problem(shown, "changes the order of the keyboard", "write 0"), "tabindex"
    elif key in ("href", "data-leads-to"):
        yield from ((problem, value) for problem in _about_link(value))
    elif key in ("src", "srcset") and value not in figures and value not in _OUR_IMAGES:
        remedy = "take it out; only our figures can be shown, with picture(...)"
        yield Problem(shown, "is not a figure of this page", remedy), value


def _about_link(address: str) -> Iterator[Problem]:
    """What is wrong with the address of a link. Other hosts are allowed: nothing is loaded until one follows it."""
    key = f'link to "{printable(address)}"'
    bare = re.sub(r"[\x00-\x20]", "", address)
    scheme = _SCHEME.match(bare)
    if scheme and scheme[0].lower() not in _ALLOWED["schemes"]:
        problem = f"uses {printable(scheme[0].lower())}, which must not be on a page"
        yield Problem(key, problem, "link to a page, or to an address that begins with https://")
    elif bare.startswith("/") or "\\" in bare or bare != address.strip(" ") or not _can_be_read(bare):
        spaced = scheme and bare != address.strip(" ")
        remedy = "write it without spaces" if spaced else 'link to a page, such as {{ to("new-here/index.md") }}'
        yield Problem(key, "is not a plain address", remedy)


def _can_be_read(address: str) -> bool:
    try:
        urlsplit(address)
    except ValueError:
        return False
    return True


@cache
def reader() -> Markdown:
    """Converts as MkDocs will, with its own extensions and those of mkdocs.yml."""
    listed = yaml.load((PROJECT / "mkdocs.yml").read_text("utf-8"), YAML_LOADER)["markdown_extensions"]
    settings = {name: given for entry in listed if isinstance(entry, dict) for name, given in entry.items()}
    names = [name for entry in listed for name in ([entry] if isinstance(entry, str) else entry)]
    return Markdown(extensions=[*dict.fromkeys((*_ALWAYS_IN_MKDOCS, *names))], extension_configs=settings)
