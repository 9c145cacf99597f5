"""What the search takes for a question about numbers, and what it takes it for: the worker's own scripts, run alone."""

import json
import re
import tomllib
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from generator import HANDBOOK
from generator.site import offline_search
from generator.words.numbers import number_words
from generator.words.phrases import Phrases
from tests.sampling import sample
from tests.script.engine import Engine

QUERIES = tomllib.loads((Path(__file__).parents[1] / "browser" / "queries.toml").read_text("utf-8"))
SCRIPTS = (
    *(HANDBOOK / "theme" / "js" / f"{name}.js" for name in ("sharing/places", "sharing/limits", "words/phrases")),
    *(Path(offline_search.__file__).with_name("search-worker") / f"{name}.js" for name in ("numbers", "todays-number")),
)
UP_TO_NINE = [number_words(Phrases("en"), number) for number in range(1, 10)]
LESSON = {"page": "lessons/x/4816-among-4.html", "dividend": 4816, "divisor": 4, "ribbons": False}


@pytest.fixture(scope="module")
def worker() -> Iterator[Engine]:
    known = {"words": Phrases("en").as_data(), "lessons": [LESSON]}
    with closing(Engine()) as v8:
        v8.run(
            f"(globalThis.sharing ??= {{}}).handbook = {json.dumps(known)};"
            + "\n".join(script.read_text("utf-8") for script in SCRIPTS)
        )
        yield v8


def answered(worker: Engine, asked: str, items: list[list[dict[str, Any]]]) -> list[list[dict[str, Any]]]:
    said = worker.run(f"JSON.stringify(withNumbersFirst({json.dumps(asked)}, {json.dumps(items)}))")
    answer: list[list[dict[str, Any]]] = json.loads(said)
    return answer


@pytest.mark.parametrize(("asked", "right"), QUERIES["number"].items(), ids=QUERIES["number"])
def test_a_question_about_numbers_opens_todays_number(worker: Engine, asked: str, right: dict[str, str]) -> None:
    ((today,), _) = answered(worker, asked, [[{"location": "other.html", "score": 7}]])
    assert today["location"] == f"today.html#{right['opens']}"
    assert today["score"] > 7


def test_a_space_may_stand_in_a_number(worker: Engine) -> None:
    read = 'JSON.stringify(["8 412", "4 652 among 4", "7 for 1 234 5", "5230 4", "12 345"].map(wordsAndNumbers))'
    assert worker.run(read) == '[[8412],[4652,"among",4],[7,"for",1234,5],[5230,4],[12,345]]'


@pytest.mark.parametrize(
    ("asked", "is_of_trays"),
    {
        "1,204 1,204 1,203": True,
        "1203 + 1203 + 1203": True,
        "the trays have 17, 17 and 16": True,
        "1,204 1,203": False,
        "7 392 6": False,
        "ten of one is one of the next": False,
        "1204 1204 1203 bead lost": False,
    }.items(),
)
def test_three_numbers_or_more_of_which_two_are_the_same_lie_on_trays(
    worker: Engine, asked: str, is_of_trays: bool
) -> None:
    assert json.loads(worker.run(f"JSON.stringify(traysAsked({json.dumps(asked)}))")) is is_of_trays


def test_a_number_in_words_is_that_number_however_it_is_spelt(worker: Engine) -> None:
    for number in sample(range(1, 10_000), 271):
        said = number_words(Phrases("en"), number)
        counted = re.sub(r"(\w+)(?= thousand| hundred)", lambda word: str(UP_TO_NINE.index(word[1]) + 1), said)
        spellings = [said, said.replace(" and ", " "), said.replace("-", " ").title(), counted]
        asked = f"{json.dumps(spellings)}.map(wordsAndNumbers)"
        assert worker.run(f"JSON.stringify({asked})") == json.dumps([[number]] * 4, separators=(",", ":")), said


@pytest.mark.parametrize(
    ("said", "read"),
    [("twenty five", [25]), ("ten five", [10, 5]), ("fifteen five", [15, 5]), ("twenty ten", [20, 10])],
)
def test_a_number_in_words_ends_where_no_number_would_go_on(worker: Engine, said: str, read: list[int]) -> None:
    assert json.loads(worker.run(f"JSON.stringify(wordsAndNumbers({json.dumps(said)}))")) == read


OTHERS = (
    *("ten ribbons", "two digit divisor", "bank gave 11", "off by ten", "year 6", "A4", "9 beads missing", "zero"),
    *("only two cubes for five children", "child reads 137 instead of 1307", "5", "twelve", "under 3 years"),
    *("1 2 3", "first lesson", "how many children", "ribbon", "for us today", "one exchange", ""),
    *("hundred", "ten hundreds", "a thousand for one and a hundred for another"),
    *("one child gets two", "I had 137 but it should be 1307", "13 left over", "children over 3", "12 ribbons"),
    *("16 children", "1 child", "share 10000 by 4", "ribbons for 10"),
)


@pytest.mark.parametrize("asked", OTHERS)
def test_other_questions_are_left_as_they_are(worker: Engine, asked: str) -> None:
    items = [[{"location": "other.html", "score": 7}]]
    assert answered(worker, asked, items) == items


def test_a_lesson_for_just_that_division_comes_first_and_misses_nothing(worker: Engine) -> None:
    found = [
        [{"location": "other.html", "score": 7, "terms": {"4816": False}}],
        [{"location": f"{LESSON['page']}#set-out", "score": 3, "terms": {"4816": True, "4": False}}],
    ]
    first = [parts[0] for parts in answered(worker, "4,816 / 4", found)]
    locations = [part["location"] for part in first]
    assert locations == [f"{LESSON['page']}#set-out", "today.html#number=4816&children=4", "other.html"]
    assert [part["terms"] for part in first] == [{}, {}, {"4816": False}]
    other = found[0][0], {"location": LESSON["page"], "score": 3}
    without_group = answered(worker, "4,816", [[part] for part in other])
    assert [parts[0]["location"] for parts in without_group] == ["today.html#number=4816", LESSON["page"], "other.html"]
    with_ribbons = [parts[0]["location"] for parts in answered(worker, "4,816 for 14 with ribbons", found)]
    assert with_ribbons[0] == "today.html#number=4816&children=14&ribbons"


TITLES = {
    "4327": "4,327",
    "five kids": "5 children",
    "4327 for 6": "4,327 among 6",
    "for 12 with ribbons": "For 12, with ribbons",
    "3432 for 12 with ribbons": "3,432 for 12, with ribbons",
}


@pytest.mark.parametrize(("asked", "title"), TITLES.items())
def test_the_answer_says_what_it_opens(worker: Engine, asked: str, title: str) -> None:
    assert answered(worker, asked, [])[0][0]["title"].partition(":")[0] == title
