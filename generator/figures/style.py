"""Colours of a figure in a light and a dark room.

The words and counts of a place have the colour of its name: common practice, no source. No colour ever stands without
its word.
"""

from functools import cache

from generator.engine.places import place_name

LIGHT = {
    "paper": "#fdfaf3",
    "bank": "#eadcc3",
    "bank-slot": "#f3e9d6",
    "board": "#6b5136",
    "mat": "#f5ead1",
    "mat-slot": "#f9f2e1",
    "tray": "#fffdf8",
    "now": "#fffefb",
    "ink": "#2d2621",
    "muted": "#65574a",
    "rim": "#a0804c",
    "stitch": "#b99c66",
    "faint": "#c4af88",
    "gold": "#e7ae33",
    "gold-top": "#f7d47c",
    "gold-side": "#c98a17",
    "gold-edge": "#6b4700",
    "gold-grid": "#b97f14",
    "glint": "#fff6dc",
    "light": "#fce09a",
    "light-side": "#ecc877",
    "light-edge": "#866a3a",
    "light-grid": "#d9b25c",
    "gone": "#86703f",
    "units": "#1c7440",
    "tens": "#1d5ca3",
    "hundreds": "#b3261e",
    "thousands": "#1c7440",
    "ribbon-tens": "#1d5ca3",
    "ribbon-hundreds": "#b3261e",
    "card": "#fffdf9",
    "card-edge": "#43342a",
}
LIGHT |= {f"card-{name}": LIGHT[name] for name in ("ink", "units", "tens", "hundreds", "thousands")}
DARK = LIGHT | {
    "paper": "#1e1a17",
    "bank": "#382e25",
    "bank-slot": "#2b241e",
    "board": "#b08d5c",
    "mat": "#2d271f",
    "mat-slot": "#26211b",
    "tray": "#221d19",
    "now": "#15110e",
    "ink": "#f3eadc",
    "muted": "#bfb19d",
    "rim": "#a98b5a",
    "stitch": "#8a7550",
    "faint": "#6c5d4b",
    "gold": "#d29a27",
    "gold-top": "#edc565",
    "gold-side": "#a87414",
    "gold-edge": "#ffedbe",
    "gold-grid": "#7d5206",
    "light": "#87692b",
    "light-side": "#6b5322",
    "light-edge": "#d3b672",
    "light-grid": "#a88741",
    "gone": "#a98f62",
    "units": "#7fd09c",
    "tens": "#8fc0f7",
    "hundreds": "#ff9f95",
    "thousands": "#7fd09c",
    "ribbon-tens": "#6aa9ee",
    "ribbon-hundreds": "#f0766b",
}
"""Cards are paper in a dark room too."""

_FONT = "system-ui,'Segoe UI','Helvetica Neue','Liberation Sans',Arial,sans-serif"


@cache
def style_sheet() -> str:
    """Both palettes as CSS variables; which one counts is told by the colour scheme of the page around the figure."""
    dark = {name: colour for name, colour in DARK.items() if colour != LIGHT[name]}
    light, other = _variables(LIGHT), _variables(dark)
    return (
        f"text{{font-family:{_FONT}}}path{{stroke-linejoin:round}}:root{{{light}}}"
        f"@media screen and (prefers-color-scheme:dark){{:root{{{other}}}}}"
    )


def _variables(palette: dict[str, str]) -> str:
    return ";".join(f"--{name}:{colour}" for name, colour in palette.items())


def ribbon_colour(width: int) -> str:
    """The colour of a ribbon that says ten (1) or a hundred (2): common practice, no source."""
    return f"ribbon-{place_name(width)}"
