"""A small handbook with every kind of page part, built the way the real one is."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from generator.site import policy, search, servers
from generator.site.changes import change_pages
from generator.site.render import Nav, Settings, render

DOCS = Path(__file__).parent / "sample"

NAV: Nav = [
    {"Start": "index.md"},
    {"I am new here": [{"The material and the rules": "learn/index.md"}, {"Dealing in rounds": "learn/rounds.md"}]},
    {"Lessons": [{"Something is left over": "lessons/uneven/index.md"}]},
    {"When it goes wrong": "trouble/index.md"},
    {"Reference": [{"A-Z of situations": "reference/a-z.md"}]},
]

SETTINGS = Settings(site_name="Hazel Lane sharing handbook", version="1.2.3", built=date(2026, 3, 1))


def build(folder: Path, docs: Path = DOCS, nav: Nav = NAV, settings: Settings = SETTINGS) -> Path:
    """Write a whole site into `folder` and return it."""
    render(docs, folder, nav, settings)
    search.make_offline(folder)
    change_pages(folder, policy.for_pages(folder))
    servers.write(folder, settings.sub_path)
    return folder
