"""Our scripts as pages load them: one file for each kind of page, without what only people read."""

from __future__ import annotations

import re
from collections.abc import Collection
from pathlib import Path

import yaml

from generator.site.render import MKDOCS_YML

FOLDER = "js/"
KEPT = re.compile(
    r"""
    "(?:\\.|[^"\\\n])*"                                         # a text
    | `(?:\\.|[^`\\])*`                                         # a text with places
    | /(?![\s/*])(?:\\.|\[(?:\\.|[^\]\\\n])*\]|[^/\\\[\n])+/    # a pattern; a division has a space after its stroke
    """,
    re.VERBOSE,
)
_PART = re.compile(rf"(?P<kept>{KEPT.pattern}) | (?:\s|//[^\n]*|/\*.*?\*/)+", re.VERBOSE | re.DOTALL)
_STRICT = '"use strict";'
_NEEDS_SPACE = re.compile(r"[\w$]{2}|\+\+|--")


def lean(script: str) -> str:
    """A script without its comments, and with white space only where two names or two signs would run together.

    Every statement must end with a semicolon, and no text with places may hold another: a test holds ours to both.
    """

    def left(part: re.Match[str]) -> str:
        beside = script[max(part.start() - 1, 0) : part.start()] + script[part.end() : part.end() + 1]
        return part["kept"] or (" " if _NEEDS_SPACE.fullmatch(beside) else "")

    return _PART.sub(left, script)


def listed() -> dict[str, list[str]]:
    """The scripts of each kind of page, in the order in which they run, as mkdocs.yml lists them."""
    scripts: dict[str, list[str]] = yaml.safe_load(MKDOCS_YML.read_text("utf-8"))["extra"]["scripts"]
    return scripts


def joined(folder: Path, paths: Collection[str]) -> dict[str, bytes]:
    """For each kind of page its scripts as one file, by path; only for kinds of which the site has every script."""

    def body(script: str) -> str:
        return lean((folder / script).read_text("utf-8")).removeprefix(_STRICT)

    return {
        f"{FOLDER}{kind}.js": (_STRICT + "".join(map(body, scripts))).encode()
        for kind, scripts in listed().items()
        if set(scripts) <= set(paths)
    }
