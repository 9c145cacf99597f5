"""The shortest way to put a room right, in script and in Python, also in rooms that no single slip leaves behind."""

from collections.abc import Iterator
from itertools import islice
from random import Random

from generator.commands.diagnose import repair_as_data
from generator.engine.places import Counts
from generator.engine.repair_movements import At, Pile, Room
from generator.engine.shortest import shortest
from tests.sampling import times
from tests.script.engine import Engine, as_json

ROOMS = times(4_000, 300)
MOST = 4
PLENTY = 10**6
SHORTEST = """([piles, most]) => {
  const room = piles.map(([at, right, off, standsFor, many]) => {
    return { pile: sharing.repairMovements.pileOf(at, right, off, standsFor), many };
  });
  const plan = sharing.shortest.shortest(room, most);
  return plan && sharing.commands.repairAsData(plan, true);
}"""


def made_up_rooms(seed: int) -> Iterator[Room]:
    """Rooms of two or three places with a few kinds of trays, each brought out of order by one to three changes."""
    chance = Random(seed)
    while True:
        places = chance.randint(2, 3)
        share = Counts(chance.choice((1, 2, 3, 11)) for _ in range(places))
        middle = Counts(chance.choice((0, 1, 2, 12)) for _ in range(places))
        many = [1, 1, *(chance.choice((1, 1, 2, 3)) for _ in range(chance.randint(2, 4)))]
        nothing = Counts((0,) * places)
        right = [nothing, middle, *[share] * (len(many) - 2)]
        off = [[0] * places for _ in many]
        for _ in range(chance.randint(1, 3)):
            change(chance, off, many)
        if all(pieces + more >= 0 for pile in zip(right, off, strict=True) for pieces, more in zip(*pile, strict=True)):
            at = [At.FLOOR, At.LEFT_OVER, *[At.TRAY] * (len(many) - 2)]
            stand_for = [1, 1, *(chance.choice((1, 1, 1, 10)) for _ in many[2:])]
            piles = map(Pile, at, right, map(Counts, off), stand_for)
            room = dict(zip(piles, many, strict=True))
            yield frozenset({Pile(At.BANK, Counts((PLENTY,) * places), nothing): 1, **room}.items())


def change(chance: Random, off: list[list[int]], many: list[int]) -> None:
    """Pieces go from one pile to another or to the bank, or one is exchanged; `off` says what is off at each pile."""
    pile, other = chance.sample(range(len(many)), 2)
    place = chance.randrange(len(off[0]))
    match chance.choice(("to another", "to another", "to another", "bank", "exchange")):
        case "to another":
            pieces = chance.choice((1, 1, 2, 3))
            off[pile][place] -= pieces * (many[other] if many[pile] == 1 else 1)
            off[other][place] += pieces * (1 if many[pile] == 1 else many[pile])
        case "bank":
            off[pile][place] += chance.choice((-2, -1, 1, 2, 10))
        case "exchange" if place:
            off[pile][place] -= 1
            off[pile][place - 1] += 10


def test_the_same_movements_in_the_same_order(engine: Engine) -> None:
    rooms = list(islice(made_up_rooms(8), ROOMS))
    asked = [([[*pile, many] for pile, many in room], MOST) for room in rooms]
    for room, answer in zip(rooms, engine.answers(SHORTEST, asked), strict=True):
        plan = shortest(room, MOST)
        assert answer == as_json(None if plan is None else repair_as_data(plan, ribbons=True)), room
