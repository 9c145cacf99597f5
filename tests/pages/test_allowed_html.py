"""What the Markdown of a school may become, case by case; our own pages are held to the same."""

import tomllib
from pathlib import Path

import pytest

from generator import HANDBOOK
from generator.build.kept_between_builds import workshop
from generator.errors import Problem
from generator.pages.authored.allowed_html import LARGEST_RESULT, Refusal, refusals
from generator.pages.handbook import write_handbook
from generator.pages.kinds.today import TODAY
from generator.pages.writing.page import from_page
from generator.pages.writing.writer import Writer
from generator.source.library import load
from tests.conftest import quiet

CASES = tomllib.loads(Path(__file__).with_name("allowed_html.toml").read_text("utf-8"))
FIGURES = {"../figures/known.svg"}


def says(refusal: Refusal) -> str:
    key, problem, remedy = refusal[0]
    return f"{key}: {problem}; {remedy}" if key else f"{problem}; {remedy}"


@pytest.mark.parametrize("case", CASES["refused"], ids=lambda case: case["markdown"][:40])
def test_what_runs_loads_or_breaks_the_page_is_refused(case: dict[str, str | list[str]]) -> None:
    found = refusals(str(case["markdown"]), FIGURES)
    assert list(dict.fromkeys(map(says, found))) == case["says"]


@pytest.mark.parametrize("case", CASES["allowed"], ids=lambda case: case["markdown"][:40])
def test_what_pages_need_is_taken(case: dict[str, str]) -> None:
    assert list(refusals(case["markdown"], FIGURES)) == []


@pytest.mark.parametrize("case", CASES["refused"], ids=lambda case: case["markdown"][:40])
def test_the_same_is_refused_below_a_page_of_ours(case: dict[str, str]) -> None:
    assert list(refusals(f"# A page\n\nWith words.\n\n## At our school\n\n{case['markdown']}", FIGURES))


@pytest.mark.parametrize(("text", "hidden"), [("bell \x07", "U+0007"), ("backwards \u202e", "U+202E")])
def test_hidden_characters_are_refused(text: str, hidden: str) -> None:
    assert [says(found) for found in refusals(text, ())] == [f"holds the hidden character {hidden}; take it out"]


def test_tabs_and_line_ends_are_not_hidden() -> None:
    assert list(refusals("one\ttwo\r\nthree\rfour", ())) == []


def test_a_page_that_becomes_too_large_is_refused() -> None:
    much = f"[a]: {'x' * 9000}\n\n" + "[a][] " * (LARGEST_RESULT // 9000 + 1)
    remedy = "take out what repeats so often"
    assert list(refusals(much, ())) == [(Problem("", f"grows to more than {LARGEST_RESULT} characters", remedy), "")]


@pytest.mark.usefixtures("site")
def test_our_own_pages_keep_to_it(shared: Path) -> None:
    """As the build has written them that all tests share."""
    sources = load(HANDBOOK)
    authored = {page.path for page in sources.pages}
    with workshop(shared / "stock" / "workshop", None, 1, quiet) as place:
        pages = write_handbook(sources, Writer(sources.school), place.run_many).pages
    lessons = {page.path.rpartition("/")[0]: page for page in pages if page.path.startswith("lessons/")}
    looked_at = [page for page in pages if page.path in authored or not page.path.startswith("lessons/")]
    looked_at += lessons.values()
    assert len(looked_at) > 40
    for page in looked_at:
        if page.path == TODAY:  # made for its scripts: no page for a school to write
            continue
        figures = {from_page(page.path, picture.path) for picture in page.pictures}
        assert [(page.path, says(found)) for found in refusals(page.body, figures)] == []
