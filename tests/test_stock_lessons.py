"""The lessons of the stock handbook: their spread along the path, and the files of their figures."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

from generator import HANDBOOK
from generator.engine.features import Features, features_of
from generator.engine.places import HUNDREDS, TENS, THOUSANDS, Counts, place_name
from generator.engine.sharing import Sharing, Stage, share
from generator.source.library import load
from generator.source.models import Lesson
from tests.figures.count_pieces import count_pieces

SOURCES = load(HANDBOOK)


def worked(lesson: Lesson) -> Sharing:
    return share(lesson.dividend, lesson.divisor, ribbons=lesson.ribbons)


SHARINGS = {lesson.slug: worked(lesson) for lesson in SOURCES.lessons}
PLAIN = [features_of(sharing) for sharing in SHARINGS.values() if not sharing.ribbons]
RIBBONS = [(sharing, features_of(sharing)) for sharing in SHARINGS.values() if sharing.ribbons]


def test_there_are_enough_lessons_on_every_step() -> None:
    assert len(SOURCES.lessons) >= 60
    assert min(len(step.lessons) for step in SOURCES.steps) >= 6


def test_every_size_of_group_has_a_lesson() -> None:
    assert {sharing.divisor for sharing in SHARINGS.values() if not sharing.ribbons} >= set(range(2, 13))


@pytest.mark.parametrize(
    "wanted",
    [
        lambda features: features.static and features.exact,
        lambda features: features.exchange_from == (TENS,),
        lambda features: features.exchange_from == (HUNDREDS,),
        lambda features: features.exchange_from == (THOUSANDS,),
        lambda features: len(features.exchange_from) > 1,
        lambda features: not features.exact,
        lambda features: bool(features.zeros_in_dividend),
        lambda features: bool(features.zeros_inside_quotient),
        lambda features: bool(features.zeros_at_quotient_end),
        lambda features: bool(features.exchange_into_empty),
        lambda features: features.highest_place_short,
        lambda features: features.nobody_gets_any,
    ],
    ids=[
        "static",
        "out of tens",
        "out of hundreds",
        "out of thousands",
        "several exchanges",
        "left over",
        "zero in the number",
        "zero inside the share",
        "zero at its end",
        "exchange into an empty place",
        "highest place short",
        "more sharers than pieces in the whole number",
    ],
)
def test_every_kind_of_lesson_is_there(wanted: Callable[[Features], bool]) -> None:
    assert any(map(wanted, PLAIN))


def test_ribbons_of_every_kind_are_there() -> None:
    lengths = Counter(len(sharing.mat) for sharing, _ in RIBBONS)
    assert lengths[2] >= 6
    assert lengths[3] >= 6
    assert any(0 in sharing.mat for sharing, _ in RIBBONS)
    assert {features.static for _, features in RIBBONS} == {features.exact for _, features in RIBBONS} == {True, False}


def test_no_two_lessons_tell_the_same_story() -> None:
    def story(sharing: Sharing) -> tuple[object, ...]:
        features: Features = features_of(sharing)
        times = tuple(sum(stage.exchanged[place] for stage in sharing.stages) for place in features.exchange_from)
        return (
            len(sharing.start),
            sharing.mat,
            features.exchange_from,
            times,
            features.zeros_in_dividend,
            features.zeros_inside_quotient,
            features.zeros_at_quotient_end,
            features.places_short,
            features.exact,
        )

    stories = Counter(map(story, SHARINGS.values()))
    assert [story for story, times in stories.items() if times > 1] == []
    assert len({lesson.reason for lesson in SOURCES.lessons}) == len(SOURCES.lessons)


def held(group: str, counts: Counts) -> dict[str, int]:
    return {f"{group}-{place_name(place)}": counts[place] for place in counts.places_held}


def shown_by_a_stage(sharing: Sharing, stage: Stage) -> dict[str, int]:
    shown = held("middle", stage.start) | held("left", stage.end) | held("to-bank", stage.exchanged)
    shown |= held("from-bank", Counts(10 * count for count in stage.exchanged[1:]))
    trays = [tray.holds for tray in sharing.trays(stage.steps[-1].after) for _ in range(tray.sharers)]
    for number, holds in enumerate(trays, start=1):
        shown |= held(f"tray-{number}", holds)
    return shown


@pytest.mark.parametrize("lesson", SOURCES.lessons, ids=lambda lesson: str(lesson.slug))
def test_the_figures_of_a_lesson_hold_the_pieces_of_the_engine(lesson: Lesson, site: Path) -> None:
    sharing = SHARINGS[lesson.slug]
    who = f"for-{lesson.divisor}" if lesson.ribbons else f"among-{lesson.divisor}"

    def counted(kind: str) -> dict[str, int]:
        return count_pieces((site / f"figures/{lesson.dividend}-{who}-{kind}.svg").read_bytes())

    assert counted("layout") == held("middle", sharing.start)
    assert counted("cards") == held("left", sharing.end.middle)
    for stage in sharing.stages:
        assert counted(place_name(stage.level)) == shown_by_a_stage(sharing, stage)


@pytest.mark.parametrize("lesson", SOURCES.lessons, ids=lambda lesson: str(lesson.slug))
def test_a_lesson_with_its_figures_is_light(lesson: Lesson, site: Path) -> None:
    page = site / "lessons" / lesson.step / f"{lesson.slug}.html"
    stem = f"{lesson.dividend}-{'for' if lesson.ribbons else 'among'}-{lesson.divisor}-"
    figures = list((site / "figures").glob(f"{stem}*.svg"))
    assert len(figures) == 2 + len(SHARINGS[lesson.slug].stages)
    assert page.stat().st_size + sum(figure.stat().st_size for figure in figures) <= 300 * 1024


@pytest.mark.parametrize("page", sorted((HANDBOOK / "en" / "pages").rglob("*.md")), ids=lambda page: str(page.stem))
def test_no_page_leads_to_a_step_that_a_school_may_leave_out(page: Path) -> None:
    assert not re.search(r"""(?:to|href)\("lessons/(?!index\.md)""", page.read_text("utf-8"))


def test_a_lesson_page_with_its_figures_is_light(site: Path) -> None:
    lessons = list(site.glob("lessons/*/*-*.html"))
    assert len(lessons) == len(SOURCES.lessons)
    for page in lessons:
        text = page.read_text("utf-8")
        figures = {page.parent / source for source in re.findall(r'<img src="([^"]+)"', text)}
        assert len(figures) > 2
        assert page.stat().st_size + sum(figure.stat().st_size for figure in figures) <= 300_000, page
