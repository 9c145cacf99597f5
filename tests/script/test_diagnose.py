"""Slips, what they leave behind, repairs and diagnosis in script and in Python."""

import json
from collections.abc import Callable, Iterator
from functools import cache, cached_property, partial
from itertools import islice
from random import Random
from unittest.mock import patch

import pytest

from generator.commands.diagnose import as_data, repair_as_data
from generator.engine import diagnosis
from generator.engine.diagnosis import Diagnosis, diagnose, telling_slips
from generator.engine.observations import Observation, Reading, readings
from generator.engine.outcomes import simulate
from generator.engine.repair_movements import Again
from generator.engine.repairs import repair
from generator.engine.sharing import share
from generator.engine.slips import Outcome, Slip
from generator.engine.whatever_happened import by_what_is_seen
from generator.words.phrases import Phrases
from generator.words.unexplained import unexplained
from tests.commands.running import run_command
from tests.engine.divisions import divisions, divisions_with_ribbons
from tests.sampling import times
from tests.script.engine import Engine, as_json
from tests.stock import sources

WORDS = Phrases("en")
SHELF = sources().school.shelf.owned
OUTCOMES = """([n, d, ribbons]) => {
  const division = sharing.division.workOut(n, d, { ribbons });
  return sharing.outcomes.simulate(division).map((outcome) => [
    ...bare(outcome),
    sharing.commands.repairAsData(sharing.repairs.repair(division, outcome), ribbons),
  ]);
}"""
DIAGNOSED = """([n, d, ribbons, rooms]) => {
  const diagnose = sharing.diagnosis.diagnoser(n, d, ribbons);
  return rooms.map(([trays, left]) => sharing.commands.diagnosisAsData(diagnose(trays, left)));
}"""


class SeenOnce(Outcome):
    """An outcome that works out once what is seen, because every room that is seen is held against every outcome."""

    @cached_property
    def seen(self) -> Observation:
        return super().seen


Rooms = Callable[[int], Iterator[tuple[int, int]]]


def plain(seed: int) -> Iterator[tuple[int, int]]:
    """Divisor 1, numbers shorter than the divisor, shares of 0 and of 1 come first: they are special everywhere."""
    yield from ((4_321, 1), (0, 1), (0, 3), (5, 7), (9, 9), (10, 11), (100, 99), (12, 12))
    yield from ((2_684, 2), (65, 11), (3_006, 3))
    yield from divisions(seed)


def with_ribbons(seed: int) -> Iterator[tuple[int, int]]:
    """Shares of 0 and 1, and rooms where much goes back to the bank from trays, come first."""
    yield from ((35, 12), (5, 12), (0, 12), (3_432, 12), (6_312, 102), (2_460, 20), (1_110, 111), (7, 4), (100, 12))
    yield from ((1_998, 333), (417, 144), (3_018, 432), (8_050, 75), (2_910, 623))
    yield from divisions_with_ribbons(seed)


# With ribbons a room takes four times as long.
KINDS = pytest.mark.parametrize(
    ("rooms", "many", "ribbons"),
    [(plain, times(300, 9), False), (with_ribbons, times(40, 9), True)],
    ids=["plain", "with ribbons"],
)


@KINDS
def test_every_slip_what_it_leaves_its_repair_and_what_is_said_when_it_is_seen(
    engine: Engine, rooms: Rooms, many: int, ribbons: bool
) -> None:
    """Also where what is left over was not counted. In Python all of a division is worked out once."""
    for dividend, divisor in islice(rooms(61), many):
        sharing = share(dividend, divisor, ribbons=ribbons)
        outcomes = tuple(SeenOnce(*outcome) for outcome in simulate(sharing))
        repairs = cache(partial(repair, sharing))
        left_behind = [
            [
                outcome.occasion,
                outcome.trays,
                outcome.left,
                outcome.seen,
                repair_as_data(repairs(outcome), ribbons),
            ]
            for outcome in outcomes
        ]
        (answer,) = engine.answers(OUTCOMES, [(dividend, divisor, ribbons)])
        assert answer == as_json(left_behind), (dividend, divisor)
        rooms_seen = [seen for seen in dict.fromkeys(outcome.seen for outcome in outcomes) if seen.trays]
        rooms_seen += [seen._replace(left=None) for seen in rooms_seen[::9]]
        (answer,) = engine.answers(DIAGNOSED, [(dividend, divisor, ribbons, [asked(seen) for seen in rooms_seen])])
        with (
            patch.object(diagnosis, "share", return_value=sharing),
            patch.object(diagnosis, "simulate", return_value=outcomes),
            patch.object(diagnosis, "repair", lambda _, outcome, repairs=repairs: repairs(outcome)),
        ):
            found = [
                as_data(diagnose(dividend, divisor, seen.trays, seen.left, ribbons=ribbons)) for seen in rooms_seen
            ]
        assert answer == as_json(found), (dividend, divisor)


@KINDS
def test_the_slips_most_worth_knowing_of_a_lesson(engine: Engine, rooms: Rooms, many: int, ribbons: bool) -> None:
    """By turns with any shelf and with that of the school."""
    function = """([n, d, ribbons, any]) => [...sharing.diagnosis
      .tellingSlips(sharing.division.workOut(n, d, { ribbons }), any ? null : sharing.handbook.shelf)]
      .map(({ seen, offBy, causes }) =>
        bare([seen, offBy, causes.map(({ slip, place, occasions }) => [slip, place, occasions])]))"""
    for number, (dividend, divisor) in enumerate(islice(rooms(63), many // 4)):
        any_shelf = number % 2 == 0
        (answer,) = engine.answers(function, [(dividend, divisor, ribbons, any_shelf)])
        symptoms = telling_slips(share(dividend, divisor, ribbons=ribbons), owned=None if any_shelf else SHELF.pieces)
        expected = [
            [symptom.seen, symptom.off_by, [[cause.slip, cause.place, cause.occasions] for cause in symptom.causes]]
            for symptom in symptoms
        ]
        assert answer == as_json(expected), (dividend, divisor)


def test_slips_are_told_in_the_same_order_of_likelihood(engine: Engine) -> None:
    assert engine.run("JSON.stringify(sharing.slips.SLIPS)") == as_json(list(Slip))


@pytest.mark.parametrize(
    ("line", "call"),
    [
        ("5230 4 --seen 1308,1307,1307,1307 --left 1", "5230, 4, { seen: [1308, 1307, 1307, 1307], left: 1 }"),
        ("5230 4 --seen 1332,1332,1332,1232", "5230, 4, { seen: [1332, 1332, 1332, 1232] }"),
        ("5230 4 --seen 1307,1307,1307,1307 --left 2", "'5230', '4', { seen: ['1307', 1307, 1307, 1307], left: '2' }"),
        ("5230 4 --seen 1743,1743,1743", "5230, 4, { seen: [1743, 1743, 1743], left: null }"),
        ("500000 3 --seen 166666,166666,266666 --left 2", "500000, 3, { seen: [166666, 166666, 266666], left: 2 }"),
        ("5230 4 --seen 1,2,3", "5230, 4, { seen: [1, 2, 3] }"),
        ("3432 12 --ribbons --seen 10:2860,286,285 --left 1",
         "3432, 12, { ribbons: true, seen: [{ stands_for: 10, value: 2860 }, 286, 285], left: 1 }"),
    ],
)  # fmt: skip
def test_the_object_is_that_of_the_command(engine: Engine, line: str, call: str) -> None:
    written = json.loads(run_command("diagnose", *line.split(), "--json").out)
    assert engine.run(f"JSON.stringify(sharing.diagnose({call}))") == as_json(written)


def asked(seen: Observation) -> tuple[list[dict[str, int]], int | None]:
    """Every tray by itself, as a page reads it, and what is left over."""
    trays = ({"value": tray.value, "stands_for": tray.stands_for} for tray in seen.trays for _ in range(tray.sharers))
    return list(trays), seen.left


@KINDS
def test_what_puts_a_room_right_whatever_has_happened(engine: Engine, rooms: Rooms, many: int, ribbons: bool) -> None:
    function = """([n, d, ribbons, seen]) => {
      const division = sharing.division.workOut(n, d, { ribbons });
      return seen.map((room) => [
        sharing.commands.repairAsData(sharing.whateverHappened.byWhatIsSeen(division, room), ribbons),
        sharing.unexplained.unexplained(division, room),
        sharing.diagnosis.isToShareOn({ division, seen: room }),
      ]);
    }"""
    chance = Random(67)
    plans = 0
    lessons = many // times(5, 1)
    for dividend, divisor in islice(rooms(67), lessons):
        sharing = share(dividend, divisor, ribbons=ribbons)
        trays = [10**width for width in sharing.mat.widths for _ in range(sharing.mat[width])]
        seen: list[Observation] = []
        for step in sharing.steps:
            heaps = [step.after.share.value * stands_for for stands_for in trays] + [sharing.to_share(step.after)]
            for _ in range(2):
                place = chance.randrange(len(heaps))
                heaps[place] = max(0, heaps[place] + chance.choice((-2, -1, 1, 2)) * 10 ** chance.randrange(4))
            *held, left = heaps
            seen.append(Observation(readings(map(Reading, held, [1] * len(held), trays)), left))
            as_for_one = [Reading(step.after.share.value, 1, stands_for) for stands_for in trays]
            seen.append(Observation(readings(as_for_one), dividend - sum(tray.value for tray in as_for_one)))
            places_changed = [step.after.share.value * stands_for for stands_for in chance.sample(trays, len(trays))]
            to_share = sharing.to_share(step.after)
            seen.append(Observation(readings(map(Reading, places_changed, [1] * len(trays), trays)), to_share))
        repairs = [by_what_is_seen(sharing, room) for room in seen]
        plans += sum(not any(isinstance(step, Again) for step in repair) for repair in repairs)
        expected = [
            [
                repair_as_data(repair, ribbons),
                unexplained(WORDS, sharing, room),
                Diagnosis(sharing, ribbons, room, consistent=False, causes=()).to_share_on,
            ]
            for repair, room in zip(repairs, seen, strict=True)
        ]
        asked_for = [{"trays": [tray._asdict() for tray in room.trays], "left": room.left} for room in seen]
        (answer,) = engine.answers(function, [(dividend, divisor, ribbons, asked_for)])
        assert answer == as_json(expected), (dividend, divisor)
    assert plans > lessons
