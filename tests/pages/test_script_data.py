"""The data for scripts: one plain script that names every lesson and holds every phrase."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

from generator import HANDBOOK
from generator.pages.kinds.script_data import FILE

BEFORE, AFTER = "(globalThis.sharing ??= {}).handbook = ", ";\n"


def test_it_tells_every_lesson_the_shelf_and_every_phrase(site: Path) -> None:
    text = (site / FILE).read_text("utf-8")
    assert text.startswith(BEFORE)
    assert text.endswith(AFTER)
    data = json.loads(text[len(BEFORE) : -len(AFTER)])
    settings = tomllib.loads((HANDBOOK / "school.toml").read_text("utf-8"))
    assert data["shelf"] == settings["shelf"]
    assert data["sizes"] == settings["groups"]["sizes"]
    pages = [lesson["page"] for lesson in data["lessons"]]
    assert len(pages) == len(set(pages)) == len([*HANDBOOK.glob("lessons/*/[0-9]*.toml")])
    assert all((site / page).is_file() for page in pages)
    phrases = tomllib.loads((HANDBOOK / "en" / "phrases.toml").read_text("utf-8"))
    assert data["words"]["plural"] == phrases["plural"]
    assert data["words"]["phrases"]["hands.deal"] == phrases["hands"]["deal"]
    assert data["words"]["grouping"] == {"mark": ",", "in_four_digits": True}
