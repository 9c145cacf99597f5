"""The pieces of every figure, counted from the SVG, are those of the engine's state."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from generator.engine.places import place_name
from generator.engine.sharing import Sharing, Stage
from generator.errors import SharingError
from generator.figures.draw import draw
from generator.figures.formats import Format
from generator.figures.scene import frame_of
from tests.figures.cases import FORMS, PLAIN, SHOWN, Case, figure, name, worked
from tests.figures.count_pieces import count_pieces
from tests.sampling import sample

CASES = SHOWN + PLAIN


def in_group(group: str, look: str, counts: Mapping[int, int]) -> dict[str, int]:
    return {f"{group}-{place_name(place)}-{look}": count for place, count in counts.items() if count}


def on_trays(sharing: Sharing, stage: Stage) -> dict[str, int]:
    """What a stage has added is full, all else on the trays is light."""
    expected: dict[str, int] = {}
    number = 0
    for tray in sharing.trays(stage.steps[-1].after):
        new = stage.level + len(str(tray.stands_for)) - 1
        for _ in range(tray.sharers):
            number += 1
            holds = dict(enumerate(tray.holds))
            fresh = {new: holds.pop(new, 0)}
            expected |= in_group(f"tray-{number}", "full", fresh) | in_group(f"tray-{number}", "light", holds)
    assert number == sharing.sharers
    return expected


def assert_middle(counted: Mapping[str, int], stage: Stage, last: bool) -> None:
    """In the middle lies what the engine says, and what has gone is dotted; at the end all of it is in the dish."""
    for place, (start, end) in enumerate(zip(stage.start, stage.end, strict=True)):
        full, light, dotted, left = (
            counted.get(f"{group}-{place_name(place)}-{look}", 0)
            for group, look in (("middle", "full"), ("middle", "light"), ("middle", "dotted"), ("left", "full"))
        )
        came = 10 * stage.exchanged.at(place + 1)
        assert full + light + left == end
        assert dotted == start + came - end
        assert left == (end if last else 0)
        assert light <= start
        assert full <= came


@pytest.mark.parametrize("form", FORMS, ids=["wide", "narrow"])
@pytest.mark.parametrize("case", sample(CASES, 24), ids=name)
def test_every_stage_shows_the_state_of_the_engine(case: Case, form: Format) -> None:
    sharing = worked(case)
    for stage in sharing.stages:
        counted = count_pieces(draw(figure(case, place_name(stage.level), form)))
        assert_middle(counted, stage, stage is sharing.stages[-1])
        exchanged = dict(enumerate(stage.exchanged))
        come = {place - 1: 10 * count for place, count in exchanged.items()}
        rest = {key: count for key, count in counted.items() if not key.startswith(("middle", "left"))}
        assert rest == (
            on_trays(sharing, stage) | in_group("to-bank", "full", exchanged) | in_group("from-bank", "dotted", come)
        )


@pytest.mark.parametrize("form", FORMS, ids=["wide", "narrow"])
@pytest.mark.parametrize("case", sample(CASES, 24), ids=name)
def test_the_start_and_the_end_show_the_state_of_the_engine(case: Case, form: Format) -> None:
    sharing = worked(case)
    start, left = dict(enumerate(sharing.start)), dict(enumerate(sharing.end.middle))
    ready = {place: sharing.pieces_needed[place] - count for place, count in start.items()}
    laid = in_group("middle", "full", start) | in_group("ready", "light", ready)
    assert count_pieces(draw(figure(case, "layout", form))) == laid
    assert count_pieces(draw(figure(case, "cards", form))) == in_group("left", "full", left)
    full: dict[str, int] = {}
    number = 0
    for tray in sharing.trays(sharing.end):
        for _ in range(tray.sharers):
            number += 1
            full |= in_group(f"tray-{number}", "full", dict(enumerate(tray.holds)))
    gone = {} if sharing.exchanges else {place: count - left[place] for place, count in start.items()}
    expected = full | in_group("left", "full", left) | in_group("middle", "dotted", gone)
    assert count_pieces(draw(figure(case, "end", form))) == expected


def part(counts: Mapping[str, int], *names: str) -> list[int]:
    return [counts.get(name, 0) for name in names]


def drawn(dividend: int, divisor: int) -> list[dict[str, int]]:
    case = (dividend, divisor, False)
    return [count_pieces(draw(figure(case, place_name(stage.level)))) for stage in worked(case).stages]


def test_published_steps_can_be_counted_in_the_figures() -> None:
    """Fibonacci, Liber Abbaci V: 8,059 / 5. Thorndike 1922 p. 63: 1,825 / 4."""
    fibonacci = drawn(8059, 5)
    assert part(fibonacci[0], "middle-thousands-dotted", "tray-5-thousands-full", "to-bank-thousands-full") == [8, 1, 3]
    assert part(fibonacci[1], "middle-hundreds-dotted", "tray-5-hundreds-full", "to-bank-hundreds-full") == [30, 6, 0]
    assert part(fibonacci[2], "middle-tens-dotted", "tray-5-tens-full") == [5, 1]
    assert part(fibonacci[3], "middle-units-dotted", "tray-5-units-full", "left-units-full") == [5, 1, 4]
    thorndike = drawn(1825, 4)
    assert part(thorndike[0], "to-bank-thousands-full", "from-bank-hundreds-dotted") == [1, 10]
    assert part(thorndike[1], "tray-1-hundreds-full", "to-bank-hundreds-full", "middle-tens-full") == [4, 2, 20]
    assert part(thorndike[2], "tray-1-tens-full", "to-bank-tens-full", "middle-units-full") == [5, 2, 20]
    assert part(thorndike[3], "middle-units-dotted", "tray-1-units-full", "left-units-full") == [24, 6, 1]


def test_a_number_beyond_the_thousands_is_refused() -> None:
    with pytest.raises(SharingError, match="10000"):
        frame_of(worked((10_000, 4, False)))
