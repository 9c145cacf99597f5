"""The data of handbook and school that scripts in pages use, as a script itself."""

import json
import re
from collections.abc import Mapping
from typing import Any

from generator import HANDBOOK
from generator.pages.writing.links import lesson_path
from generator.pages.writing.page import site_address
from generator.source.library import Sources
from generator.words.phrases import Phrases

FILE = "js/our-handbook.js"
_SCRIPTS = HANDBOOK / "theme" / "js"
_QUOTED = re.compile(r'["`]([a-z][a-z0-9.-]*)["`$]')
"""In a script: a key of a phrase, or the beginning of a key before its last part is put in."""


def files(for_scripts: Mapping[str, Any]) -> dict[str, bytes]:
    """The script to stage among the pages, by path. It sets `sharing.handbook` to the data, with the phrases in use."""
    words = for_scripts["words"]
    told = {**for_scripts, "words": {**words, "phrases": _named_in_scripts(words["phrases"])}}
    data = json.dumps(told, ensure_ascii=False, separators=(",", ":"))
    return {FILE: f"(globalThis.sharing ??= {{}}).handbook = {data};\n".encode()}


def handbook_data(sources: Sources, words: Phrases) -> dict[str, Any]:
    """The phrases; the settings that answers depend on, keys as in school.toml; every lesson and its page.

    A lesson says `ribbons` only if it has them, and `opening` only if it has words of its own to begin with.
    """
    school = sources.school
    return {
        "words": words.as_data(),
        "shelf": school.shelf.model_dump(),
        "roles": school.roles.model_dump(),
        "time": school.time.model_dump(),
        "look_first": school.look_first,
        "lessons": [
            {
                "page": site_address(lesson_path(lesson)),
                "dividend": lesson.dividend,
                "divisor": lesson.divisor,
                **({"ribbons": True} if lesson.ribbons else {}),
                **({"opening": lesson.opening} if lesson.opening else {}),
            }
            for lesson in sources.lessons
        ],
    }


def _named_in_scripts(phrases: Mapping[str, Any]) -> dict[str, Any]:
    """The phrases whose key, or its beginning, stands in a script; others would only make the page slower to load."""
    quoted = {name for script in _SCRIPTS.rglob("*.js") for name in _QUOTED.findall(script.read_text("utf-8"))}
    beginnings = tuple(name for name in quoted if "." in name and name.endswith((".", "-")))
    return {key: phrase for key, phrase in phrases.items() if key in quoted or key.startswith(beginnings)}
