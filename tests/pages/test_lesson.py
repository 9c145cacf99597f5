"""What a lesson page says beside its own division: other groups, and slips where children wear ribbons."""

from dataclasses import replace
from typing import Any

import pytest

from generator.engine.diagnosis import telling_slips
from generator.engine.features import features_of
from generator.engine.places import Counts
from generator.engine.sharing import Sharing, share
from generator.engine.slips import Slip, Spot
from generator.pages.kinds.lesson import PlacedLesson, placed_lessons, template_data
from generator.pages.writing.links import lesson_link
from generator.pages.writing.writer import Writer
from generator.words.slips import explain
from tests.stock import sources, worked

SOURCES = sources()
WRITER = Writer(SOURCES.school)
LINKS = tuple(lesson_link(lesson, WRITER) for lesson in SOURCES.lessons)
PLACED = placed_lessons(SOURCES.steps, LINKS)
PLAIN = [placed for placed in PLACED if not placed.lesson.ribbons]
RIBBONS = [worked(lesson) for lesson in SOURCES.lessons if lesson.ribbons]


def neighbours_of(writer: Writer, dividend: int, divisor: int) -> list[dict[str, Any]]:
    """What a lesson of this number would say of other groups."""
    lesson = PLAIN[0].lesson.model_copy(update={"dividend": dividend, "divisor": divisor})
    neighbours: list[dict[str, Any]] = template_data(
        writer, replace(PLAIN[0], lesson=lesson, link=lesson_link(lesson, writer))
    )["neighbours"]
    return neighbours


def point_of(sharing: Sharing) -> tuple[object, ...]:
    """What a lesson is about, whoever shares."""
    features = features_of(sharing)
    zero_in_share = bool(features.zeros_inside_quotient or features.zeros_at_quotient_end)
    nothing_left, nothing_each = sharing.remainder == 0, sharing.quotient == 0
    return features.exchange_from, nothing_left, zero_in_share, features.highest_place_short, nothing_each


@pytest.mark.parametrize("placed", PLAIN, ids=lambda placed: str(placed.lesson.slug))
def test_a_number_for_another_group_keeps_the_point_of_the_lesson(placed: PlacedLesson) -> None:
    page = template_data(WRITER, placed)
    assert page["neighbours"]
    for other in page["neighbours"]:
        if ready := other["ready"]:
            found = share(ready["number"], other["sharing"].divisor)
            assert point_of(found)[:2] == point_of(page["sharing"])[:2]
            assert point_of(found) == point_of(page["sharing"]) or not ready["alike"]
            assert ready["number"] > 1


@pytest.mark.parametrize(("divisor", "groups"), [(2, [3]), (3, [2, 4]), (12, [11])])
def test_the_other_groups_are_those_with_one_child_more_or_less(divisor: int, groups: list[int]) -> None:
    neighbours = neighbours_of(WRITER, 6936, divisor)
    assert [other["sharing"].divisor for other in neighbours] == groups


@pytest.mark.parametrize(
    ("dividend", "divisor", "children", "number"),
    [(11, 12, 11, None), (3, 5, 4, 3), (3, 5, 6, 3), (1, 4, 5, 2), (1, 3, 2, None)],
)
def test_a_number_for_another_group_worked_by_hand(
    dividend: int, divisor: int, children: int, number: int | None
) -> None:
    """Of two digits only 10 is too few for eleven, but it has an empty place, unlike 11; three are few for four.

    A single bead is no number to share; two are too few for five, but nothing is too few for two.
    """
    (other,) = [one for one in neighbours_of(WRITER, dividend, divisor) if one["sharing"].divisor == children]
    assert other["ready"] == (number and {"number": number, "alike": True})


@pytest.mark.parametrize(("units", "ready"), [(20, None), (22, {"number": 22, "alike": False})])
def test_a_number_that_is_only_near_is_more_than_one_for_each(units: int, ready: dict[str, Any] | None) -> None:
    """60 among 12: of two digits none for eleven has an empty place, 11 takes 11 beads and 22 takes 22. By hand."""
    shelf = SOURCES.school.shelf.model_copy(update={"units": units})
    school = SOURCES.school.model_copy(update={"shelf": shelf.model_copy(update={"small_sets": 12})})
    (eleven,) = neighbours_of(Writer(school), 60, 12)
    assert eleven["ready"] == ready


@pytest.mark.parametrize(("tens", "number"), [(39, 7391), (38, 6172)])
def test_todays_number_is_offered_only_where_the_shelf_allows_it(tens: int, number: int) -> None:
    """By hand: 7,391 among five has 23 squares, then 39 bars, then 41 beads; 6,172 has 11, 17 and 22."""
    shelf = SOURCES.school.shelf.model_copy(update={"tens": tens, "units": 60})
    school = SOURCES.school.model_copy(update={"shelf": shelf})
    (placed,) = [placed for placed in PLAIN if placed.lesson.slug == "7391-among-6"]
    five = template_data(Writer(school), placed)["neighbours"][0]
    assert (five["sharing"].divisor, five["ready"]) == (5, {"number": number, "alike": True})
    assert bool(five["shortages"]) is (number != 7391)


def test_most_lessons_find_a_number_for_every_other_group() -> None:
    found = [other["ready"] for placed in PLAIN for other in template_data(WRITER, placed)["neighbours"]]
    assert found.count(None) <= len(found) // 10


def test_a_number_for_another_group_has_a_zero_where_todays_has_one() -> None:
    found = [
        (placed.lesson.dividend, other["ready"])
        for placed in PLAIN
        for other in template_data(WRITER, placed)["neighbours"]
    ]
    assert all(
        ("0" in str(today)) == ("0" in str(ready["number"])) for today, ready in found if ready and ready["alike"]
    )


@pytest.mark.parametrize("sharing", RIBBONS, ids=lambda sharing: f"{sharing.dividend}-for-{sharing.divisor}")
def test_with_ribbons_each_tray_is_compared_with_what_it_should_hold(sharing: Sharing) -> None:
    too_full = {Slip.LEFT_OVER_DEALT, Slip.NOT_TAKEN_BACK, Slip.DEALT_TWICE}
    for cause in (cause for symptom in telling_slips(sharing) for cause in symptom.causes):
        words = explain(WRITER.phrases, cause, sharing)
        assert (words.look == "Compare each tray with what it should hold.") >= (cause.slip in too_full)
        assert " of tens" not in words.happened, "headings go by the place of the answer"


def test_cards_of_a_ribbon_are_named_by_the_places_that_they_show() -> None:
    """Own reasoning, no source: 2,460 for 20 is 123, so a ribbon's cards read 1,230; 1,320 swaps hundreds and tens."""
    sharing = share(2460, 20, ribbons=True)
    assert sharing.mat == Counts((0, 2))
    symptoms = telling_slips(sharing, most=20)
    causes = [cause for symptom in symptoms for cause in symptom.causes if cause.slip is Slip.SWAPPED]
    one_tray = [cause for cause in causes if cause.occasions[0].spot is Spot.ONE_TRAY]
    assert one_tray
    for cause in one_tray:
        assert "units" not in explain(WRITER.phrases, cause, sharing).happened
