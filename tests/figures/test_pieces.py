"""The pieces of every figure, counted from the SVG, are those of the engine's state."""

from collections.abc import Mapping

import pytest

from generator.engine.places import place_name
from generator.figures.draw import draw
from generator.figures.formats import Format
from generator.figures.picture import PART
from tests.figures.cases import FORMS, PLAIN, SHOWN, Case, figure, name, worked
from tests.figures.count_pieces import count_pieces
from tests.figures.held import assert_stage, at_the_end, laid_out, left_over
from tests.sampling import sample

CASES = SHOWN + PLAIN


@pytest.mark.parametrize("form", FORMS, ids=["wide", "narrow"])
@pytest.mark.parametrize("case", sample(CASES, 14), ids=name)
def test_every_stage_shows_the_state_of_the_engine(case: Case, form: Format) -> None:
    sharing = worked(case)
    for stage in sharing.stages:
        place = place_name(stage.level)
        assert_stage(count_pieces(draw(figure(case, place, form))), sharing, stage)
        for number, part in enumerate(stage.parts, start=1):
            assert_stage(count_pieces(draw(figure(case, f"{place}{PART}{number}", form))), sharing, part)


@pytest.mark.parametrize("form", FORMS, ids=["wide", "narrow"])
@pytest.mark.parametrize("case", sample(CASES, 14), ids=name)
def test_the_start_and_the_end_show_the_state_of_the_engine(case: Case, form: Format) -> None:
    sharing = worked(case)
    assert count_pieces(draw(figure(case, "layout", form))) == laid_out(sharing)
    assert count_pieces(draw(figure(case, "cards", form))) == left_over(sharing)
    assert count_pieces(draw(figure(case, "end", form))) == at_the_end(sharing)


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
