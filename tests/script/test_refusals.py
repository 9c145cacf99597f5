"""What the commands refuse, `window.sharing` refuses with an Error of the same sentence."""

import json

import pytest

from generator.engine.choosing_numbers import Choice, numbers
from generator.source.school import ShelfTable
from tests.commands.running import run_command
from tests.script.engine import Engine

REFUSED = [
    ("share -5 4", "share(-5, 4)"),
    ("share 3.5 4", "share(3.5, 4)"),
    ("share abc 4", "share('abc', 4)"),
    ("share 1000000000000001 4", "share(1000000000000001, 4)"),
    ("share 10 0", "share(10, 0)"),
    ("share 10 -1 --ribbons", "share(10, -1, { ribbons: true })"),
    ("share 10 10000", "share(10, 10000)"),
    ("share 10 10000 --look-first", "share(10, 10000, { look_first: true })"),
    ("share 10 1000000 --ribbons", "share(10, 1000000, { ribbons: true })"),
    ("choose 0", "choose(0)"),
    ("choose 13", "choose('13')"),
    ("choose 4 --exchange-from units", "choose(4, { exchange_from: ['units'] })"),
    ("choose 4 --exchange-from tens,millions", "choose(4, { exchange_from: ['tens', 'millions'] })"),
    ("choose 4 --remainder few", "choose(4, { remainder: 'few' })"),
    ("choose 4 --zeros all", "choose(4, { zeros: 'all' })"),
    ("choose 4 --digits 5", "choose(4, { digits: 5 })"),
    ("choose 4 --digits 0", "choose(4, { digits: 0 })"),
    ("diagnose 10 10000 --seen 1", "diagnose(10, 10000, { seen: [1] })"),
    ("diagnose 10 0 --seen 1", "diagnose(10, 0, { seen: [1] })"),
    ("diagnose -1 2 --seen 1", "diagnose(-1, 2, { seen: [1] })"),
    ("diagnose 10 2", "diagnose(10, 2)"),
    ("diagnose 10 2 --seen 5,x", "diagnose(10, 2, { seen: [5, 'x'] })"),
    ("diagnose 10 2 --seen 5,", "diagnose(10, 2, { seen: [5, ''] })"),
    ("diagnose 10 2 --seen 5,-5", "diagnose(10, 2, { seen: [5, -5] })"),
    ("diagnose 10 2 --seen 7:5,5", "diagnose(10, 2, { seen: [{ stands_for: 7, value: 5 }, 5] })"),
    ("diagnose 10 2 --seen 5,10:5", "diagnose(10, 2, { seen: [5, { stands_for: '10', value: 5 }] })"),
    ("diagnose 10 2 --seen 5,5 --left 0.5", "diagnose(10, 2, { seen: [5, 5], left: 0.5 })"),
]


@pytest.mark.parametrize(("line", "call"), REFUSED)
def test_the_sentence_is_that_of_the_command(engine: Engine, line: str, call: str) -> None:
    ran = run_command(*line.split())
    assert ran.code == 2
    written = ran.err.splitlines()[-1]
    assert written.startswith("Error: ")
    assert engine.run(f"orRefused(() => sharing.{call})") == written


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        ("share()", "Missing argument 'DIVIDEND'."),
        ("share(12)", "Missing argument 'DIVISOR'."),
        ("share([5], 4)", "Invalid value for 'DIVIDEND': 5 is not a whole number from 0 to"),
        ("share(12, 12, { ribbons: 'false' })", "Invalid value for 'ribbons': false is neither true nor false."),
        ("choose(4, { within_shelf: 'no' })", "Invalid value for 'within_shelf': no is neither true nor false."),
        ("choose(4, { exchange_from: 'none' })", "Invalid value for 'exchange_from': none is not a list."),
        ("choose(4, { exchange_from: ['constructor'] })", "Invalid value for '--exchange-from': 'constructor' is not"),
        ("choose(4, { within_shelf: true, shelf: { cubes: 3 } })", "Invalid value for 'shelf': 'cubes' is not one of"),
        ("choose(4, { within_shelf: true, shelf: { tens: 'x' } })", "Invalid value for 'shelf.tens': x is not a whole"),
        ("diagnose(10, 2, { seen: '5,5' })", "Invalid value for '--seen': 5,5 is not a list."),
        ("diagnose(10, 2, { seen: [null] })", "Invalid value for '--seen': null is not a whole number"),
    ],
)
def test_what_only_a_script_can_ask_is_refused_in_a_sentence_as_well(engine: Engine, call: str, sentence: str) -> None:
    assert engine.run(f"orRefused(() => sharing.{call})").startswith(f"Error: {sentence}")


def test_a_shelf_of_which_only_some_is_told_is_otherwise_that_of_the_school(engine: Engine) -> None:
    script = "sharing.choose(4, { within_shelf: true, shelf: { thousands: 3 } }, { all: true }).numbers"
    found = engine.run(f"JSON.stringify({script})")
    assert json.loads(found) == list(numbers(4, Choice(shelf=ShelfTable(thousands=3).owned)))


def test_no_tray_seen_at_all_is_refused(engine: Engine) -> None:
    """The command cannot be asked this; the engine behind it says the same (see tests/engine/test_diagnosis.py)."""
    refused = engine.run("orRefused(() => sharing.diagnose(10, 2, { seen: [] }))")
    assert refused == "Error: the number of trays seen is 0: it must be 1 or more"
