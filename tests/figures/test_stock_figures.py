"""What stands in the files of the stock handbook's figures: places that never move, text that can be read."""

import re
import xml.etree.ElementTree as ElementTree
from collections import defaultdict
from pathlib import Path
from typing import NamedTuple

import pytest

from generator.engine.places import place_name
from generator.source.models import Lesson
from tests.figures.cases import WORDS
from tests.figures.legible import ON_A_PHONE, contrast
from tests.stock import sources

_SVG = "{http://www.w3.org/2000/svg}"
_BEGINS = re.compile(r"^-?[\d.]+ -?[\d.]+")
PLACES = {WORDS.say(f"place.{place_name(place)}"): place for place in range(4)}
LESSONS = sources().lessons

Rectangle = tuple[float, float, float, float]


class Text(NamedTuple):
    """A line of text and the colour beneath it, both by name."""

    words: str
    x: float
    y: float
    size: float
    colour: str
    ground: str
    anchor: str


class Read(NamedTuple):
    """A figure as its file has it.

    sizes: by group, the outline of its first piece from where it begins, and how wide its pen is
    """

    width: float
    height: float
    palettes: list[dict[str, str]]
    texts: list[Text]
    sizes: dict[str, tuple[str, str]]


def read(file: Path) -> Read:
    svg = ElementTree.fromstring(file.read_bytes())
    texts: list[Text] = []
    grounds: list[tuple[Rectangle, str]] = []
    for mark in svg:
        style = dict(part.split(":") for part in mark.get("style", "").split(";") if part)
        if mark.tag == f"{_SVG}g" and style.get("fill", "none") != "none":
            grounds += [(around(box), style["fill"]) for box in mark.iter(f"{_SVG}rect")]
        elif mark.tag == f"{_SVG}text":
            x, y = float(mark.get("x", "")), float(mark.get("y", ""))
            (beneath,) = [colour for (a, b, c, d), colour in grounds if a <= x <= c and b <= y <= d][-1:]
            size = float(style["font-size"].removesuffix("px"))
            anchor = style.get("text-anchor", "start")
            texts.append(Text(mark.text or "", x, y, size, name(style["fill"]), name(beneath), anchor))
    sizes = {}
    for group in svg.iterfind(f"{_SVG}g[@id]"):
        path = group.findall(f"{_SVG}path")[0]
        outline = _BEGINS.sub("", path.get("d", "").split("M")[1])
        (pen,) = re.findall(r"stroke-width:([\d.]+)", path.get("style", ""))
        sizes[group.get("id", "")] = (outline, pen)
    sheet = svg.find(f"{_SVG}style")
    assert sheet is not None
    light, dark = (dict(re.findall(r"--([a-z-]+):(#\w+)", part)) for part in (sheet.text or "").split("@media"))
    return Read(float(svg.get("width", "")), float(svg.get("height", "")), [light, light | dark], texts, sizes)


def around(box: ElementTree.Element) -> Rectangle:
    x, y, width, height = (float(box.get(name, "")) for name in ("x", "y", "width", "height"))
    return x, y, x + width, y + height


def name(colour: str) -> str:
    return colour.removeprefix("var(--").removesuffix(")")


def drawings(lesson: Lesson, site: Path, narrow: bool) -> dict[str, Read]:
    """All drawings of a lesson for one width of screen, by what they show; not those of its plan, for paper."""
    stem = f"{lesson.dividend}-{'for' if lesson.ribbons else 'among'}-{lesson.divisor}-"
    files = (site / "figures").glob(f"{stem}*.svg")
    return {file.stem.removeprefix(stem): read(file) for file in files if is_shown(file, narrow)}


def is_shown(file: Path, narrow: bool) -> bool:
    return file.stem.endswith("-narrow") == narrow and "-plan-" not in file.stem


@pytest.mark.parametrize("narrow", [False, True], ids=["wide", "narrow"])
@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: str(lesson.slug))
def test_no_place_moves_and_all_text_can_be_read(lesson: Lesson, narrow: bool, site: Path) -> None:
    found: defaultdict[tuple[str, ...], set[tuple[float | str, ...]]] = defaultdict(set)
    read_here = drawings(lesson, site, narrow)
    assert len(read_here) > 2
    for kind, drawing in read_here.items():
        shown = min(1.0, (ON_A_PHONE if narrow else 700) / drawing.width)
        for text in drawing.texts:
            assert text.size * shown >= 12, f"{kind}: {text}"
            for palette in drawing.palettes:
                assert contrast(palette[text.colour], palette[text.ground]) >= 4.5, f"{kind}: {text}"
        if not kind.startswith("cards"):
            for text in drawing.texts:
                if text.words in PLACES and text.anchor == "middle":
                    found["head", text.words].add((text.x, text.y))
            for group, size in drawing.sizes.items():
                if group.startswith(("middle", "trays")):
                    found["size", group].add(size)
            found["width",].add((drawing.width,))
            found["height",].add((drawing.height,))
    assert sum(what[0] == "head" for what in found) == max(2, len(str(lesson.dividend)))
    assert {what: different for what, different in found.items() if len(different) > 1} == {}
