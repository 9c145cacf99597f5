"""The A-Z stands in an order in which a person finds a word."""

import re
from datetime import date

import pytest

from generator.pages.kinds.overviews import write_a_z
from generator.pages.writing.page import Page
from generator.pages.writing.writer import Writer
from generator.source.school import School

WORDS = (
    *("12 children", "PDF", "paper", "bank", "2,047 for 20"),
    *("9 children", "Adult", "10 children", "1,000,000 beads", "5,230 for 4"),
)
IN_ORDER = ["9 children", "10 children", "12 children", "2,047 for 20", "5,230 for 4", "1,000,000 beads"]


@pytest.mark.parametrize(("grouping", "mark"), [(",", ","), (" ", "\N{NARROW NO-BREAK SPACE}"), ("", "")])
def test_numbers_stand_in_the_order_of_numbers_before_all_letters(grouping: str, mark: str) -> None:
    school = School.model_validate({"name": "Hazel Lane", "numbers": {"grouping": grouping}})
    pages = [
        Page(f"new-here/{at}.md", word.replace(",", mark), {"tags": ["5230/4"] * (not at)}, "")
        for at, word in enumerate(WORDS)
    ]
    body = write_a_z(Writer(school), pages, date(2026, 1, 15)).body
    assert school.numbers.mark == mark
    found = re.findall(r"<li><a [^>]*>(.*?)</a>", body)
    assert found == [*(word.replace(",", mark) for word in IN_ORDER), "Adult", "Bank", "Paper", "PDF"]
