"""What stands in the files of the stock handbook's figures: places that never move, text that can be read."""

from __future__ import annotations

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
_NUMBERS = re.compile(r"-?[\d.]+")
PLACES = {WORDS.say(f"place.{place_name(place)}"): place for place in range(4)}
ROUNDED = 0.21  # two ends of a line, each to a tenth of a pixel
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

    sizes: by group, how wide and high the first line of its first piece is, and how wide its pen
    """

    width: float
    height: float
    palettes: list[dict[str, str]]
    texts: list[Text]
    sizes: dict[str, tuple[float, float, float]]


def read(file: Path) -> Read:
    svg = ElementTree.fromstring(file.read_bytes())
    texts: list[Text] = []
    grounds: list[tuple[Rectangle, str]] = []
    for mark in svg:
        style = dict(part.split(":") for part in mark.get("style", "").replace(" ", "").split(";") if part)
        if mark.tag == f"{_SVG}path" and style["fill"] != "none":
            grounds += [(around(shape), style["fill"]) for shape in mark.get("d", "").split("z")[:-1]]
        elif mark.tag == f"{_SVG}text":
            x, y = float(mark.get("x", "")), float(mark.get("y", ""))
            (beneath,) = [colour for (a, b, c, d), colour in grounds if a <= x <= c and b <= y <= d][-1:]
            size = float(style["font-size"].removesuffix("px"))
            anchor = style.get("text-anchor", "start")
            texts.append(Text(mark.text or "", x, y, size, name(style["fill"]), name(beneath), anchor))
    sizes = {}
    for group in svg.iter(f"{_SVG}g"):
        path = group.findall(f"{_SVG}path")[0]
        left, top, right, low = around(path.get("d", "").split("M")[1])
        (pen,) = re.findall(r"stroke-width: ([\d.]+)", path.get("style", "")) or ["1"]
        sizes[group.get("id", "")] = (right - left, low - top, float(pen))
    sheet = svg.find(f"{_SVG}defs/{_SVG}style")
    assert sheet is not None
    light, dark = (dict(re.findall(r"--([a-z-]+):(#\w+)", part)) for part in (sheet.text or "").split("@media"))
    return Read(float(svg.get("width", "")), float(svg.get("height", "")), [light, light | dark], texts, sizes)


def around(path: str) -> Rectangle:
    numbers = [float(number) for number in _NUMBERS.findall(path)]
    return min(numbers[::2]), min(numbers[1::2]), max(numbers[::2]), max(numbers[1::2])


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
    found: defaultdict[tuple[str, ...], set[tuple[float, ...]]] = defaultdict(set)
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
    for what, different in found.items():
        for measures in zip(*different, strict=True):
            assert max(measures) - min(measures) <= ROUNDED, f"{what}: {different}"
