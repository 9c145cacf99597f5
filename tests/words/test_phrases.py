"""Phrases: forms by number, places filled in, and plain faults for what is not there."""

from __future__ import annotations

import pytest

from generator.errors import HandbookError
from generator.words.phrases import phrases

SAID = phrases("en", lambda number: f"{number:,}")


@pytest.mark.parametrize(("count", "words"), [(0, "0 tens"), (1, "1 ten"), (2, "2 tens"), (1200, "1,200 tens")])
def test_the_number_chooses_the_form(count: int, words: str) -> None:
    assert SAID.say("piece.tens", count=count) == words


@pytest.mark.parametrize("key", ["piece.sevens", "piece.tens"])
def test_what_is_missing_is_named(key: str) -> None:
    with pytest.raises(HandbookError, match=f"phrase {key}: there is no"):
        SAID.say(key)
