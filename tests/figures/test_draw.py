"""The drawing itself: the same bytes everywhere, legible in colour, self-contained."""

from __future__ import annotations

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
from generator.figures.shapes import Figure, Label, Stroke
from generator.figures.spec import cards_figure, layout_figure, stage_figure
from generator.figures.style import COLOURS
from tests.figures.cases import SHOWN, WORDS, name, worked

ROOT = Path(__file__).resolve().parents[2]

HOSTILE = """\
svg.fonttype: path
svg.id: mine
savefig.bbox: tight
savefig.facecolor: red
figure.dpi: 200
path.sketch: 3, 30, 2
font.sans-serif: Nothing Such
lines.dash_capstyle: round
axes.formatter.use_locale: True
"""

DRAW_SOME = """\
import hashlib, sys
from tests.figures.test_draw import sample
from generator.figures.draw import draw
print(hashlib.sha256(b"".join(map(draw, sample()))).hexdigest())
"""

ENVIRONMENTS: dict[str, dict[str, str]] = {
    "hash seed": {"PYTHONHASHSEED": "4711"},
    "locale": {"LC_ALL": "C", "LANG": "de_DE.UTF-8", "PYTHONUTF8": "0"},
    "time": {"TZ": "Pacific/Auckland", "SOURCE_DATE_EPOCH": "86400"},
    "settings": {"MATPLOTLIBRC": "hostile"},
    "backend": {"MPLBACKEND": "pdf"},
}


def sample() -> list[Figure]:
    figures = [pieces_figure(WORDS), path_figure([("First", 3)]), allowed_figure([(2, 0.5)], {2: 0.75}, WORDS)]
    for case in ((5230, 4, False), (3432, 12, True)):
        sharing = worked(case)
        figures += [layout_figure(sharing, WORDS), cards_figure(sharing, WORDS)]
        figures += [stage_figure(sharing, stage, WORDS) for stage in sharing.stages]
    return figures


@pytest.mark.parametrize("environment", ENVIRONMENTS.values(), ids=ENVIRONMENTS.keys())
def test_the_bytes_are_the_same_in_every_process(environment: dict[str, str], tmp_path: Path) -> None:
    settings = tmp_path / "matplotlibrc"
    settings.write_text(HOSTILE, encoding="utf-8")
    changed = {key: str(settings) if value == "hostile" else value for key, value in environment.items()}
    command = [sys.executable, "-c", DRAW_SOME]
    drawn = subprocess.run(
        command, cwd=ROOT, env={**os.environ, **changed}, capture_output=True, text=True, check=True
    ).stdout.strip()
    assert drawn == hashlib.sha256(b"".join(map(draw, sample()))).hexdigest()


def test_drawing_again_and_after_other_figures_changes_nothing() -> None:
    first, *others = sample()
    before = draw(first)
    for other in others:
        draw(other)
    assert draw(first) == before


def test_geometry_is_worked_out_without_matplotlib() -> None:
    look = "import sys, generator.figures.spec, generator.figures.charts; sys.exit('matplotlib' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", look], cwd=ROOT, check=False).returncode == 0


@pytest.mark.parametrize("case", SHOWN, ids=name)
def test_every_word_stands_in_the_file_as_text(case: tuple[int, int, bool]) -> None:
    sharing = worked(case)
    for figure in (
        layout_figure(sharing, WORDS),
        stage_figure(sharing, sharing.stages[-1], WORDS),
        cards_figure(sharing, WORDS),
    ):
        svg = draw(figure)
        in_file = [text.text for text in ElementTree.fromstring(svg).iter("{http://www.w3.org/2000/svg}text")]
        assert in_file == [mark.text for mark in figure.marks if isinstance(mark, Label)]


def test_a_figure_reaches_for_nothing_outside_and_runs_nothing() -> None:
    for figure in sample():
        svg = draw(figure).decode()
        assert not re.findall(r"<script|<image|<foreignObject|href=|url\(|\son\w+=|metadata", svg)
        addresses = set(re.findall(r"https?://[^\s\"']+", svg))
        assert {address.split("/")[2] for address in addresses} == {"www.w3.org"}, "names of the format only"


def test_lines_and_dots_that_coincide_are_all_kept() -> None:
    dots = Stroke(0, 0, tuple(((x, 5.0), (x, 5.0)) for x in (1.0, 2.0, 2.0, 3.0)), "ink")
    assert draw(Figure(10, 10, (dots,))).count(b"M ") == 5, "four dots, and the sheet itself"


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    channels = [int(COLOURS[colour][at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


@pytest.mark.parametrize("ground", ["paper", "mat", "tray", "card"])
@pytest.mark.parametrize("ink", ["ink", "muted", "place-0", "place-1", "place-2", "place-3"])
def test_words_have_the_contrast_of_wcag_1_4_3(ink: str, ground: str) -> None:
    assert contrast(ink, ground) >= 4.5


@pytest.mark.parametrize("ground", ["paper", "mat", "tray", "card"])
@pytest.mark.parametrize("edge", ["edge", "pale edge"])
def test_pieces_have_the_contrast_of_wcag_1_4_11(edge: str, ground: str) -> None:
    assert contrast(edge, ground) >= 3
