"""Counts the pieces of a figure from the SVG file alone."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree

_SVG = "{http://www.w3.org/2000/svg}"
_GROUP = re.compile(r"(middle|tray-\d+|to-bank|from-bank|left)-(units|tens|hundreds|thousands)")


def count_pieces(svg: bytes) -> dict[str, int]:
    """How many pieces every group of the figure holds: {'tray-3-hundreds': 2, ...}.

    A group is a `<g>` whose id names it; its first path has one subpath, begun by one `M`, for every piece.
    """
    counts: dict[str, int] = {}
    for group in ElementTree.fromstring(svg).iter(f"{_SVG}g"):
        name = group.get("id", "")
        if _GROUP.fullmatch(name):
            assert name not in counts, f"two groups are called {name}"
            counts[name] = group.findall(f"{_SVG}path")[0].get("d", "").count("M")
    return counts
