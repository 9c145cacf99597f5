"""What the scripts in pages know of the handbook and of the school, as a script among the pages."""

from __future__ import annotations

import json
from typing import Any

from generator.pages.writing.links import lesson_link
from generator.pages.writing.page import address
from generator.source.library import Sources
from generator.words.phrases import Phrases

FILE = "js/our-handbook.js"
_OF_BUILT_PAGES = ("choosing", "first-file", "page", "path", "plan", "plans", "search", "setting")
"""Tables of phrases that no script in a page asks for: every reader would wait for them."""


def files(sources: Sources, words: Phrases) -> dict[str, bytes]:
    """The file to stage among the pages, by path: `sharing.handbook` is what `known` says, with what pages say."""
    handbook = known(sources, words)
    said = {key: phrase for key, phrase in handbook["words"]["phrases"].items() if _is_asked_for(key)}
    handbook["words"]["phrases"] = said
    data = json.dumps(handbook, ensure_ascii=False, separators=(",", ":"))
    return {FILE: f"(globalThis.sharing ??= {{}}).handbook = {data};\n".encode()}


def known(sources: Sources, words: Phrases) -> dict[str, Any]:
    """The phrases; the settings that answers depend on, keys as in school.toml; every lesson and its page.

    A lesson with words of its own to begin with has them as `opening`.
    """
    school = sources.school
    links = [lesson_link(lesson, words) for lesson in sources.lessons]
    return {
        "words": words.as_data(),
        "shelf": school.shelf.model_dump(),
        "roles": school.roles.model_dump(),
        "sizes": school.groups.sizes,
        "time": school.time.model_dump(),
        "look_first": school.look_first,
        "lessons": [
            {
                "page": address(link.path),
                "dividend": link.dividend,
                "divisor": link.divisor,
                "ribbons": link.ribbons,
                **({"opening": lesson.opening} if lesson.opening else {}),
            }
            for lesson, link in zip(sources.lessons, links, strict=True)
        ],
    }


def _is_asked_for(key: str) -> bool:
    return key.split(".")[0] not in _OF_BUILT_PAGES
