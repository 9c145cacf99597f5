"""The data for scripts: today's number loads it first; it names every lesson and holds the phrases."""

import json
import tomllib
from pathlib import Path

from generator import HANDBOOK

BEFORE = '"use strict";(globalThis.sharing??={}).handbook='


def test_it_tells_every_lesson_the_shelf_and_every_phrase(site: Path) -> None:
    text = (site / "js" / "today.js").read_text("utf-8")
    assert text.startswith(BEFORE)
    data, _ = json.JSONDecoder().raw_decode(text[len(BEFORE) :])
    settings = tomllib.loads((HANDBOOK / "school.toml").read_text("utf-8"))
    assert data["shelf"] == settings["shelf"]
    assert len(data["lessons"]) == len([*HANDBOOK.glob("lessons/*/[0-9]*.toml")])
    for lesson in data["lessons"]:
        between = "for" if lesson.get("ribbons") else "among"
        assert lesson["page"].endswith(f"/{lesson['dividend']}-{between}-{lesson['divisor']}.html")
        assert (site / lesson["page"]).is_file()
    phrases = tomllib.loads((HANDBOOK / "en" / "phrases.toml").read_text("utf-8"))
    assert data["words"]["plural"] == phrases["plural"]
    assert data["words"]["phrases"]["hands.deal"] == phrases["hands"]["deal"]
    assert data["words"]["grouping"] == {"mark": ",", "in_four_digits": True}
