"""The path as `path.toml` tells it: new things are new where a step says so, and no step is all long and heavy."""

import re
import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.engine.features import Features, features_of
from generator.engine.sharing import Sharing
from generator.source.models import Lesson
from tests.stock import sources, worked

PATH = tomllib.loads(Path(__file__).with_name("path.toml").read_text("utf-8"))
STEPS = {step.slug: step.lessons for step in sources().steps}
SMALL_NUMBERS = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
]
LESSONS = {lesson.slug: lesson for lessons in STEPS.values() for lesson in lessons}


def short_on_the_way(features: Features, sharing: Sharing) -> bool:
    """Whether pieces lie at a place below the highest, too few for all."""
    return any(place < sharing.stages[0].level or sharing.quotient == 0 for place in features.places_short)


BRINGS: dict[str, Callable[[Sharing, Features], bool]] = {
    "an exchange": lambda sharing, features: bool(features.exchange_from),
    "an exchange at several places": lambda sharing, features: len(features.exchange_from) > 1,
    "something left over": lambda sharing, features: sharing.remainder > 0,
    "a zero in the number": lambda sharing, features: bool(features.zeros_in_dividend),
    "too few at the highest place": lambda sharing, features: features.highest_place_short,
    "too few at a place on the way": lambda sharing, features: short_on_the_way(features, sharing),
    "seven children or more": lambda sharing, features: sharing.sharers >= 7,
    "a ribbon for ten": lambda sharing, features: sharing.ribbons,
    "a ribbon for a hundred": lambda sharing, features: len(sharing.mat) > 2,
    "nobody for a place": lambda sharing, features: sharing.ribbons and 0 in sharing.mat,
}


def test_every_step_but_the_first_says_what_it_brings_in_this_order() -> None:
    assert list(STEPS)[1:] == list(PATH["new"])
    assert set(BRINGS) == set(PATH["new"].values())


@pytest.mark.parametrize("step", PATH["new"])
def test_what_is_called_new_is_new_and_every_lesson_of_the_step_has_it(step: str) -> None:
    def has_it(lesson: Lesson) -> bool:
        sharing = worked(lesson)
        return BRINGS[PATH["new"][step]](sharing, features_of(sharing))

    before = [lesson for earlier in list(STEPS)[: list(STEPS).index(step)] for lesson in STEPS[earlier]]
    assert [lesson.slug for lesson in before if has_it(lesson)] == []
    assert [lesson.slug for lesson in STEPS[step] if not has_it(lesson)] == []


@pytest.mark.parametrize("step", PATH["short"]["steps"])
def test_a_step_has_short_numbers_too(step: str) -> None:
    short = [lesson for lesson in STEPS[step] if 10 <= lesson.dividend <= 999]
    assert len(short) >= PATH["short"]["fewest"]


@pytest.mark.parametrize("step", PATH["cubes"]["steps"])
def test_few_lessons_of_the_first_steps_are_heavy(step: str) -> None:
    heavy = [lesson for lesson in STEPS[step] if lesson.dividend >= 1000 * PATH["cubes"]["many"]]
    assert len(heavy) <= PATH["cubes"]["most_of_lessons"] * len(STEPS[step])


@pytest.mark.parametrize("near", PATH["near"], ids=lambda near: near["lessons"][0])
def test_of_lessons_that_show_the_same_there_is_one(near: dict[str, list[str]]) -> None:
    assert len([lesson for lesson in near["lessons"] if lesson in LESSONS]) == 1


@pytest.mark.parametrize("lesson", PATH["there"])
def test_a_lesson_of_its_own_kind_is_there(lesson: str) -> None:
    assert lesson in LESSONS


@pytest.mark.parametrize("lesson", PATH["serves"])
def test_a_number_serves_the_groups_that_its_note_names(lesson: str) -> None:
    groups, served = PATH["serves"][lesson], LESSONS[lesson]
    assert served.note
    assert re.findall(rf"\b(?:{'|'.join(SMALL_NUMBERS)})\b", served.note.partition(".")[0]) == groups
    assert all(served.dividend % SMALL_NUMBERS.index(group) == 0 for group in groups)


def test_the_path_can_be_looked_through() -> None:
    assert len(LESSONS) <= PATH["most_lessons"]
