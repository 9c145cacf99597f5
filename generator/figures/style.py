"""Colours of a figure in a light and a dark room, as palette.toml has them, and the style sheet that says them."""

import tomllib
from functools import cache
from pathlib import Path

from generator.engine.places import place_name

_PALETTE = tomllib.loads(Path(__file__).with_name("palette.toml").read_text("utf-8"))
_ON_CARDS = ("ink", "units", "tens", "hundreds", "thousands")

LIGHT: dict[str, str] = _PALETTE["light"] | {f"card-{name}": _PALETTE["light"][name] for name in _ON_CARDS}
DARK: dict[str, str] = LIGHT | _PALETTE["dark"]
"""Cards are paper in a dark room too."""

_FONT = "system-ui,'Segoe UI','Helvetica Neue','Liberation Sans',Arial,sans-serif"


@cache
def style_sheet() -> str:
    """Both palettes as CSS variables; which one counts is told by the colour scheme of the page around the figure."""
    light, dark = _variables(LIGHT), _variables(_PALETTE["dark"])
    return (
        f"text{{font-family:{_FONT}}}path{{stroke-linejoin:round}}:root{{{light}}}"
        f"@media screen and (prefers-color-scheme:dark){{:root{{{dark}}}}}"
    )


def _variables(palette: dict[str, str]) -> str:
    return ";".join(f"--{name}:{colour}" for name, colour in palette.items())


def ribbon_colour(width: int) -> str:
    """The colour of a ribbon that says ten (1) or a hundred (2): common practice, no source."""
    return f"ribbon-{place_name(width)}"
