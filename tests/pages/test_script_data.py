"""The data for scripts: today's number loads it first; it names every lesson and holds the phrases."""

from __future__ import annotations

import json
import re
import tomllib
from pathlib import Path

from generator import HANDBOOK
from generator.pages.kinds.script_data import files

BEFORE = '"use strict";(globalThis.sharing??={}).handbook='


def test_it_tells_every_lesson_the_shelf_and_every_phrase(site: Path) -> None:
    text = (site / "js" / "today.js").read_text("utf-8")
    assert text.startswith(BEFORE)
    data, _ = json.JSONDecoder().raw_decode(with_quoted_keys(text[len(BEFORE) :]))
    settings = tomllib.loads((HANDBOOK / "school.toml").read_text("utf-8"))
    assert data["shelf"] == settings["shelf"]
    told = [(step["folder"], "ribbons" in step, *lesson) for step in data["lessons"] for lesson in step["lessons"]]
    assert len(told) == len([*HANDBOOK.glob("lessons/*/[0-9]*.toml")])
    for folder, ribbons, dividend, divisor in told:
        assert (site / folder / f"{dividend}-{'for' if ribbons else 'among'}-{divisor}.html").is_file()
    phrases = tomllib.loads((HANDBOOK / "en" / "phrases.toml").read_text("utf-8"))
    assert data["words"]["plural"] == phrases["plural"]
    assert data["words"]["phrases"]["hands"]["deal"] == phrases["hands"]["deal"]
    assert data["words"]["grouping"] == {"mark": ",", "in_four_digits": True}


def with_quoted_keys(data: str) -> str:
    """The data as JSON has it: as it stands in a script, most keys need no quotation marks."""
    return re.sub(r'([{,])([a-z_]+|\d+):(?=["\[{\dtf])', r'\1"\2":', data)


def test_a_lesson_says_what_is_special_of_it() -> None:
    words: dict[str, object] = {"phrases": {}}
    plain = {"page": "lessons/a/6-among-2.html", "dividend": 6, "divisor": 2}
    special = {"page": "lessons/b/first.html", "dividend": 36, "divisor": 12, "ribbons": True, "opening": "Look."}
    (text,) = files({"words": words, "lessons": [plain, special]}).values()
    assert json.loads(with_quoted_keys(text.decode()[text.index(b" = ") + 3 : -2]))["lessons"] == [
        {"folder": "lessons/a/", "lessons": [[6, 2]]},
        {"folder": "lessons/b/", "lessons": [[36, 12, {"opening": "Look.", "name": "first"}]], "ribbons": True},
    ]
