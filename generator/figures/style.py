"""Colours and sizes. Place colours are common practice, no source; no colour ever stands without its word."""

from __future__ import annotations

COLOURS = {
    "paper": "#fdf8ec",
    "mat": "#f3e8cf",
    "tray": "#fffdf7",
    "card": "#ffffff",
    "wood": "#a98a55",
    "line": "#cdbb94",
    "ink": "#33291b",
    "muted": "#665a45",
    "gold": "#e6ac2f",
    "deep gold": "#cf9018",
    "light gold": "#f6cf6d",
    "grid": "#c98f22",
    "edge": "#7a5200",
    "pale": "#fbefce",
    "pale edge": "#94763a",
    "glint": "#fff3cf",
    "place-0": "#1c7440",
    "place-1": "#1d5ca3",
    "place-2": "#b3261e",
    "place-3": "#1c7440",
}

TEXT = 15.0
SMALL = 13.5


def place_colour(place: int) -> str:
    return f"place-{place}"
