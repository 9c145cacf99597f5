"""What holds for the geometry of every figure: nothing overlaps, runs off the sheet or goes uncounted."""

from __future__ import annotations

import pickle
from collections.abc import Iterator
from itertools import combinations

import pytest

from generator.figures.charts import allowed_figure, path_figure, pieces_figure
from generator.figures.columns import pieces_in_words
from generator.figures.packing import footprint
from generator.figures.shapes import Bow, Boxes, Figure, Label, Pieces, Stroke
from generator.figures.spec import cards_figure, layout_figure, stage_figure
from generator.words.grouping import Grouping
from generator.words.phrases import Phrases
from tests.figures.cases import PLAIN, SHOWN, WORDS, name, worked

RIBBONS = tuple(
    (dividend, divisor, True)
    for divisor in range(10, 1000, 7)
    if sum(map(int, str(divisor))) <= 12
    for dividend in (4, 608, 9999)
)
STEPS = [
    ("Every place shares out as it lies", 8),
    ("Empty places in the number and in the share", 12),
    ("Nobody yet", 0),
]
SHELF = [(2, 1.0), (7, 0.38), (12, 0.003)]
CHARTS = (
    pieces_figure(WORDS),
    path_figure(STEPS),
    allowed_figure(SHELF, {}, WORDS),
    allowed_figure(SHELF, {2: 1, 7: 0.6, 12: 0.1}, WORDS),
)

# The widest common sans-serif, measured with matplotlib's font files: no word used here is wider for its letters.
WIDEST = {False: 0.565, True: 0.64}

Rectangle = tuple[float, float, float, float]


def figures(case: tuple[int, int, bool]) -> Iterator[Figure]:
    sharing = worked(case)
    yield layout_figure(sharing, WORDS)
    yield cards_figure(sharing, WORDS)
    for stage in sharing.stages:
        yield stage_figure(sharing, stage, WORDS)


def of_label(label: Label) -> Rectangle:
    width = len(label.text) * label.size * WIDEST[label.bold]
    left = label.x - {"start": 0.0, "middle": width / 2, "end": width}[label.anchor]
    return left, label.y - 0.73 * label.size, left + width, label.y + 0.2 * label.size


def of_pieces(pieces: Pieces) -> list[Rectangle]:
    wide, high = footprint(pieces.place, pieces.size)
    return [(pieces.x + x, pieces.y + y, pieces.x + x + wide, pieces.y + y + high) for x, y in pieces.spots]


def overlap(one: Rectangle, other: Rectangle) -> bool:
    slack = 0.05
    return (
        one[0] + slack < other[2]
        and other[0] + slack < one[2]
        and one[1] + slack < other[3]
        and other[1] + slack < one[3]
    )


def assert_sound(figure: Figure) -> None:
    labels = [mark for mark in figure.marks if isinstance(mark, Label)]
    pieces = [mark for mark in figure.marks if isinstance(mark, Pieces)]
    drawn = [(mark.text, of_label(mark)) for mark in labels] + [
        (mark.gid, r) for mark in pieces for r in of_pieces(mark)
    ]
    for what, (left, top, right, bottom) in drawn:
        assert left >= 0, what
        assert top >= 0, what
        assert right <= figure.width, what
        assert bottom <= figure.height, what
    for (what, one), (other_what, other) in combinations(drawn, 2):
        assert not overlap(one, other), f"{what} lies on {other_what}"
    assert len({mark.gid for mark in pieces}) == len(pieces)


@pytest.mark.parametrize("case", SHOWN + PLAIN[::2] + RIBBONS[::9], ids=name)
def test_nothing_overlaps_or_runs_off_the_sheet(case: tuple[int, int, bool]) -> None:
    for figure in figures(case):
        assert_sound(figure)


@pytest.mark.parametrize("figure", CHARTS[1:])
def test_no_chart_overlaps_or_runs_off_the_sheet(figure: Figure) -> None:
    assert_sound(figure)


@pytest.mark.parametrize("case", SHOWN + RIBBONS, ids=name)
def test_every_count_above_five_is_written_in_words(case: tuple[int, int, bool]) -> None:
    for figure in figures(case):
        written = [mark.text for mark in figure.marks if isinstance(mark, Label)]
        for mark in figure.marks:
            if isinstance(mark, Pieces) and len(mark.spots) > 5:
                words = pieces_in_words(len(mark.spots), mark.place, WORDS)
                assert any(words in text for text in written), f"{mark.gid}: {words}"


@pytest.mark.parametrize("case", SHOWN, ids=name)
def test_what_a_stage_added_is_framed_and_all_else_on_the_trays_is_pale(case: tuple[int, int, bool]) -> None:
    sharing = worked(case)
    for stage in sharing.stages:
        figure = stage_figure(sharing, stage, WORDS)
        frames = [
            (mark.x + x, mark.y + y, mark.x + x + mark.width, mark.y + y + mark.height)
            for mark in figure.marks
            if isinstance(mark, Boxes) and mark.edge == "ink" and mark.line > 1.5
            for x, y in mark.spots
        ]
        on_trays = [mark for mark in figure.marks if isinstance(mark, Pieces) and mark.group.startswith("tray-")]
        new = [mark for mark in on_trays if not mark.pale]
        assert len(new) == (sharing.sharers if stage.rounds else 0)
        for mark in on_trays:
            framed = [
                any(f[0] <= r[0] and f[1] <= r[1] and r[2] <= f[2] and r[3] <= f[3] for f in frames)
                for r in of_pieces(mark)
            ]
            assert all(framed) if not mark.pale else not any(framed), mark.gid


@pytest.mark.parametrize("case", [case for case in SHOWN if case[2]], ids=name)
def test_every_child_with_a_ribbon_has_a_bow_and_the_words(case: tuple[int, int, bool]) -> None:
    sharing = worked(case)
    with_ribbon = sum(sharing.mat[width] for width in sharing.mat.widths if width)
    for figure in (layout_figure(sharing, WORDS), *(stage_figure(sharing, stage, WORDS) for stage in sharing.stages)):
        assert sum(isinstance(mark, Bow) for mark in figure.marks) == with_ribbon
        written = {mark.text for mark in figure.marks if isinstance(mark, Label)}
        for width in sharing.mat.widths:
            assert f"stands for {10**width}" in written


@pytest.mark.parametrize("case", SHOWN, ids=name)
def test_every_tray_is_numbered(case: tuple[int, int, bool]) -> None:
    sharing = worked(case)
    for figure in (layout_figure(sharing, WORDS), *(stage_figure(sharing, stage, WORDS) for stage in sharing.stages)):
        written = [mark.text for mark in figure.marks if isinstance(mark, Label)]
        assert all(str(number) in written for number in range(1, sharing.sharers + 1))


def test_a_figure_is_a_value() -> None:
    for figure in (*figures((5230, 4, False)), *CHARTS):
        assert pickle.loads(pickle.dumps(figure)) == figure
        assert hash(pickle.loads(pickle.dumps(figure))) == hash(figure)


@pytest.mark.parametrize(("grouping", "written"), [(",", "5,230"), ("\u202f", "5\u202f230"), ("", "5230")])
def test_cards_read_as_the_number_in_the_way_the_school_writes_it(grouping: str, written: str) -> None:
    figure = cards_figure(worked((5230, 4, False)), Phrases("en", Grouping(grouping)))
    digits = [mark for mark in figure.marks if isinstance(mark, Label) and mark.anchor == "middle" and mark.size > 30]
    assert "".join(mark.text for mark in digits) == written


def test_a_zero_on_cards_is_that_of_the_card_beneath() -> None:
    """Common practice, no source: there is no card for an empty place."""
    figure = cards_figure(worked((5005, 5, False)), WORDS)
    large = [mark for mark in figure.marks if isinstance(mark, Label) and mark.anchor == "middle" and mark.size > 30]
    assert [(mark.text, mark.colour) for mark in large if mark.text != ","] == [
        ("5", "place-3"),
        ("0", "place-3"),
        ("0", "place-3"),
        ("5", "place-0"),
    ]


def test_the_path_has_one_bead_for_every_lesson() -> None:
    beads = {mark.gid: len(mark.spots) for mark in path_figure(STEPS).marks if isinstance(mark, Pieces)}
    assert beads == {"step-1-units": 8, "step-2-units": 12, "step-3-units": 0}


def test_bars_of_the_shelf_are_as_long_as_their_share_and_say_it() -> None:
    figure = allowed_figure([(2, 1.0), (5, 0.25), (12, 0.0)], {5: 0.5}, WORDS)
    bars = [mark.width for mark in figure.marks if isinstance(mark, Boxes) and mark.fill == "gold"][1:]
    assert bars[1] / bars[0] == pytest.approx(0.25)
    assert len(bars) == 2
    striped = [mark.width for mark in figure.marks if isinstance(mark, Boxes) and mark.fill == "card"][1:]
    assert striped[0] / bars[0] == pytest.approx(0.25)
    assert sum(isinstance(mark, Stroke) for mark in figure.marks) == 2
    written = [mark.text for mark in figure.marks if isinstance(mark, Label)]
    assert {"100 %", "25 % → 50 %", "0 %"} <= set(written)


def test_no_share_is_rounded_to_all_or_nothing() -> None:
    figure = allowed_figure([(3, 0.9999), (12, 0.0001)], {}, WORDS)
    written = {mark.text for mark in figure.marks if isinstance(mark, Label)}
    assert {">99 %", "<1 %"} <= written
