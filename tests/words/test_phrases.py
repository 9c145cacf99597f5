"""Phrases: forms by number, places filled in, and plain faults for what is not there."""

import pickle
import re

import pytest
from babel import Locale

from generator.errors import HandbookError
from generator.words.phrases import Grouping, Phrases, category

SAID = Phrases("en")


@pytest.mark.parametrize(("count", "words"), [(0, "0 tens"), (1, "1 ten"), (2, "2 tens"), (1200, "1,200 tens")])
def test_the_number_chooses_the_form(count: int, words: str) -> None:
    assert SAID.say("piece.tens", count=count, number=count) == words


@pytest.mark.parametrize(
    ("key", "given", "fault"),
    [
        ("piece.sevens", {}, "there is no phrase piece.sevens in handbook/en/phrases.toml"),
        ("piece.tens", {}, "handbook/en/phrases.toml: piece.tens: is not given 'count', but nothing"),
        ("piece.tens", {"count": 2}, "handbook/en/phrases.toml: piece.tens: is not given 'number', but count"),
    ],
)
def test_what_is_missing_is_named(key: str, given: dict[str, int], fault: str) -> None:
    with pytest.raises(HandbookError, match=f"^{re.escape(fault)}$"):
        SAID.say(key, **given)


def test_every_number_takes_the_form_that_cldr_gives_it() -> None:
    """Source: the plural rules of Unicode CLDR, as Babel has them."""
    cldr = Locale("en").plural_form
    for count in range(1100):
        assert category("en", count) == cldr(count)


@pytest.mark.parametrize("grouping", [Grouping(), Grouping("\u202f"), Grouping("", False)])
def test_phrases_are_a_value(grouping: Grouping) -> None:
    said = Phrases("en", grouping)
    assert pickle.loads(pickle.dumps(said)) == said
    assert hash(pickle.loads(pickle.dumps(said))) == hash(said)


@pytest.mark.parametrize(
    ("grouping", "written"),
    [
        (Grouping(), ["999", "1,000", "9,999", "10,000"]),
        (Grouping("\u202f"), ["999", "1\u202f000", "9\u202f999", "10\u202f000"]),
        (Grouping(" ", in_four_digits=False), ["999", "1000", "9999", "10 000"]),
        (Grouping(""), ["999", "1000", "9999", "10000"]),
    ],
)
def test_digits_stand_in_threes(grouping: Grouping, written: list[str]) -> None:
    assert [grouping.written(number) for number in (999, 1000, 9999, 10_000)] == written
