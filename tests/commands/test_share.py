"""`share`: the JSON that other programs read, the table that people read, and wrong usage."""

import json
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.commands.running import run_command

Json = dict[str, Any]

# (dividend, divisor, ribbons, quotient, remainder, first stage, exchanges), worked by hand
CASES = [
    (5230, 4, False, 1307, 2, "thousands", 4),
    (3432, 12, True, 286, 0, "hundreds", 4),
    (0, 3, False, 0, 0, "units", 0),
    (0, 30, True, 0, 0, "units", 0),
    (3, 5, False, 0, 3, "units", 0),
    (17, 40, False, 0, 17, "tens", 1),
    (9876, 1, False, 9876, 0, "thousands", 0),
    (640, 20, True, 32, 0, "tens", 0),
    (5100, 102, True, 50, 0, "tens", 1),
    (7, 102, True, 0, 7, "units", 0),
    (84_000, 4, False, 21_000, 0, "ten-thousands", 0),
    (10**15, 3, False, 333_333_333_333_333, 1, "10^15", 15),
    (8_863_704, 4423, True, 2004, 12, "thousands", 5),
]

KEYS = ["schema", "dividend", "divisor", "ribbons", "quotient", "remainder"]
KEYS += ["stages", "steps", "pieces_needed", "exchanges", "handlings"]
ACTIONS = {"deal-round", "start-round", "take-back", "exchange", "set-aside", "next-place", "nothing-here"}


def output(*args: object) -> str:
    """What `share` prints; it must succeed."""
    ran = run_command("share", *args)
    assert (ran.code, ran.err) == (0, "")
    return ran.out


@pytest.fixture(params=CASES, ids=str)
def case(request: pytest.FixtureRequest) -> tuple[Any, Json]:
    dividend, divisor, ribbons, *_ = request.param
    return request.param, json.loads(output(dividend, divisor, *["--ribbons"] * ribbons, "--json"))


def worth(counts: Json) -> int:
    powers = {name: 10**place for place, name in enumerate(NAMES)}
    return sum(count * powers[name] for name, count in counts.items())


NAMES = ["units", "tens", "hundreds", "thousands", "ten-thousands", "hundred-thousands", "millions"]
NAMES += [f"10^{place}" for place in range(7, 20)]


def test_result(case: tuple[Any, Json]) -> None:
    (dividend, divisor, ribbons, quotient, remainder, first, exchanges), data = case
    assert list(data) == KEYS
    assert data["schema"] == 1
    assert [data[key] for key in KEYS[1:6]] == [dividend, divisor, ribbons, quotient, remainder]
    assert data["stages"][0]["place"] == first
    assert data["exchanges"] == exchanges
    assert type(data["ribbons"]) is bool


def test_stages(case: tuple[Any, Json]) -> None:
    """start of a stage = end of the one before; end = start - rounds x sharers - exchanged + 10 x exchanged above."""
    (dividend, divisor, ribbons, quotient, remainder, *_), data = case
    digits = str(dividend)
    names = NAMES[: len(digits)][::-1]
    sharers = [int(digit) for digit in reversed(str(divisor))] if ribbons else [divisor]
    before = {name: int(digit) for name, digit in zip(names, digits, strict=True)}
    levels = [NAMES.index(stage["place"]) for stage in data["stages"]]
    assert levels == list(range(max(len(digits) - len(sharers), 0), -1, -1))
    for level, stage in zip(levels, data["stages"], strict=True):
        assert list(stage) == ["place", "start", "rounds", "exchanged", "end"]
        assert list(stage["start"]) == list(stage["end"]) == names, "every place of the dividend, largest first"
        assert stage["start"] == before
        assert all(count > 0 for count in stage["exchanged"].values())
        for place, name in enumerate(reversed(names)):
            width = place - level
            served = sharers[width] if 0 <= width < len(sharers) else 0
            above = stage["exchanged"].get(NAMES[place + 1], 0)
            gone = stage["rounds"] * served + stage["exchanged"].get(name, 0)
            assert stage["end"][name] == stage["start"][name] - gone + 10 * above
        before = stage["end"]
    assert worth(before) == remainder
    assert sum(stage["rounds"] * 10**level for level, stage in zip(levels, data["stages"], strict=True)) == quotient
    assert sum(sum(stage["exchanged"].values()) for stage in data["stages"]) == data["exchanges"]


def test_steps(case: tuple[Any, Json]) -> None:
    (dividend, divisor, _, quotient, remainder, *_), data = case
    names = NAMES[: len(str(dividend))][::-1]
    for step in data["steps"]:
        assert list(step) == ["action", "place", "pieces", "middle", "trays", "bank", "to_share"]
        assert step["action"] in ACTIONS
        assert step["place"] in NAMES
        assert list(step["middle"]) == list(step["bank"]) == names
        assert worth(step["bank"]) == 0, "the bank gives what it gets"
        on_trays = 0
        for tray in step["trays"]:
            assert list(tray) == ["sharers", "stands_for", "holds"]
            assert list(tray["holds"]) == names
            on_trays += tray["sharers"] * worth(tray["holds"])
        assert worth(step["middle"]) + on_trays == dividend
        assert sum(tray["sharers"] * tray["stands_for"] for tray in step["trays"]) == divisor
    last = data["steps"][-1]
    assert last["to_share"] == remainder
    assert {worth(tray["holds"]) // tray["stands_for"] for tray in last["trays"]} == {quotient}
    assert data["exchanges"] == sum(step["action"] == "exchange" for step in data["steps"])
    assert data["handlings"] == sum(map(int, str(dividend))) + sum(step["pieces"] for step in data["steps"])


def test_pieces_needed(case: tuple[Any, Json]) -> None:
    """The most of each place that the bank had given out at one moment, with what was laid out at first."""
    (dividend, *_), data = case
    laid_out = dict(zip(data["pieces_needed"], map(int, str(dividend)), strict=True))
    banks = [step["bank"] for step in data["steps"]]
    for name, needed in data["pieces_needed"].items():
        assert needed == max(laid_out[name] - min(bank[name] for bank in banks), laid_out[name])


def test_the_stages_of_5230_among_4() -> None:
    data = json.loads(output("5230", "4", "--json"))
    assert data["stages"][0] == {
        "place": "thousands",
        "start": {"thousands": 5, "hundreds": 2, "tens": 3, "units": 0},
        "rounds": 1,
        "exchanged": {"thousands": 1},
        "end": {"thousands": 0, "hundreds": 12, "tens": 3, "units": 0},
    }
    assert data["pieces_needed"] == {"thousands": 5, "hundreds": 12, "tens": 3, "units": 30}
    assert data["steps"][1] == {
        "action": "start-round",
        "place": "thousands",
        "pieces": 1,
        "middle": {"thousands": 0, "hundreds": 2, "tens": 3, "units": 0},
        "trays": [
            {"sharers": 1, "stands_for": 1, "holds": {"thousands": 2, "hundreds": 0, "tens": 0, "units": 0}},
            {"sharers": 3, "stands_for": 1, "holds": {"thousands": 1, "hundreds": 0, "tens": 0, "units": 0}},
        ],
        "bank": {"thousands": 0, "hundreds": 0, "tens": 0, "units": 0},
        "to_share": 1230,
    }


def test_who_looks_first_begins_no_round_that_cannot_be_finished() -> None:
    """Of 5,230 among four, 1 cube, 3 bars and 2 beads are begun and taken back: twelve handlings."""
    begun = json.loads(output("5230", "4", "--json"))
    looked = json.loads(output("5230", "4", "--look-first", "--json"))
    assert list(looked) == [*KEYS[:4], "look_first", *KEYS[4:]]
    assert looked["look_first"] is True
    assert looked["handlings"] == begun["handlings"] - 2 * (1 + 3 + 2)
    steps = [step for step in begun["steps"] if step["action"] not in ("start-round", "take-back")]
    assert looked == begun | {"look_first": True, "handlings": looked["handlings"], "steps": steps}


TABLE = """\
41 among 3: each has 13, 2 left over

what the hands do                   in the middle   on each tray    bank: + more, - fewer     to share
                                    t  u                     t u     t   u
lay out 41                          4  1            3 trays  . .     .   .                41
  give a round: 3 tens              1  1            3 trays  1 .     .   .                11
  start a round: 1 ten, 2 without   .  1             1 tray  2 .     .   .                11
                                                    2 trays  1 .
  take it back: 1 ten               1  1            3 trays  1 .     .   .                11
  exchange 1 ten for 10 units       . 11            3 trays  1 .    +1 -10                11
go on to the units                  . 11            3 trays  1 .    +1 -10                11
  give a round: 3 units             .  8            3 trays  1 1    +1 -10                 8
  give a round: 3 units             .  5            3 trays  1 2    +1 -10                 5
  give a round: 3 units             .  2            3 trays  1 3    +1 -10                 2
  start a round: 2 units, 1 without .  .            2 trays  1 4    +1 -10                 2
                                                     1 tray  1 3
  take it back: 2 units             .  2            3 trays  1 3    +1 -10                 2
  keep apart, left over: 2 units   .  2            3 trays  1 3    +1 -10                 2

Put back together:       3 x 13 + 2 = 41
Exchanges at the bank:   1
Out of the bank at most: 4 tens, 11 units
Pieces moved in all:     36
"""


def test_the_table_tells_every_movement() -> None:
    """Compared word by word: how wide the columns are is not what counts."""
    shown = output("41", "3")
    assert [line.split() for line in shown.splitlines()] == [line.split() for line in TABLE.splitlines()]


@pytest.mark.parametrize(
    ("args", "heading"),
    [
        (["3432", "12", "--ribbons"], "3,432 for 12 with ribbons: one who stands for one has 286, nothing left over"),
        (["2060", "20", "--ribbons"], "2,060 for 20 with ribbons: the answer is 103, nothing left over"),
        (["9", "3", "--ribbons"], "9 for 3 with ribbons: each has 3, nothing left over"),
        (["0", "3"], "0 among 3: each has 0, nothing left over"),
        (["3", "5"], "3 among 5: each has 0, 3 left over"),
        (["12345678901234", "7"], "12,345,678,901,234 among 7: each has 1,763,668,414,462, nothing left over"),
    ],
)
def test_the_heading(args: list[str], heading: str) -> None:
    assert output(*args).splitlines()[0] == heading


def test_trays_that_stand_for_ten_are_told_apart() -> None:
    shown = output("3432", "12", "--ribbons")
    assert "1 tray for 10  2 8 6 ." in shown
    assert "2 trays for 1  . 2 8 6" in shown


def test_columns_stand_below_each_other() -> None:
    rows = output("12345", "11").splitlines()
    left_of_middle = rows[2].index("in the middle")
    table = rows[2 : rows.index("", 2)]
    assert {line[left_of_middle - 1] for line in table if len(line) > left_of_middle} == {" "}


@pytest.mark.parametrize(
    ("args", "message"),
    [
        (["-5", "3"], "'DIVIDEND': -5 is not a whole number from 0 to"),
        (["5", "-3"], "'DIVISOR': -3 is not a whole number from 1 to"),
        (["5", "0"], "'DIVISOR': 0 is not a whole number from 1 to 9,999 (with --ribbons to 999,999)"),
        (["5.5", "2"], "'DIVIDEND': 5.5 is not a whole number"),
        (["5", "2.0"], "'DIVISOR': 2.0 is not a whole number"),
        (["5,230", "4"], "'DIVIDEND': 5,230 is not a whole number from 0 to 1,000,000,000,000,000; write digits only"),
        (["five", "4"], "'DIVIDEND': five is not a whole number"),
        (["1e3", "4"], "'DIVIDEND': 1e3 is not a whole number"),
        (["1000000000000001", "4"], "'DIVIDEND': 1000000000000001 is not a whole number from 0 to"),
        (["9" * 5000, "4"], "is not a whole number from 0 to"),
        (["5230", "10000"], "'DIVISOR': 10000 is more than 9,999; with --ribbons it may go to 999,999"),
        (["5230", "1000000", "--ribbons"], "'DIVISOR': 1000000 is not a whole number from 1 to 9,999 (with --ribbons"),
        (["5230"], "Missing argument 'DIVISOR'"),
        (["5230", "4", "2"], "unexpected extra argument"),
        (["5230", "4", "--ribbon"], "No such option '--ribbon'"),
    ],
)
def test_wrong_usage(args: list[str], message: str) -> None:
    ran = run_command("share", *args)
    assert (ran.code, ran.out) == (2, "")
    error = [line for line in ran.err.splitlines() if line.startswith("Error: ")]
    assert len(error) == 1
    assert message in error[0]


def test_help_has_an_example() -> None:
    shown = output("--help")
    assert "python -m generator share 5230 4" in shown
    assert "from 0 to 10^15" in shown
    assert "9,999" in shown


SLOW = {"pydantic", "yaml", "jinja2", "markdown", "lxml", "mkdocs", "generator.source", "generator.pages"}


@pytest.mark.parametrize("line", ["share 5230 4 --json", "share 5230 4", "choose 4", "diagnose 5230 4 --seen 1,2,3,4"])
def test_small_commands_import_nothing_slow(line: str) -> None:
    code = f"import sys; sys.argv[1:] = {line.split()}; from generator.__main__ import run; run(); print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert SLOW.isdisjoint(done.stdout.splitlines()[-1].split())


def test_where_nothing_can_be_printed_one_line_says_so() -> None:
    full = Path("/dev/full")
    if not full.exists():
        pytest.skip("only Linux has a file that is always full")
    command = [sys.executable, "-m", "generator", "share", "5230", "4"]
    with full.open("w") as nowhere:
        done = subprocess.run(command, stdout=nowhere, stderr=subprocess.PIPE, text=True, check=False)
    assert done.returncode == 1
    assert re.fullmatch(r"No space left on device; .+\n", done.stderr)
