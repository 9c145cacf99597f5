"""Counts the pieces of a figure from the SVG file alone."""

import re
import xml.etree.ElementTree as ElementTree
from collections import Counter
from collections.abc import Iterator

_SVG = "{http://www.w3.org/2000/svg}"
_GROUP = re.compile(r"(middle|trays|to-bank|from-bank|ready|left)-(units|tens|hundreds|thousands)-(full|light|dotted)")
_BEGINS = re.compile(r"M(-?[\d.]+) (-?[\d.]+)")

Spots = list[tuple[float, float]]


def count_pieces(svg: bytes) -> dict[str, int]:
    """How many pieces every group of the figure holds; those of trays are told by tray: 'tray-3-hundreds-full'."""
    root = ElementTree.fromstring(svg)
    trays = list(_trays(root))
    counts: Counter[str] = Counter()
    for name, spots in _pieces(root).items():
        if name.startswith("trays-"):
            for _, y in spots:
                (tray,) = (number for number, (top, low) in enumerate(trays, start=1) if top < y < low)
                counts[f"tray-{tray}{name.removeprefix('trays')}"] += 1
        else:
            counts[name] = len(spots)
    return dict(counts)


def _pieces(root: ElementTree.Element) -> dict[str, Spots]:
    """Where the pieces of every group of the figure begin: {'middle-hundreds-full': [(278.0, 150.3), ...], ...}.

    A group is a `<g>` whose id names it; its first path has one subpath, begun by one `M`, for every piece.
    """
    found: dict[str, Spots] = {}
    for group in root.iter(f"{_SVG}g"):
        name = group.get("id", "")
        if _GROUP.fullmatch(name):
            assert name not in found, f"two groups are called {name}"
            begun = _BEGINS.findall(group.findall(f"{_SVG}path")[0].get("d", ""))
            found[name] = [(float(x), float(y)) for x, y in begun]
    return found


def _trays(root: ElementTree.Element) -> Iterator[tuple[float, float]]:
    """The upper and the lower edge of every tray, from the top down."""
    for boxes in root.iter(f"{_SVG}g"):
        if boxes.get("style", "").startswith("fill:var(--tray);stroke:var(--rim)"):
            for box in boxes:
                top = float(box.get("y", ""))
                yield top, top + float(box.get("height", ""))
