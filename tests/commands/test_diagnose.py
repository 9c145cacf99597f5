"""`diagnose` on the command line: its JSON, its sentences, and what it refuses."""

import json

import pytest

from tests.commands.running import Ran, run_command


def run(line: str) -> Ran:
    return run_command("diagnose", *line.split())


def test_json_of_one_bead_of_what_is_left_over_on_a_tray() -> None:
    data = json.loads(run("5230 4 --seen 1308,1307,1307,1307 --left 1 --json").out)
    assert list(data) == ["dividend", "divisor", "ribbons", "consistent", "causes"]
    assert (data["dividend"], data["divisor"], data["consistent"]) == (5230, 4, False)
    assert [list(cause) for cause in data["causes"]] == [["slip", "place", "explanation", "repair"]] * 3
    assert [(cause["slip"], cause["place"]) for cause in data["causes"]] == [
        ("left-over-dealt", "units"),
        ("round-not-taken-back", "units"),
        ("child-dealt-twice", "units"),
    ]


def test_json_of_the_right_result() -> None:
    data = json.loads(run("5230 4 --seen 1307,1307,1307,1307 --left 2 --json").out)
    assert data == {"dividend": 5230, "divisor": 4, "ribbons": False, "consistent": True, "causes": []}


@pytest.mark.parametrize(
    ("trays", "slip"), [("1743,1743,1743", "tray-too-few"), ("1046,1046,1046,1046,1046", "tray-too-many")]
)
def test_json_of_another_number_of_trays(trays: str, slip: str) -> None:
    (cause,) = json.loads(run(f"5230 4 --seen {trays} --json").out)["causes"]
    assert (cause["slip"], cause["place"]) == (slip, "every place")


def test_json_with_ribbons_says_whom_a_tray_is_for() -> None:
    data = json.loads(run("3432 12 --ribbons --seen 10:2860,286,285 --left 1 --json").out)
    (cause,) = data["causes"]
    assert (data["ribbons"], cause["slip"], cause["place"]) == (True, "child-skipped", "units")
    (movement,) = cause["repair"]
    assert movement == {
        "pieces": 1,
        "place": "units",
        "from": "left-over",
        "to": "tray",
        "reads": 285,
        "trays": 1,
        "stands_for": 1,
    }


def test_a_last_round_not_taken_back_has_one_name_for_people() -> None:
    said = run("5230 4 --seen 1308,1307,1307,1307 --left 1").out
    assert "1. A piece that should have been left over went onto a tray." in said
    assert "2. Two unit beads went to one tray" in said
    assert "A round was not finished" not in said


# what is typed, and what a person must find in the answer
SENTENCES = {
    "5230 4 --seen 1307,1307,1307,1307 --left 2": [
        "nothing to look for",
        "The trays are equal.",
        "The total comes back.",
    ],
    "5230 4 --seen 1307,1307,1307,1306 --left 3": [
        "5,230 among 4: each has 1,307, 2 left over.",
        "You see: 1,307 on each of 3 trays, 1,306 on 1 tray, 3 left over.",
        "The trays are not equal.",
        "The total comes back.",
        "1. A tray was passed over in one of the first 7 rounds of the units.",
        "Give one unit bead from what is left over to the tray that reads 1,306.",
        "Look for the tray with the fewest unit beads.",
    ],
    "5230 4 --seen 1307,1307,1307,1307 --left 1": [
        "it is 1 too little",
        "1. Nine unit beads came from the bank",
        "2. ",
    ],
    "5230 4 --seen 1307,1307,1307,1307 --left 3": [
        "it is 1 too much",
        "Eleven unit beads came from the bank instead of ten",
        "2. ",
    ],
    "5230 4 --seen 1743,1743,1743": ["There should be 4 trays.", "One tray was missing."],
    "5230 4 --seen 1,2,3,4": ["No single slip leads to this"],
    "5230 4 --seen 1307,1307,1307,1307 --left 0": [
        "If some are missing, nobody goes on until all are found.",
        "Found? Put them in the middle with what is left over, and type that in.",
        "None missing?",
    ],
    "5230 4 --seen 1300,1300,1300,1300 --left 30": ["What is left can still go round."],
    "52 4 --seen 20,10,10,10 --left 2": [
        "1. A round was not finished, and one piece stayed on a tray.",
        "Take one bar from the tray that reads 20 to the middle. Then go on sharing.",
    ],
    "5000 4 --seen 2000,1000,1000,1000 --left 0": [
        "Take one cube from the tray that reads 2,000 to the middle. Then go on sharing.",
    ],
    "2000 3 --seen 1000,1000,0 --left 0": [
        "Put out the missing tray. Take one cube from each of the 2 trays that read 1,000 to the middle. Then go on",
    ],
    "5230 4 --seen 1306,1306,1306,1305 --left 7": [
        "to the tray that reads 1,305. Then go on sharing.",
    ],
    "5230 4 --seen 1307,1307,1307,1307": ["The trays are right. Count what is left over too: it should be 2."],
    "5230 4 --seen 1307": ["There should be 4 trays. Write one for each child, 0 for an empty one."],
    "3432 12 --ribbons --seen 2860,286,286 --left 0": ["There should be 1 tray for 10 (10:...), 2 trays for 1."],
    "3432 12 --ribbons --seen 10:2860,286,286 --left 0": [
        "3,432 for 12 with ribbons: one who stands for one has 286",
        "You see: 2,860 on 1 tray for 10, 286 on each of 2 trays for 1, nothing left over.",
        "nothing to look for",
    ],
    "144 12 --ribbons --seen 10:12,120,12 --left 0": [
        "Still the same? Two trays have changed places. Put each in front of its own child.",
    ],
    "60 20 --ribbons --seen 10:3,10:3 --left 54": [
        "No single slip leads to this",
        "Take three unit beads from each of the 2 trays for 10 that read 3 to the middle. If a piece you need is not",
    ],
    "2400 200 --ribbons --seen 100:12,100:12 --left 2376": [
        "Take one bar from each of the 2 trays for 100 that read 12 to the middle. "
        "Take two unit beads from each of the 2 trays for 100 that now read 2 to the middle.",
        "Then go on sharing.",
    ],
    "3264 102 --ribbons --seen 100:3100,31,31 --left 92": [
        "If all are there, one too few was laid out.\n   Everything goes back to the bank.",
    ],
    "7132 3 --seen 2407,2407,2407 --left 1": [
        "Take three bars from each of the 3 trays that read 2,407 to the bank. "
        "If a piece you need is not there, change others for it at the bank.",
    ],
    "692 4 --seen 150,150,150,150 --left 2": [
        "If a piece you need is not there, change others for it at the bank. Everything from the tens down goes back",
    ],
    "7254 3 --seen 2388,2388,2388 --left 0": [
        "Bring three bars from the bank to each of the 3 trays that read 2,388. Ten of a kind on a tray after that?",
    ],
    "8000 3 --seen 1700,2700,2700 --left 0": ["None missing? Everything goes back to the bank."],
    "9 3 --ribbons --seen 3,3,3 --left 0": ["9 for 3 with ribbons: each has 3, nothing left over."],
    "4 4 --seen 1,1,1,0": [
        "nothing left over",
        "A unit bead was lost from a tray",
        "nobody goes on until it is found",
    ],
    "500000 4 --seen 125000,125000,125000,25000 --left 0": ["A 100,000-piece was lost from a tray"],
}


@pytest.mark.parametrize("line", SENTENCES)
def test_sentences(line: str) -> None:
    result = run(line)
    assert result.code == 0
    assert [words for words in SENTENCES[line] if words not in result.out] == []


# what is typed, and what the one line of the error must name
REFUSED = {
    "5230 4": "--seen",
    "5230 4 --seen 1307,x,1307": "x is not a whole number",
    "5230 4 --seen 1307,,1307": "an empty value is not a whole number",
    "5230 4 --seen -1,3": "-1 is not a whole number",
    "5230 4 --seen 1307.5": "1307.5 is not a whole number",
    "5230 4 --seen 1307 --left -2": "-2 is not a whole number",
    "5230 4 --seen 1307 --left two": "two is not a whole number",
    "5230 4 --seen 10:5,3 --left 0": '"10:" is for ribbons; add --ribbons, or write the tray without it',
    "3432 12 --ribbons --seen 7:2860,286,286": '"7:" is not what a tray can stand for: 1, 10, 100, 1000',
    "3432 12 --ribbons --seen :2860,286,286": '":" is not what a tray can stand for: 1, 10, 100, 1000',
    "5230 0 --seen 1307": "'DIVISOR': 0 is not a whole number",
    "-5 4 --seen 1307": "'DIVIDEND': -5 is not a whole number",
    "5230 --seen 1307": "'DIVISOR'",
}


@pytest.mark.parametrize("line", REFUSED)
def test_refused_in_one_line(line: str) -> None:
    result = run(line)
    assert result.code == 2
    assert result.out == ""
    (error,) = [row for row in result.err.splitlines() if row.startswith("Error:")]
    assert REFUSED[line] in error


@pytest.mark.parametrize("trays", ["1307", "1307,1307,1307,1307,1307", "1307,1307,1307,1307,0 --left 2"])
def test_nothing_is_put_right_while_trays_are_missing_in_what_is_written(trays: str) -> None:
    assert "goes back" not in run(f"5230 4 --seen {trays}").out
    assert "go back" not in run(f"5230 4 --seen {trays}").out


def test_help_shows_an_example() -> None:
    assert "python -m generator diagnose 5230 4 --seen" in run("--help").out
