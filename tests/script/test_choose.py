"""`choose` in script and in Python: every group, kind and filter, with any shelf."""

import json
from dataclasses import replace
from itertools import combinations, product
from random import Random

import pytest

from generator.engine.choosing_numbers import (
    NUMBER_KINDS,
    Choice,
    Remainder,
    Zeros,
    best_first,
    numbers,
    numbers_of_kind,
    reckon,
)
from generator.engine.places import place_name
from generator.source.school import ShelfTable
from tests.commands.running import run_command
from tests.sampling import sample
from tests.script.engine import Engine, as_json

FEW = 12
SENDING = [None, *(frozenset(places) for size in range(4) for places in combinations((1, 2, 3), size))]
CHOICES = [Choice(*each) for each in product(SENDING, Remainder, Zeros, range(1, 5))]
CHOOSE = """([divisor, exchange_from, remainder, zeros, digits, shelf, all]) => {
  const filters = { exchange_from, remainder, zeros, digits, within_shelf: shelf !== null, shelf };
  const { count, numbers } = sharing.choose(divisor, filters, { all });
  return [count, numbers];
}"""


def made_up_shelves(seed: int) -> list[ShelfTable]:
    """Ten shelves, from one that has next to nothing to one that has more than enough."""
    chance = Random(seed)
    return [
        ShelfTable(
            thousands=chance.randint(0, 12 * size),
            hundreds=chance.randint(0, 12 * size),
            tens=chance.randint(0, 12 * size),
            units=chance.randint(0, 12 * size),
            large_cards_to=chance.randint(1, 9) * 10 ** chance.choice((1, 2, 3, 3, 3)),
            small_cards_to=chance.randint(1, 9) * 10 ** chance.choice((1, 2, 3, 3, 3)),
            small_sets=chance.randint(0, 12),
            trays=chance.randint(3, 12),
        )
        for size in range(1, 11)
    ]


@pytest.mark.parametrize("divisor", range(1, 13))
def test_every_filter_with_and_without_a_shelf(engine: Engine, divisor: int) -> None:
    shelves = [None, *made_up_shelves(divisor)]
    every_and_few = [*product(CHOICES, shelves, [True]), *product(CHOICES, shelves[:2], [False])]
    asked = sample(every_and_few, 100)
    calls = []
    for choice, shelf, every in asked:
        sending = choice.exchange_from
        names = None if sending is None else [place_name(place) for place in sending]
        owned = None if shelf is None else shelf.model_dump()
        calls.append((divisor, names, choice.remainder, choice.zeros, choice.digits, owned, every))
    for (choice, shelf, every), answer in zip(asked, engine.answers(CHOOSE, calls), strict=True):
        found = numbers(divisor, replace(choice, shelf=shelf.owned if shelf else None))
        assert answer == as_json([len(found), found if every else best_first(divisor, found, FEW)]), (choice, shelf)


@pytest.mark.parametrize("divisor", range(1, 13))
def test_every_kind_best_first(engine: Engine, divisor: int) -> None:
    shelf = made_up_shelves(77)[divisor % 10]
    calls = [(divisor, kind, owned) for kind in NUMBER_KINDS for owned in (None, shelf.model_dump())]
    function = """([divisor, kind, shelf]) => {
      const { numbers, bestFirst, NUMBER_KINDS } = sharing.choosingNumbers;
      return bestFirst(divisor, NUMBER_KINDS[kind].flatMap((choice) => numbers(divisor, { ...choice, shelf })));
    }"""
    for (_, kind, owned), answer in zip(calls, engine.answers(function, calls), strict=True):
        found = numbers_of_kind(divisor, kind, shelf.owned if owned else None)
        assert answer == as_json(best_first(divisor, found)), (kind, owned)


def test_the_kinds_come_in_the_same_order(engine: Engine) -> None:
    assert engine.run("JSON.stringify(Object.keys(sharing.choosingNumbers.NUMBER_KINDS))") == as_json(
        list(NUMBER_KINDS)
    )


def test_a_division_reckoned_without_a_movement(engine: Engine) -> None:
    chance = Random(18)
    divisions = [(chance.randint(0, 10 ** chance.randint(1, 6)), chance.randint(1, 20)) for _ in range(400)]
    answers = engine.answers("([n, d]) => bare(sharing.choosingNumbers.reckon(n, d))", divisions)
    for division, answer in zip(divisions, answers, strict=True):
        reckoning = reckon(*division)
        assert answer == as_json([*reckoning, reckoning.exchanges, reckoning.handlings]), division


@pytest.mark.parametrize(
    ("line", "call"),
    [
        ("4", "4"),
        ("5 --exchange-from none", "5, { exchange_from: [] }"),
        ("3 --exchange-from tens,thousands --zeros none", "3, { exchange_from: ['tens', 'thousands'], zeros: 'none' }"),
        ("6 --digits 3 --within-shelf --all", "6, { digits: 3, within_shelf: true }, { all: true }"),
        ("12 --zeros quotient --remainder some", "12, { zeros: 'quotient', remainder: 'some' }"),
    ],
)  # fmt: skip
def test_the_object_is_that_of_the_command(engine: Engine, line: str, call: str) -> None:
    written = json.loads(run_command("choose", *line.split(), "--json").out)
    assert engine.run(f"JSON.stringify(sharing.choose({call}))") == as_json(written)
