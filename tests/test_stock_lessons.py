"""The lessons of the stock handbook: their spread along the path, and the files of their figures."""

import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest
from lxml import html

from generator import HANDBOOK
from generator.engine.features import Features, features_of
from generator.engine.places import HUNDREDS, TENS, THOUSANDS, place_name
from generator.engine.sharing import Sharing
from generator.figures.picture import PART, Picture
from generator.source.models import Lesson
from tests.figures.count_pieces import count_pieces
from tests.figures.held import assert_stage, at_the_end, laid_out, left_over
from tests.stock import sources, worked

SOURCES = sources()


SHARINGS = {lesson.slug: worked(lesson) for lesson in SOURCES.lessons}
PLAIN = [(sharing, features_of(sharing)) for sharing in SHARINGS.values() if not sharing.ribbons]
RIBBONS = [(sharing, features_of(sharing)) for sharing in SHARINGS.values() if sharing.ribbons]


def test_there_are_enough_lessons_on_every_step() -> None:
    assert len(SOURCES.lessons) >= 60
    assert min(len(step.lessons) for step in SOURCES.steps) >= 6


def test_every_size_of_group_has_a_lesson() -> None:
    assert {sharing.divisor for sharing in SHARINGS.values() if not sharing.ribbons} >= set(range(2, 13))


@pytest.mark.parametrize(
    "wanted",
    [
        lambda sharing, _: not sharing.exchanges and not sharing.remainder,
        lambda _, features: features.exchange_from == (TENS,),
        lambda _, features: features.exchange_from == (HUNDREDS,),
        lambda _, features: features.exchange_from == (THOUSANDS,),
        lambda _, features: len(features.exchange_from) > 1,
        lambda sharing, _: sharing.remainder > 0,
        lambda _, features: bool(features.zeros_in_dividend),
        lambda _, features: bool(features.zeros_inside_quotient),
        lambda _, features: bool(features.zeros_at_quotient_end),
        lambda _, features: any(place - 1 in features.zeros_in_dividend for place in features.exchange_from),
        lambda _, features: features.highest_place_short,
        lambda sharing, _: sharing.quotient == 0,
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
def test_every_kind_of_lesson_is_there(wanted: Callable[[Sharing, Features], bool]) -> None:
    assert any(wanted(*lesson) for lesson in PLAIN)


def test_ribbons_of_every_kind_are_there() -> None:
    lengths = Counter(len(sharing.mat) for sharing, _ in RIBBONS)
    assert lengths[2] >= 6
    assert lengths[3] >= 6
    assert any(0 in sharing.mat for sharing, _ in RIBBONS)
    assert {bool(sharing.exchanges) for sharing, _ in RIBBONS} == {True, False}
    assert {bool(sharing.remainder) for sharing, _ in RIBBONS} == {True, False}


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
            bool(sharing.remainder),
        )

    told_by: dict[object, list[str]] = {}
    for slug, sharing in SHARINGS.items():
        told_by.setdefault(story(sharing), []).append(slug)
    assert [slugs for slugs in told_by.values() if len(slugs) > 1] == [], (
        "these tell the same story: give one of them another number"
    )
    assert len({lesson.reason for lesson in SOURCES.lessons}) == len(SOURCES.lessons)


@pytest.mark.parametrize("narrow", [False, True], ids=["wide", "narrow"])
@pytest.mark.parametrize("lesson", SOURCES.lessons, ids=lambda lesson: str(lesson.slug))
def test_the_figures_of_a_lesson_hold_the_pieces_of_the_engine(lesson: Lesson, narrow: bool, site: Path) -> None:
    """Those of its page; those of its plan: tests/figures/test_small.py."""
    sharing = SHARINGS[lesson.slug]

    def counted(kind: str) -> dict[str, int]:
        picture = Picture(kind, lesson.dividend, lesson.divisor, lesson.ribbons, narrow=narrow)
        return count_pieces((site / "figures" / picture.file).read_bytes())

    assert counted("layout") == laid_out(sharing)
    for stage in sharing.stages:
        place = place_name(stage.level)
        assert_stage(counted(place), sharing, stage)
        for number, part in enumerate(stage.parts if len(stage.parts) > 1 else (), start=1):
            assert_stage(counted(f"{place}{PART}{number}"), sharing, part)
    if not sharing.exchanges:
        assert counted("end") == at_the_end(sharing)
    assert counted("cards") == left_over(sharing)


@pytest.mark.parametrize("page", sorted((HANDBOOK / "en" / "pages").rglob("*.md")), ids=lambda page: str(page.stem))
def test_no_page_leads_to_a_step_that_a_school_may_leave_out(page: Path) -> None:
    assert not re.search(r"""(?:to|href)\("lessons/(?!index\.md)""", page.read_text("utf-8"))


def test_a_lesson_page_with_its_figures_is_light(site: Path) -> None:
    lessons = list(site.glob("lessons/*/*-*.html"))
    assert len(lessons) == len(SOURCES.lessons)
    for page in lessons:
        text = page.read_text("utf-8")
        figures = {page.parent / source for source in re.findall(r'<img src="([^"]+/figures/[^"]+)"', text)}
        assert len(figures) > 2
        narrow = {page.parent / source for source in re.findall(r'srcset="([^"]+)"', text)}
        assert len(narrow) == len(figures)
        for loaded in (figures, narrow):  # a reader loads the ones or the others
            assert page.stat().st_size + sum(figure.stat().st_size for figure in loaded) <= 300_000, page


def test_on_the_page_of_a_group_stand_the_lessons_that_so_many_share_without_ribbons(site: Path) -> None:
    twelve = (site / "choosing" / "group-12.html").read_text("utf-8")
    own = {lesson.slug for lesson in SOURCES.lessons if (lesson.divisor, lesson.ribbons) == (12, False)}
    assert set(re.findall(r'href="\.\./lessons/[\w-]+/([\w-]+-\d+)\.html"', twelve)) == own
    assert any((lesson.divisor, lesson.ribbons) == (12, True) for lesson in SOURCES.lessons)


def test_every_lesson_leads_to_its_own_movements(site: Path) -> None:
    for lesson in SOURCES.lessons:
        sharing = SHARINGS[lesson.slug]
        (page,) = site.glob(f"lessons/*/{lesson.slug}.html")
        ribbons = "&ribbons" if sharing.ribbons else ""
        asked = f"../../today.html#number={sharing.dividend}&children={sharing.divisor}{ribbons}&movement=1"
        links = html.document_fromstring(page.read_text("utf-8")).xpath("//a/@href")
        assert [link for link in links if "&movement=" in link] == [asked]
