"""The pieces of every figure, counted from the SVG, are those of the engine's state."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from generator.engine.places import Counts, place_name
from generator.engine.sharing import Sharing, Stage, share
from generator.errors import SharingError
from generator.figures.draw import draw
from generator.figures.spec import cards_figure, layout_figure, stage_figure
from tests.figures.cases import PLAIN, SHOWN, WORDS, name, worked
from tests.figures.count_pieces import count_pieces

CASES = SHOWN + PLAIN


def in_group(group: str, counts: Counts) -> dict[str, int]:
    return {f"{group}-{place_name(place)}": counts[place] for place in counts.places_held}


def in_stage(sharing: Sharing, stage: Stage) -> dict[str, int]:
    expected = in_group("middle", stage.start) | in_group("left", stage.end)
    expected |= in_group("to-bank", stage.exchanged)
    expected |= in_group("from-bank", Counts(10 * count for count in stage.exchanged[1:]))
    number = 0
    for tray in sharing.trays(stage.steps[-1].after):
        for _ in range(tray.sharers):
            number += 1
            expected |= in_group(f"tray-{number}", tray.holds)
    assert number == sharing.sharers
    return expected


@pytest.mark.parametrize("case", CASES, ids=name)
def test_every_stage_shows_the_state_of_the_engine(case: tuple[int, int, bool]) -> None:
    sharing = worked(case)
    for stage in sharing.stages:
        assert count_pieces(draw(stage_figure(sharing, stage, WORDS))) == in_stage(sharing, stage)


@pytest.mark.parametrize("case", CASES, ids=name)
def test_the_start_and_the_end_show_the_state_of_the_engine(case: tuple[int, int, bool]) -> None:
    sharing = worked(case)
    assert count_pieces(draw(layout_figure(sharing, WORDS))) == in_group("middle", sharing.start)
    assert count_pieces(draw(cards_figure(sharing, WORDS))) == in_group("left", sharing.end.middle)


def part(counts: Mapping[str, int], *names: str) -> list[int]:
    return [counts.get(name, 0) for name in names]


def test_published_steps_can_be_counted_in_the_figures() -> None:
    """Fibonacci, Liber Abbaci V: 8,059 / 5. Thorndike 1922 p. 63: 1,825 / 4."""
    fibonacci = share(8059, 5)
    drawn = [count_pieces(draw(stage_figure(fibonacci, stage, WORDS))) for stage in fibonacci.stages]
    assert part(drawn[0], "middle-thousands", "tray-5-thousands", "to-bank-thousands") == [8, 1, 3]
    assert part(drawn[1], "middle-hundreds", "tray-5-hundreds", "to-bank-hundreds") == [30, 6, 0]
    assert part(drawn[2], "middle-tens", "tray-5-tens") == [5, 1]
    assert part(drawn[3], "middle-units", "tray-5-units", "left-units") == [9, 1, 4]
    thorndike = share(1825, 4)
    drawn = [count_pieces(draw(stage_figure(thorndike, stage, WORDS))) for stage in thorndike.stages]
    assert part(drawn[0], "tray-1-thousands", "to-bank-thousands", "from-bank-hundreds") == [0, 1, 10]
    assert part(drawn[1], "middle-hundreds", "tray-1-hundreds", "to-bank-hundreds", "from-bank-tens") == [18, 4, 2, 20]
    assert part(drawn[2], "middle-tens", "tray-1-tens", "to-bank-tens", "from-bank-units") == [22, 5, 2, 20]
    assert part(drawn[3], "middle-units", "tray-1-units", "left-units") == [25, 6, 1]


def test_a_number_beyond_the_thousands_is_refused() -> None:
    sharing = share(10_000, 4)
    with pytest.raises(SharingError, match="10000"):
        layout_figure(sharing, WORDS)
    with pytest.raises(SharingError, match="10000"):
        cards_figure(sharing, WORDS)
    with pytest.raises(SharingError, match="10000"):
        stage_figure(sharing, sharing.stages[0], WORDS)
