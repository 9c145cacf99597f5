"""The drawing itself: the same bytes everywhere, legible in colour, self-contained."""

import hashlib
import os
import re
import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import pytest

from generator.figures.charts import allowed_figure, path_figure, pieces_figure
from generator.figures.draw import draw
from generator.figures.shapes import Label, Part, Stroke
from generator.figures.style import DARK, LIGHT
from tests.figures.cases import FORMS, SHOWN, WORDS, Case, figures, name
from tests.sampling import WHOLE, sample

ROOT = Path(__file__).resolve().parents[2]

DRAW_SOME = """\
import hashlib, sys
from tests.figures.test_draw import sample_of_drawings
from generator.figures.draw import draw
print(hashlib.sha256(b"".join(map(draw, sample_of_drawings()))).hexdigest())
"""

ENVIRONMENTS: dict[str, dict[str, str]] = {
    "hash seed": {"PYTHONHASHSEED": "4711"},
    "locale": {"LC_ALL": "C", "LANG": "de_DE.UTF-8", "PYTHONUTF8": "0"},
    "time": {"TZ": "Pacific/Auckland", "SOURCE_DATE_EPOCH": "86400"},
}
ALL_AT_ONCE = {key: value for changes in ENVIRONMENTS.values() for key, value in changes.items()}


def sample_of_drawings() -> list[Part]:
    drawings = []
    for form in FORMS:
        drawings += [pieces_figure(form, WORDS), path_figure([("First", 3)], form)]
        drawings += [allowed_figure([(2, 0.5, 0.75)], form, WORDS)]
        drawings += [*figures((5230, 4, False), form), *figures((3432, 12, True), form)]
    return drawings


@pytest.mark.parametrize("environment", [ALL_AT_ONCE, *(ENVIRONMENTS.values() if WHOLE else ())])
def test_the_bytes_are_the_same_in_every_process(environment: dict[str, str]) -> None:
    command = [sys.executable, "-c", DRAW_SOME]
    drawn = subprocess.run(
        command, cwd=ROOT, env={**os.environ, **environment}, capture_output=True, text=True, check=True
    ).stdout.strip()
    assert drawn == hashlib.sha256(b"".join(map(draw, sample_of_drawings()))).hexdigest()


def test_drawing_again_and_after_other_figures_changes_nothing() -> None:
    first, *others = sample_of_drawings()
    before = draw(first)
    for other in others:
        draw(other)
    assert draw(first) == before


@pytest.mark.parametrize("case", sample(SHOWN, 6), ids=name)
def test_every_word_stands_in_the_file_as_text(case: Case) -> None:
    for figure in figures(case):
        svg = draw(figure)
        in_file = [text.text for text in ElementTree.fromstring(svg).iter("{http://www.w3.org/2000/svg}text")]
        assert in_file == [mark.text for mark in figure.marks if isinstance(mark, Label)]


def test_every_colour_is_a_name_that_both_palettes_know() -> None:
    assert LIGHT.keys() == DARK.keys()
    for figure in sample_of_drawings():
        drawn = draw(figure).decode()
        style, _, marks = drawn.partition("</style>")
        assert not re.findall(r"#[0-9a-f]{3,6}\b", marks)
        named = set(re.findall(r"var\(--([a-z-]+)\)", marks))
        assert named <= LIGHT.keys()
        assert all(f"--{name}:{LIGHT[name]}" in style for name in named)


def test_a_figure_reaches_for_nothing_outside_and_runs_nothing() -> None:
    for figure in sample_of_drawings():
        svg = draw(figure).decode()
        assert not re.findall(r"<script|<image|<foreignObject|href=|url\(|\son\w+=|metadata", svg)
        addresses = set(re.findall(r"https?://[^\s\"']+", svg))
        assert {address.split("/")[2] for address in addresses} == {"www.w3.org"}, "names of the format only"


def test_lines_and_dots_that_coincide_are_all_kept() -> None:
    dots = Stroke(0, 0, tuple(((x, 5.0), (x, 5.0)) for x in (1.0, 2.0, 2.0, 3.0)), "ink")
    assert draw(Part(10, 10, (dots,))).count(b"M") == 4
