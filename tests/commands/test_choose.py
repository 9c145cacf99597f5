"""`choose`: the JSON that other programs read, the table that people read, the school's shelf, and wrong usage.

That the numbers are the right ones is checked by brute force in tests/engine/test_every_division.py.
"""

import json
from pathlib import Path
from typing import Any

import pytest

from generator.engine.choosing_numbers import Choice, numbers
from generator.engine.places import Counts
from generator.engine.shelf import Shelf
from tests.commands.running import run_command

Json = dict[str, Any]
ANY = {"exchange_from": None, "remainder": "any", "zeros": "any", "digits": 4, "within_shelf": False}


def chosen(*args: object) -> Json:
    ran = run_command("choose", *args, "--json")
    assert (ran.code, ran.err) == (0, "")
    data: Json = json.loads(ran.out)
    assert list(data) == ["divisor", "filters", "count", "numbers"]
    return data


def test_without_filters_the_best_few_of_all() -> None:
    data = chosen(4)
    assert (data["divisor"], data["filters"], data["count"]) == (4, ANY, 9000)
    assert len(data["numbers"]) == len(set(data["numbers"])) == 12
    assert all(len(set(str(number))) == 4 for number in data["numbers"])


# (arguments, filters that differ from the defaults, every number), worked by hand
FILTERED: list[tuple[list[object], Json, list[int]]] = [
    ([5, "--exchange-from", "none", "--remainder", "none", "--zeros", "none"], {"exchange_from": []}, [5555]),
    (
        [7, "--exchange-from", "tens", "--digits", 2, "--remainder", "none"],
        {"exchange_from": ["tens"], "remainder": "none", "digits": 2},
        [14, 21, 28, 35, 42, 49, 56, 63, 84, 91, 98],
    ),
    ([9, "--digits", 1, "--zeros", "quotient"], {"zeros": "quotient"}, [1, 2, 3, 4, 5, 6, 7, 8]),
    ([4, "--digits", 2, "--zeros", "dividend", "--remainder", "none"], {"zeros": "dividend"}, [20, 40, 60, 80]),
    ([1, "--exchange-from", "hundreds,thousands"], {"exchange_from": ["thousands", "hundreds"]}, []),
    ([11, "--digits", 2, "--remainder", "none"], {"remainder": "none"}, [11, 22, 33, 44, 55, 66, 77, 88, 99]),
]


@pytest.mark.parametrize(("args", "filters", "expected"), FILTERED)
def test_filters(args: list[object], filters: Json, expected: list[int]) -> None:
    data = chosen(*args, "--all")
    assert (data["count"], data["numbers"]) == (len(expected), expected)
    assert data["filters"] | filters == data["filters"]
    few = chosen(*args)
    assert (few["count"], sorted(few["numbers"])) == (len(expected), expected[:12])


def test_192_static_numbers_for_three() -> None:
    data = chosen(3, "--exchange-from", "none", "--remainder", "none", "--all")
    assert data["count"] == len(data["numbers"]) == 192
    assert data["numbers"] == sorted(data["numbers"])


def test_all_is_every_number_and_the_best_are_among_them() -> None:
    filters = ["--exchange-from", "tens,hundreds", "--remainder", "some"]
    every, few = chosen(6, *filters, "--all"), chosen(6, *filters)
    assert every["count"] == few["count"] == len(every["numbers"])
    assert set(few["numbers"]) < set(every["numbers"])


@pytest.fixture
def school(tmp_path: Path) -> Path:
    """A school that has little."""
    text = "[shelf]\nunits = 30\ntens = 20\nhundreds = 15\nthousands = 5\nsmall_cards_to = 1000\nsmall_sets = 4\n"
    (tmp_path / "school.toml").write_text(text + "trays = 5\n", encoding="utf-8")
    return tmp_path


def test_within_the_shelf_of_a_school(school: Path) -> None:
    shelf = Shelf(Counts((30, 20, 15, 5)), 9000, 1000, 4, 5, Counts((0, 4, 2)))
    for divisor in (2, 3, 4):
        data = chosen(divisor, "--within-shelf", "--school", school, "--all")
        assert data["filters"] == ANY | {"within_shelf": True}
        assert tuple(data["numbers"]) == numbers(divisor, Choice(shelf=shelf))
        assert 0 < data["count"] < 9000
    assert chosen(5, "--within-shelf", "--school", school)["count"] == 0


def test_within_the_shelf_of_the_stock_handbook() -> None:
    assert 0 < chosen(6, "--within-shelf")["count"] < 9000


def test_more_children_than_the_shelf_can_seat_is_said(school: Path) -> None:
    ran = run_command("choose", 5, "--within-shelf", "--school", school)
    assert ran.out == "0 such numbers for 5 sharers.\nThe shelf has 5 trays and 4 sets of small cards.\n"


def test_a_fault_in_the_school_s_file_is_told(school: Path) -> None:
    (school / "school.toml").write_text("[shelf]\nunits = 'many'\n", encoding="utf-8")
    ran = run_command("choose", 4, "--within-shelf", "--school", school)
    assert (ran.code, ran.out) == (1, "")
    assert "shelf.units" in ran.err
    assert "Traceback" not in ran.err


TABLE = """\
1 such number for 12 sharers:

number each has left over exchanges out of pieces needed at most pieces moved
tens units
60 5 0 6 tens 6 60 144
"""


def test_the_table() -> None:
    """6 bars laid out, begun and taken back (12), exchanged (6 for 60), 60 dealt; compared word by word."""
    shown = run_command("choose", 12, "--digits", 2, "--remainder", "none", "--zeros", "dividend").out
    assert [line.split() for line in shown.splitlines()] == [line.split() for line in TABLE.splitlines()]


def test_where_there_is_none_another_length_is_offered() -> None:
    out = run_command("choose", 11, "--exchange-from", "hundreds").out
    assert out == "0 such numbers for 11 sharers.\nWith --digits 3 there are 90.\n"


def test_where_digits_must_repeat_the_first_is_the_best_there_is() -> None:
    out = run_command("choose", 5, "--exchange-from", "none", "--all").out
    assert "In each of them a digit repeats: 5,555 is the best there is.\n" in out
    assert "repeats" not in run_command("choose", 4).out


def test_a_group_of_one_and_no_number_at_all() -> None:
    assert run_command("choose", 12, "--exchange-from", "none").out == "0 such numbers for 12 sharers.\n"
    assert run_command("choose", 9, "--digits", 1, "--remainder", "none").out.startswith("1 such number for 9 sharers")
    assert run_command("choose", 1, "--digits", 1).out.startswith("9 such numbers for 1 sharer, all of them:")


@pytest.mark.parametrize(
    ("args", "message"),
    [
        ([0], "'DIVISOR': 0 is not a whole number from 1 to 12"),
        ([13], "'DIVISOR': 13 is not a whole number from 1 to 12"),
        ([-4], "'DIVISOR': -4 is not a whole number from 1 to 12"),
        (["four"], "'DIVISOR': four is not a whole number from 1 to 12"),
        ([4.5], "'DIVISOR': 4.5 is not a whole number from 1 to 12"),
        ([4, "--digits", 5], "'--digits': 5 is not a whole number from 1 to 4"),
        ([4, "--digits", 0], "'--digits': 0 is not a whole number from 1 to 4"),
        ([4, "--exchange-from", "units"], "'units' is not one of thousands, hundreds, tens; write none alone"),
        ([4, "--exchange-from", "none,tens"], "'none' is not one of"),
        ([4, "--exchange-from", ""], "'' is not one of"),
        ([4, "--remainder", "maybe"], "'maybe' is not one of 'none', 'some', 'any'"),
        ([4, "--zeros", "some"], "'some' is not one of 'none', 'dividend', 'quotient', 'any'"),
        ([4, "--school", "here"], "give --within-shelf as well"),
        ([4, "--within"], "No such option '--within'"),
        ([], "Missing argument 'DIVISOR'"),
    ],
)
def test_wrong_usage(args: list[object], message: str) -> None:
    ran = run_command("choose", *args)
    assert (ran.code, ran.out) == (2, "")
    error = [line for line in ran.err.splitlines() if line.startswith("Error: ")]
    assert len(error) == 1
    assert message in error[0]


def test_help_explains_every_filter_with_examples() -> None:
    shown = " ".join(run_command("choose", "--help").out.split())
    assert "python -m generator choose 5 --exchange-from none" in shown
    for words in ("no zero in the number nor in the share", "at least one in the number", "at least one in the share"):
        assert words in shown
