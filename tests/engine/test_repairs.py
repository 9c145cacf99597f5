"""Repairs: carried out by other hands, against every shorter way, found again by diagnosis, and worked by hand."""

from collections import Counter, defaultdict
from collections.abc import Callable, Iterator
from itertools import islice, zip_longest
from random import Random

import pytest

from generator.commands.diagnose import repair_as_data
from generator.engine.diagnosis import diagnose
from generator.engine.observations import Observation, Reading, readings
from generator.engine.outcomes import simulate
from generator.engine.repair_movements import (
    Again,
    At,
    ChangePlaces,
    Exchange,
    Movement,
    Refill,
    Repair,
    RepairStep,
    ShareOn,
)
from generator.engine.repairs import easier, repair
from generator.engine.sharing import Sharing, share
from generator.engine.shortest import MOST_MOVEMENTS
from generator.engine.slips import Occasion, Outcome, Slip, Spot
from generator.engine.whatever_happened import by_what_is_seen
from generator.words.phrases import Phrases
from generator.words.unexplained import unexplained
from tests.engine.divisions import divisions, divisions_with_ribbons
from tests.engine.exhaustive import Heap, Heaps, can_be_put_right, wrong
from tests.engine.following import followed_once
from tests.engine.mishaps import NEEDS_RIBBONS
from tests.engine.repairing import PLENTY, Room
from tests.sampling import times

ROOMS = {"plain": times(whole=400, sampled=15), "with_ribbons": times(whole=60, sampled=6)}
ROOMS_SEARCHED = times(whole=100, sampled=10)
LESSONS_FOR_EACH_SLIP = times(whole=70, sampled=4)
LESSONS_AT_MOST = 20 * LESSONS_FOR_EACH_SLIP
SAID = Phrases("en")
TRAYS = {Slip.TRAY_FEW, Slip.TRAY_MANY}
CARDS = {Slip.SWAPPED, Slip.ZERO_FORGOTTEN}


def plain(seed: int) -> Iterator[Sharing]:
    return (share(dividend, children) for dividend, children in divisions(seed))


def with_ribbons(seed: int) -> Iterator[Sharing]:
    return (share(dividend, divisor, ribbons=True) for dividend, divisor in divisions_with_ribbons(seed))


def filled(pieces: tuple[int, ...], size: int) -> tuple[int, ...]:
    return (*pieces, *[0] * size)[:size]


def size_of(sharing: Sharing, outcome: Outcome) -> int:
    return max(len(sharing.start), len(outcome.left), *(len(tray.holds) for tray in outcome.trays))


def due(sharing: Sharing, size: int) -> dict[int, tuple[int, ...]]:
    """What each child should have, by width: the digits of the share, so many places further left."""
    digits = tuple(map(int, reversed(str(sharing.quotient))))
    return {width: filled((*[0] * width, *digits), size) for width in sharing.mat.widths}


def after_the_slip(sharing: Sharing, outcome: Outcome) -> Room:
    """The room, with a bank of PLENTY if all were right."""
    size = size_of(sharing, outcome)
    trays = [(len(str(tray.stands_for)) - 1, tray.holds) for tray in outcome.trays for _ in range(tray.sharers)]
    room = Room(size, trays, outcome.left)
    if outcome.occasion.slip is Slip.ROLLED_AWAY:
        room.spots["floor"][outcome.occasion.place or 0] += 1
    right, everything, left = due(sharing, size), room.everything(), filled(sharing.end.middle, size)
    for place in range(size):
        on_trays = sum(sharing.mat[width] * right[width][place] for width in right)
        room.spots["bank"][place] += on_trays + left[place] + PLENTY - everything[place]
    return room


def check_carried_out(sharing: Sharing, outcome: Outcome, mends: Repair) -> None:
    room = after_the_slip(sharing, outcome)
    before = room.everything()
    right = due(sharing, room.size)
    room.put_right(repair_as_data(mends, sharing.ribbons), {width: sharing.mat[width] for width in right})
    assert Counter((tray.width, tuple(tray.pieces)) for tray in room.trays) == {
        (width, pieces): sharing.mat[width] for width, pieces in right.items()
    }
    assert tuple(room.spots["left-over"]) == filled(sharing.end.middle, room.size)
    assert not any(room.spots["floor"])
    assert room.spots["bank"] == [PLENTY] * room.size
    assert room.everything() == before


@pytest.mark.parametrize("sharings", [plain, with_ribbons])
def test_a_repair_carried_out_leaves_trays_what_is_left_over_and_bank_right(
    sharings: Callable[[int], Iterator[Sharing]],
) -> None:
    """So does the easier one that people are told in place of the fewest movements."""
    repairs = Counter[bool]()
    in_place = 0
    for sharing in islice(sharings(11), ROOMS[sharings.__name__]):
        alike = {(one.trays, one.left, one.occasion[:2], one.occasion.other): one for one in simulate(sharing)}
        for outcome in alike.values():
            mends = repair(sharing, outcome)
            check_carried_out(sharing, outcome, mends)
            repairs[is_short(mends)] += 1
            if (instead := easier(sharing, outcome, mends)) != mends:
                check_carried_out(sharing, outcome, instead)
                assert not is_short(instead)
                in_place += 1
    assert in_place > 0
    assert 0 < repairs[False] < repairs[True] / 2


def is_short(mends: Repair) -> bool:
    return all(isinstance(step, Movement | Exchange) for step in mends)


def movements_of(mends: Repair) -> Repair:
    """Without sharing on; nothing where it is all shared out again."""
    if any(isinstance(step, Again) for step in mends):
        return ()
    return tuple(step for step in mends if isinstance(step, Movement | Exchange))


def heaps(sharing: Sharing, outcome: Outcome) -> Heaps:
    room = after_the_slip(sharing, outcome)
    right = due(sharing, room.size)
    nothing = (0,) * room.size
    left = Heap("left", tuple(room.spots["left-over"]), filled(sharing.end.middle, room.size))
    trays = Counter(Heap(f"tray {tray.width}", tuple(tray.pieces), right[tray.width]) for tray in room.trays)
    return frozenset({(left, 1), (Heap("floor", tuple(room.spots["floor"]), nothing), 1), *trays.items()})


@pytest.mark.parametrize("sharings", [plain, with_ribbons])
def test_no_repair_is_longer_than_it_need_be(sharings: Callable[[int], Iterator[Sharing]]) -> None:
    """Small rooms, and long repairs only where much is wrong: the search tries everything."""
    chance = Random(12)
    tried = 0
    for sharing in sharings(12):
        if sharing.sharers > 4 or sharing.dividend > 999:
            continue
        outcome = chance.choice([one for one in simulate(sharing) if one.occasion.slip not in {*TRAYS, *CARDS}])
        mends = repair(sharing, outcome)
        fewer = (len(mends) if is_short(mends) else MOST_MOVEMENTS + 1) - 1
        room = heaps(sharing, outcome)
        if 0 < fewer < MOST_MOVEMENTS or len(wrong(room)) > 2 * MOST_MOVEMENTS - 2:
            assert not can_be_put_right(room, fewer), (sharing.dividend, sharing.divisor, outcome, mends)
            can_be_put_right.cache_clear()
            tried += 1
            if tried == ROOMS_SEARCHED:
                break


@pytest.mark.parametrize(
    ("sharings", "slips"),
    [(plain, set(Slip) - NEEDS_RIBBONS), (with_ribbons, set(Slip))],
    ids=["plain", "with ribbons"],
)
def test_diagnosis_finds_every_slip_with_a_repair_that_puts_it_right(
    sharings: Callable[[int], Iterator[Sharing]], slips: set[Slip]
) -> None:
    """One outcome of each slip in a lesson, which is worked out once for all of them, until each had enough lessons."""
    chance = Random(13)
    lessons = dict.fromkeys(slips, 0)
    for sharing in islice(sharings(13), LESSONS_AT_MOST):
        with followed_once(sharing) as every:
            by_slip: defaultdict[Slip, list[Outcome]] = defaultdict(list)
            for outcome in every:
                if lessons[outcome.occasion.slip] < LESSONS_FOR_EACH_SLIP and leaves_a_trace(sharing, outcome):
                    by_slip[outcome.occasion.slip].append(outcome)
            for slip, outcomes in by_slip.items():
                check_found(sharing, chance.choice(outcomes), chance)
                lessons[slip] += 1
        if min(lessons.values()) == LESSONS_FOR_EACH_SLIP:
            break
    assert lessons == dict.fromkeys(slips, LESSONS_FOR_EACH_SLIP)


def check_found(sharing: Sharing, outcome: Outcome, chance: Random) -> None:
    """That diagnosis reads the slip back from what is seen, trays in any order, with a repair that puts it right.

    Where what is left over may lie in two ways and be worth the same, the occasion has a repair for each.
    """
    seen = [tray._replace(sharers=1) for tray in outcome.seen.trays for _ in range(tray.sharers)]
    chance.shuffle(seen)
    told = diagnose(sharing.dividend, sharing.divisor, seen, outcome.left.value, ribbons=sharing.ribbons)
    found = [(cause.slip, cause.repair) for cause in told.causes if outcome.occasion in cause.occasions]
    mends = repair(sharing, outcome)
    assert found.count((outcome.occasion.slip, mends)) == 1
    assert {slip for slip, _ in found} == {outcome.occasion.slip}
    check_carried_out(sharing, outcome, mends)


def leaves_a_trace(sharing: Sharing, outcome: Outcome) -> bool:
    trays = [(tray.stands_for, tray.value, tray.sharers) for tray in outcome.seen.trays]
    right = [(10**width, sharing.quotient * 10**width, sharing.mat[width]) for width in sharing.mat.widths]
    return (trays, outcome.left.value) != (right, sharing.remainder)


# a division, a occasion of a slip, the repair as it is written, and why: worked by hand
WORKED = [
    (
        share(5230, 4),
        Occasion(Slip.SKIPPED, 0, 7),
        [{"pieces": 1, "place": "units", "from": "left-over", "to": "tray", "reads": 1306, "trays": 1}],
        "2 + 1 are left over, and one of them is what the tray lacks",
    ),
    (
        share(8, 4),
        Occasion(Slip.DEALT_TWICE, 0, 2),
        [
            {"pieces": 1, "place": "units", "from": "tray", "to": "tray", "reads": 3, "trays": 1, "to_reads": 1},
        ],
        "one has 3, the last has 1",
    ),
    (
        share(5230, 4),
        Occasion(Slip.BANK_ELEVEN, 0, 1),
        [{"pieces": 1, "place": "units", "from": "left-over", "to": "bank"}],
        "31 units: 7 each, 3 are left over, one too many",
    ),
    (
        share(5230, 4),
        Occasion(Slip.NOT_TAKEN_BACK, 0, 8, many=2),
        [{"pieces": 1, "place": "units", "from": "tray", "to": "left-over", "reads": 1308, "trays": 2}],
        "two trays are off alike: a hand goes round, and that is one movement",
    ),
    (
        share(7, 4),
        Occasion(Slip.ROLLED_AWAY, 0, spot=Spot.MIDDLE),
        [{"pieces": 1, "place": "units", "from": "floor", "to": "left-over"}],
        "6 are shared one each, 2 are left over instead of 3",
    ),
    (
        share(8, 4),
        Occasion(Slip.ROLLED_AWAY, 0, spot=Spot.MIDDLE),
        [
            {"pieces": 1, "place": "units", "from": "floor", "to": "left-over"},
            {"pieces": 1, "place": "units", "from": "left-over", "to": "tray", "reads": 1, "trays": 4},
        ],
        "7 are shared one each and 3 are left over: with the one found the round goes round",
    ),
    (
        share(848, 4),
        Occasion(Slip.LAID_FEW, 0),
        [
            {"pieces": 1, "place": "units", "from": "bank", "to": "left-over"},
            {"pieces": 1, "place": "units", "from": "left-over", "to": "tray", "reads": 211, "trays": 4},
        ],
        "one bead is missing in the room, so the bank gives one and not four",
    ),
    (
        share(11, 12),
        Occasion(Slip.LAID_MANY, 0),
        [
            {"pieces": 1, "place": "units", "from": "tray", "to": "left-over", "reads": 1, "trays": 12},
            {"pieces": 1, "place": "units", "from": "left-over", "to": "bank"},
        ],
        "one bead is too many in the room, so the bank takes one, and gives none",
    ),
    (
        share(4368, 3),
        Occasion(Slip.NOT_TAKEN_BACK, 1, 6, many=1),
        [
            {"pieces": 1, "place": "tens", "from": "tray", "to": "bank", "reads": 1462, "trays": 1},
            {"pieces": 10, "place": "units", "from": "bank", "to": "left-over"},
            {"pieces": 4, "place": "units", "from": "left-over", "to": "tray", "reads": 1452, "trays": 3},
        ],
        "ten for one at the bank; then 12 go round",
    ),
    (
        share(3432, 12, ribbons=True),
        Occasion(Slip.SKIPPED, 0, 6),
        [
            {
                "pieces": 1,
                "place": "units",
                "from": "left-over",
                "to": "tray",
                "reads": 285,
                "trays": 1,
                "stands_for": 1,
            }
        ],
        "one of the two who stand for one lacks a unit, and nothing else is left over",
    ),
    (
        share(100, 12, ribbons=True),
        Occasion(Slip.WRONG_KIND, 0, 2, other=2),
        [
            {
                "pieces": 8,
                "place": "hundreds",
                "from": "tray",
                "to": "bank",
                "reads": 900,
                "trays": 1,
                "stands_for": 10,
            },
            {
                "pieces": 10,
                "place": "tens",
                "from": "tray",
                "to": "left-over",
                "reads": 100,
                "trays": 1,
                "stands_for": 10,
            },
            {"pieces": 5, "place": "tens", "from": "tray", "to": "left-over", "reads": 90, "trays": 2, "stands_for": 1},
            {"pieces": 20, "place": "tens", "from": "left-over", "to": "bank"},
            {"pieces": 10, "place": "units", "from": "bank", "to": "left-over"},
            {"again_from": "tens"},
        ],
        "ten squares came for ten beads; eight of them lie on trays, so twenty bars go to the bank for the other two: "
        "one lies in the middle, and of nineteen the fullest tray gives ten",
    ),
    (
        share(5230, 4),
        Occasion(Slip.TRAY_FEW, None, spot=Spot.EVERY_CHILD),
        [{"again_from": "thousands"}],
        "three have 1,743",
    ),
    (share(5230, 4), Occasion(Slip.SWAPPED, 3, other=2, spot=Spot.EVERY_TRAY), [], "the beads are right"),
]


@pytest.mark.parametrize(
    ("sharing", "occasion", "written", "why"), WORKED, ids=lambda value: getattr(value, "slip", "")
)
def test_worked_by_hand(sharing: Sharing, occasion: Occasion, written: list[dict[str, object]], why: str) -> None:
    outcomes = [one for one in simulate(sharing) if one.occasion == occasion]
    assert outcomes
    assert all(repair_as_data(repair(sharing, one), sharing.ribbons) == written for one in outcomes), why


# the same as below, where as few beads as can be are not the pieces that lie there: 30 is three bars, and 21 of them
# are two bars and a bead
PLACE_BY_PLACE = [
    (
        *(85, 4, [21, 21, 30, 12], 1),
        [
            Movement(1, 1, At.TRAY, At.TRAY, Reading(30, 1), Reading(12, 1)),
            Movement(1, 0, At.TRAY, At.TRAY, Reading(22, 1), Reading(20, 1)),
        ],
    ),
    (
        *(4368, 3, [1456, 1465, 1447], 0),
        [
            Movement(1, 1, At.TRAY, At.TRAY, Reading(1465, 1), Reading(1447, 1)),
            Movement(1, 0, At.TRAY, At.TRAY, Reading(1457, 1), Reading(1455, 1)),
        ],
    ),
    (
        *(5372, 4, [1343, 1343, 1433, 1253], 0),
        [
            Movement(1, 2, At.TRAY, At.TRAY, Reading(1433, 1), Reading(1253, 1)),
            Movement(1, 1, At.TRAY, At.TRAY, Reading(1353, 1), Reading(1333, 1)),
        ],
    ),
    (
        *(50, 7, [7, 7, 7, 7, 7, 7, 16], 1),
        [
            Movement(1, 1, At.TRAY, At.BANK, Reading(16, 1)),
            Movement(1, 0, At.BANK, At.TRAY, None, Reading(6, 1)),
        ],
    ),
    (
        *(10, 3, [3, 3, 12], 1),
        [
            Movement(1, 1, At.TRAY, At.BANK, Reading(12, 1)),
            Movement(1, 0, At.BANK, At.TRAY, None, Reading(2, 1)),
        ],
    ),
    (
        *(7238, 4, [1811, 1809, 1809, 1809], 0),
        [Movement(2, 0, At.TRAY, At.LEFT_OVER, Reading(1811, 1))],
    ),
    (
        *(7238, 4, [1810, 1808, 1809, 1809], 2),
        [Movement(1, 0, At.TRAY, At.TRAY, Reading(1810, 1), Reading(1808, 1))],
    ),
    (1001, 2, [500, 500], 10, [Movement(1, 1, At.LEFT_OVER, At.BANK), Movement(1, 0, At.BANK, At.LEFT_OVER)]),
    (
        *(4368, 3, [1456, 1456, 1446], 1),
        [
            Movement(1, 1, At.BANK, At.TRAY, None, Reading(1446, 1)),
            Movement(1, 0, At.LEFT_OVER, At.BANK),
        ],
    ),
    (372, 3, [124, 124, 115], 9, [Movement(9, 0, At.LEFT_OVER, At.TRAY, None, Reading(115, 1))]),
]

# from one tray to several, from several to one, and no detour: what differs lies there, or is changed for
STRAIGHT = [
    (52, 4, [22, 10, 10, 10], 0, [Movement(3, 0, At.TRAY, At.TRAY, Reading(22, 1), Reading(10, 3))]),
    (1485, 5, [307, 287, 297, 297, 297], 0, [Movement(1, 1, At.TRAY, At.TRAY, Reading(307, 1), Reading(287, 1))]),
    (417, 3, [140, 139, 139], 0, [Movement(1, 0, At.TRAY, At.BANK, Reading(140, 1))]),
    (9999, 2, [5000, 4998], 1, [Movement(1, 0, At.TRAY, At.TRAY, Reading(5000, 1), Reading(4998, 1))]),
    (49, 8, [6, 6, 6, 6, 6, 6, 0, 0], 13, [Movement(6, 0, At.LEFT_OVER, At.TRAY, None, Reading(0, 2))]),
    (49, 8, [7, 7, 6, 6, 6, 6, 6, 4], 1, [Movement(1, 0, At.TRAY, At.TRAY, Reading(7, 2), Reading(4, 1))]),
    (5230, 4, [1309, 1306, 1306, 1307], 2, [Movement(1, 0, At.TRAY, At.TRAY, Reading(1309, 1), Reading(1306, 2))]),
    (5230, 4, [1317, 1317, 1287, 1307], 2, [Movement(1, 1, At.TRAY, At.TRAY, Reading(1317, 2), Reading(1287, 1))]),
    (1476, 12, [123] * 8 + [120] * 4, 12, [Movement(3, 0, At.LEFT_OVER, At.TRAY, None, Reading(120, 4))]),
    (
        *(60, 6, [13, 13, 8, 8, 8, 10], 0),
        [
            Movement(3, 0, At.TRAY, At.LEFT_OVER, Reading(13, 2)),
            Movement(2, 0, At.LEFT_OVER, At.TRAY, None, Reading(8, 3)),
        ],
    ),
    (
        *(9000, 11, [*[818] * 9, 918, 710], 10),
        [
            Movement(1, 2, At.TRAY, At.TRAY, Reading(918, 1), Reading(710, 1)),
            Movement(8, 0, At.LEFT_OVER, At.TRAY, None, Reading(810, 1)),
        ],
    ),
    (
        *(96, 3, [34, 29, 33], 0),
        [
            Movement(1, 0, At.TRAY, At.TRAY, Reading(34, 1), Reading(29, 1)),
            Movement(1, 0, At.TRAY, At.TRAY, Reading(33, 2), Reading(30, 1)),
        ],
    ),
]

# the same, where trays do not have their share yet, and the sharing goes on: mostly after a round that did not go round
UNFINISHED = [
    (1302, 3, [433, 433, 443], 3, [Movement(1, 1, At.TRAY, At.BANK, Reading(443, 1))]),
    (5536, 4, [1300, 1300, 1300, 1300], 326, [Movement(1, 1, At.BANK, At.LEFT_OVER)]),
    (4368, 3, [2000, 1000, 1000], 368, [Movement(1, 3, At.TRAY, At.LEFT_OVER, Reading(2000, 1))]),
    (1001, 2, [1000, 0], 1, [Movement(1, 3, At.TRAY, At.LEFT_OVER, Reading(1000, 1))]),
    (52, 4, [20, 10, 10, 10], 2, [Movement(1, 1, At.TRAY, At.LEFT_OVER, Reading(20, 1))]),
    (5000, 4, [2000, 1000, 1000, 1000], 0, [Movement(1, 3, At.TRAY, At.LEFT_OVER, Reading(2000, 1))]),
    (2000, 3, [1000, 1000, 0], 0, [Movement(1, 3, At.TRAY, At.LEFT_OVER, Reading(1000, 2))]),
    (1000, 12, [*[90] * 4, *[80] * 8], 0, [Movement(1, 1, At.TRAY, At.LEFT_OVER, Reading(90, 4))]),
    (1302, 3, [500, 500, 300], 2, [Movement(2, 2, At.TRAY, At.LEFT_OVER, Reading(500, 2))]),
    (5536, 4, [1300, 1300, 1300, 1200], 436, [Movement(1, 2, At.LEFT_OVER, At.TRAY, None, Reading(1200, 1))]),
]

# a division, what trays hold, what is not on a tray, and what puts it right whatever has happened: worked by hand
WHATEVER_HAPPENED = [
    (1306, 4, [328, 326, 326, 326], 0, [Movement(2, 0, At.TRAY, At.LEFT_OVER, Reading(328, 1))]),
    (1302, 3, [444, 424, 434], 0, [Movement(1, 1, At.TRAY, At.TRAY, Reading(444, 1), Reading(424, 1))]),
    (1306, 4, [327, 325, 326, 326], 2, [Movement(1, 0, At.TRAY, At.TRAY, Reading(327, 1), Reading(325, 1))]),
    (5230, 4, [1307, 1306, 1306, 1306], 5, [Movement(1, 0, At.LEFT_OVER, At.TRAY, None, Reading(1306, 3))]),
    (84, 4, [21, 21, 11, 11], 20, [Movement(1, 1, At.LEFT_OVER, At.TRAY, None, Reading(11, 2))]),
    (1302, 3, [43, 434, 434], 0, [Again(3)]),
    (5536, 4, [1300, 1300, 1300, 1300], 336, [Again(1)]),
    (1302, 3, [434, 434], 0, [Again(3)]),
    (848, 4, [462, 462, 462, 462], 0, [Again(2)]),
    (1304, 4, [437, 215, 548, 104], 0, [Again(2)]),
    *PLACE_BY_PLACE,
    *STRAIGHT,
    *UNFINISHED,
]


@pytest.mark.parametrize(("dividend", "divisor", "held", "left", "expected"), WHATEVER_HAPPENED)
def test_what_is_seen_is_put_right_where_no_single_slip_explains_it(
    dividend: int, divisor: int, held: list[int], left: int, expected: list[RepairStep]
) -> None:
    seen = Observation(readings(Reading(value, 1) for value in held), left)
    *movements, last = by_what_is_seen(share(dividend, divisor), seen)
    assert [*movements, *([] if isinstance(last, ShareOn) else [last])] == expected


@pytest.mark.parametrize(("dividend", "divisor", "held", "left", "expected"), WHATEVER_HAPPENED)
def test_sharing_goes_on_where_trays_do_not_have_their_share_yet(
    dividend: int, divisor: int, held: list[int], left: int, expected: list[RepairStep]
) -> None:
    seen = Observation(readings(Reading(value, 1) for value in held), left)
    last = by_what_is_seen(share(dividend, divisor), seen)[-1]
    assert isinstance(last, ShareOn) == ((dividend, divisor, held, left, expected) in UNFINISHED)


# a division with ribbons, what the trays of each hold, what is left, and what is to be done: worked by hand
BEFORE_ANOTHER_CHILD = [
    (144, 12, {10: [12], 1: [120, 12]}, 0, [ChangePlaces(2)]),
    (3432, 12, {10: [286], 1: [286, 2860]}, 0, [ChangePlaces(2)]),
    (1704, 12, {10: [142], 1: [1420, 142]}, 0, [ChangePlaces(2)]),
    (999, 111, {100: [900], 10: [9], 1: [90]}, 0, [ChangePlaces(2)]),
    (999, 111, {100: [90], 10: [9], 1: [900]}, 0, [ChangePlaces(3)]),
    (420, 21, {10: [10, 100], 1: [100]}, 210, [ChangePlaces(2), ShareOn(1)]),
]


@pytest.mark.parametrize(("dividend", "divisor", "held", "left", "expected"), BEFORE_ANOTHER_CHILD)
def test_trays_that_only_changed_places_are_not_emptied(
    dividend: int, divisor: int, held: dict[int, list[int]], left: int, expected: list[RepairStep]
) -> None:
    seen = readings(Reading(value, 1, stands_for) for stands_for, values in held.items() for value in values)
    assert by_what_is_seen(share(dividend, divisor, ribbons=True), Observation(seen, left)) == tuple(expected)


# a division with ribbons, what the trays of each hold, what is left, and what is to be done: worked by hand
AS_A_SMALLER_RIBBON = [
    (4876, 23, {10: [212, 2120], 1: [212, 212, 212]}, 1908, [Refill(Reading(212, 1, 10), 2120)]),
    (4876, 23, {10: [200, 200], 1: [200, 200, 200]}, 3876, [Refill(Reading(200, 2, 10), 2000), ShareOn(1)]),
    (2460, 20, {10: [123, 1230]}, 1107, [Refill(Reading(123, 1, 10), 1230)]),
    (999, 111, {100: [90], 10: [90], 1: [9]}, 810, [Refill(Reading(90, 1, 100), 900)]),
]


@pytest.mark.parametrize(("dividend", "divisor", "held", "left", "expected"), AS_A_SMALLER_RIBBON)
def test_who_was_given_the_pieces_of_a_smaller_ribbon_is_given_others(
    dividend: int, divisor: int, held: dict[int, list[int]], left: int, expected: list[RepairStep]
) -> None:
    """By pieces it would be one cube, nine squares and eight beads more, on a tray with squares and beads."""
    seen = readings(Reading(value, 1, stands_for) for stands_for, values in held.items() for value in values)
    assert by_what_is_seen(share(dividend, divisor, ribbons=True), Observation(seen, left)) == tuple(expected)


@pytest.mark.parametrize("held", [{10: [120], 1: [12, 12]}, {10: [12], 1: [120, 13]}])
def test_trays_that_are_right_or_hold_more_did_not_change_places(held: dict[int, list[int]]) -> None:
    seen = readings(Reading(value, 1, stands_for) for stands_for, values in held.items() for value in values)
    steps = by_what_is_seen(share(144, 12, ribbons=True), Observation(seen, 0))
    assert not any(isinstance(step, ChangePlaces) for step in steps)


@pytest.mark.parametrize("sharings", [plain, with_ribbons])
def test_what_is_put_right_in_the_middle_of_a_lesson_makes_trays_alike_and_the_number_whole(
    sharings: Callable[[int], Iterator[Sharing]],
) -> None:
    chance = Random(17)
    found = 0
    for sharing in islice(sharings(17), ROOMS[sharings.__name__]):
        for step in sharing.steps:
            one = step.after.share.value
            trays = [10**width for width in sharing.mat.widths for _ in range(sharing.mat[width])]
            heaps = [one * stands_for for stands_for in trays] + [sharing.to_share(step.after)]
            for _ in range(2):
                heaps[chance.randrange(len(heaps))] += chance.choice((-2, -1, 1, 2)) * 10 ** chance.randrange(4)
            if min(heaps) < 0:
                continue
            *held, left = heaps
            seen = Observation(readings(map(Reading, held, [1] * len(held), trays)), left)
            plan = movements_of(by_what_is_seen(sharing, seen))
            if plan:
                found += 1
                assert len(plan) <= MOST_MOVEMENTS
                check_alike_and_whole(sharing, seen, plan)
                check_there_to_be_taken(sharing, seen, plan)
    assert found >= ROOMS[sharings.__name__]


def check_alike_and_whole(sharing: Sharing, seen: Observation, plan: Repair) -> None:
    trays = Counter({(tray.stands_for, tray.value): tray.sharers for tray in seen.trays})
    left = seen.left or 0
    for step in plan:
        if isinstance(step, Exchange):
            continue
        assert isinstance(step, Movement)
        worth = step.pieces * 10**step.place
        hands = max(ends.sharers if ends else 1 for ends in (step.giving, step.taking))
        for ends, change in ((step.giving, -worth), (step.taking, worth)):
            if ends:
                trays[ends.stands_for, ends.value] -= ends.sharers
                trays[ends.stands_for, ends.value + change * hands // ends.sharers] += ends.sharers
        left += hands * worth * ((step.target is At.LEFT_OVER) - (step.source is At.LEFT_OVER))
    trays += Counter()
    (one,) = {value // stands_for for stands_for, value in trays}
    assert trays == Counter({(10**width, one * 10**width): sharing.mat[width] for width in sharing.mat.widths})
    assert one * sharing.divisor + left == sharing.dividend
    pieces = zip_longest(pieces_of(one), pieces_of(sharing.quotient), fillvalue=0)
    assert all(so_far <= share for so_far, share in pieces), "what is left could not go round from here"


def check_there_to_be_taken(sharing: Sharing, seen: Observation, plan: Repair) -> None:
    """That it is said what to do where less of something lies there than is taken, if 30 is three bars."""
    heaps = [*(tray.value for tray in seen.trays), seen.left or 0, sharing.dividend]
    size = max(len(str(heap)) for heap in heaps) + 1
    trays = [(len(str(tray.stands_for)) - 1, pieces_of(tray.value)) for tray in seen.trays for _ in range(tray.sharers)]
    room = Room(size, trays, pieces_of(seen.left or 0), may_change=True)
    room.put_right(repair_as_data(plan, sharing.ribbons), {width: sharing.mat[width] for width in sharing.mat.widths})
    assert "is not there," in unexplained(SAID, sharing, seen)[-1] or not room.has_changed


def pieces_of(number: int) -> tuple[int, ...]:
    return tuple(map(int, reversed(str(number))))


@pytest.mark.parametrize("sharings", [plain, with_ribbons])
def test_what_may_not_lie_there_is_changed_for(sharings: Callable[[int], Iterator[Sharing]]) -> None:
    """At the end of the sharing, where one or two pieces lie wrong, went for others, or are gone."""
    chance = Random(18)
    found = 0
    for sharing in islice(sharings(18), 4 * ROOMS[sharings.__name__]):
        trays = [10**width for width in sharing.mat.widths for _ in range(sharing.mat[width])]
        for _ in range(4):
            heaps = [sharing.quotient * stands_for for stands_for in trays] + [sharing.remainder]
            for _ in range(chance.choice((1, 2))):
                one, other = chance.randrange(len(heaps)), chance.randrange(len(heaps))
                worth = chance.choice((1, 2, 9, 10, 18, 90, 100, 900))
                heaps[one] += worth
                heaps[other] -= chance.choice((0, worth))
            if min(heaps) >= 0:
                *held, left = heaps
                seen = Observation(readings(map(Reading, held, [1] * len(held), trays)), left)
                plan = movements_of(by_what_is_seen(sharing, seen))
                if plan:
                    found += 1
                    check_alike_and_whole(sharing, seen, plan)
                    check_there_to_be_taken(sharing, seen, plan)
    assert found >= 4 * ROOMS[sharings.__name__]
