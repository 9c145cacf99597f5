"""What the scripts in pages know of the handbook and of the school, as a script among the pages."""

import json
import re
from collections.abc import Iterable, Mapping
from itertools import groupby
from pathlib import PurePosixPath
from typing import Any

from generator import HANDBOOK
from generator.pages.writing.links import lesson_path
from generator.pages.writing.page import address
from generator.source.library import Sources
from generator.words.phrases import Phrases, is_phrase

FILE = "js/our-handbook.js"
_SCRIPTS = HANDBOOK / "theme" / "js"
_QUOTED = re.compile(r'["`]([a-z][a-z0-9.-]*)["`$]')
"""In a script: a key of a phrase, or the beginning of a key before its last part is put in."""

_QUOTED_NAME = re.compile(r'"([a-z_]+|\d+)":')
"""A key that needs no quotation marks in a script. Within a text they are escaped, so it can be no part of one."""

_NEVER_SAID = {
    *(f"piece.{name}" for name in ("ten-thousands", "hundred-thousands", "millions", "larger")),
    *("stands-for.thousands", "ribbons.colour.larger"),
    *("figure.for-100-in-short", "guide.nothing.1"),
    *(f"shortage.thing.{ribbons}" for ribbons in ("thousand_ribbons", "larger_ribbons")),
    *(f"today.on-shelf.{cards}" for cards in ("large_cards_to", "small_cards_to", "small_sets")),
}
"""What scripts could ask for by its beginning and never do: pages share out no more than 9,999, among no more than 999,
and of what is needed they count no cards."""


def files(handbook: Mapping[str, Any]) -> dict[str, bytes]:
    """The file to stage among the pages, by path: `sharing.handbook` is what is `known`, with what pages say."""
    words = handbook["words"]
    told = {
        **handbook,
        "words": {**words, "phrases": _asked_for(words["phrases"])},
        "lessons": _by_folder(handbook["lessons"]),
    }
    data = _QUOTED_NAME.sub(r"\1:", json.dumps(told, ensure_ascii=False, separators=(",", ":")))
    return {FILE: f"(globalThis.sharing ??= {{}}).handbook = {data};\n".encode()}


def known(sources: Sources, words: Phrases) -> dict[str, Any]:
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
                "page": address(lesson_path(lesson)),
                "dividend": lesson.dividend,
                "divisor": lesson.divisor,
                **({"ribbons": True} if lesson.ribbons else {}),
                **({"opening": lesson.opening} if lesson.opening else {}),
            }
            for lesson in sources.lessons
        ],
    }


def _by_folder(lessons: Iterable[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """The lessons as `js/words/titles.js` reads them: in the folder of each step, one list a lesson.

    The list holds dividend and divisor, and what is special: an `opening` of its own, and the page's `name` if it is
    not made of the numbers. Lessons with `ribbons` and plain ones do not stand in one list.
    """

    def told(lesson: Mapping[str, Any]) -> list[Any]:
        numbers = [lesson["dividend"], lesson["divisor"]]
        special = {"opening": lesson["opening"]} if "opening" in lesson else {}
        name = PurePosixPath(lesson["page"]).stem
        if name != ("-for-" if "ribbons" in lesson else "-among-").join(map(str, numbers)):
            special["name"] = name
        return [*numbers, special] if special else numbers

    steps = groupby(lessons, lambda lesson: (PurePosixPath(lesson["page"]).parent, "ribbons" in lesson))
    return [
        {"folder": f"{folder}/", **({"ribbons": True} if ribbons else {}), "lessons": list(map(told, own))}
        for (folder, ribbons), own in steps
    ]


def _asked_for(phrases: Mapping[str, Any]) -> dict[str, Any]:
    """The phrases whose key, or its beginning, stands in a script; every reader waits for what is sent."""
    quoted = {name for script in _SCRIPTS.rglob("*.js") for name in _QUOTED.findall(script.read_text("utf-8"))}
    beginnings = tuple(name for name in quoted if "." in name and name.endswith((".", "-")))

    def asked_in(table: Mapping[str, Any], prefix: str) -> dict[str, Any]:
        kept = {}
        for name, value in table.items():
            key = prefix + name
            if is_phrase(value):
                if (key in quoted or key.startswith(beginnings)) and key not in _NEVER_SAID:
                    kept[name] = value
            elif inner := asked_in(value, f"{key}."):
                kept[name] = inner
        return kept

    return asked_in(phrases, "")
