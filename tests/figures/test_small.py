"""The small figures of plans: the middle and a tray of each sort, with every piece that lies there."""

from collections import Counter

import pytest

from generator.engine.places import place_name
from generator.figures.gallery import shown, size
from generator.figures.picture import OF_A_PLAN, Picture
from generator.figures.shapes import Look, Pieces
from tests.figures.cases import SHOWN, WORDS, Case, worked
from tests.figures.test_room import assert_sound


@pytest.mark.parametrize("case", SHOWN)
def test_a_plan_shows_what_lies_in_the_middle_and_on_a_tray_of_each_sort(case: Case) -> None:
    sharing = worked(case)
    for stage in sharing.stages:
        picture = Picture(OF_A_PLAN + place_name(stage.level), *case)
        figure = shown(WORDS, picture)
        assert size(WORDS, picture) == (figure.width, figure.height)
        assert_sound(figure)
        found: Counter[tuple[str, int]] = Counter()
        for mark in figure.marks:
            if isinstance(mark, Pieces) and mark.look is not Look.DOTTED:
                found[mark.group, mark.place] += len(mark.spots)
        trays = {tray.stands_for: tray.holds for tray in sharing.trays(stage.after)}
        for place in range(len(stage.end)):
            assert found["middle", place] + found["left", place] == stage.end[place]
            assert found["trays", place] == sum(holds.at(place) for holds in trays.values())
