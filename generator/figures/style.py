"""The light and the dark palette of figures, from palette.toml, and the style sheet that defines them."""

import tomllib
from pathlib import Path

_PALETTE = tomllib.loads(Path(__file__).with_name("palette.toml").read_text("utf-8"))
_ON_CARDS = ("ink", "units", "tens", "hundreds", "thousands")

LIGHT: dict[str, str] = _PALETTE["light"] | {f"card-{name}": _PALETTE["light"][name] for name in _ON_CARDS}
DARK: dict[str, str] = LIGHT | _PALETTE["dark"]
"""Cards are paper in a dark room too."""

_FONT = "system-ui,'Segoe UI','Helvetica Neue','Liberation Sans',Arial,sans-serif"


def _variables(palette: dict[str, str]) -> str:
    return ";".join(f"--{name}:{colour}" for name, colour in palette.items())


STYLE_SHEET = (
    f"text{{font-family:{_FONT}}}path{{stroke-linejoin:round}}:root{{{_variables(LIGHT)}}}"
    f"@media screen and (prefers-color-scheme:dark){{:root{{{_variables(_PALETTE['dark'])}}}}}"
)
"""Both palettes as CSS variables; the colour scheme of the page around the figure picks one."""
