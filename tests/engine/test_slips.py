"""What slips leave behind: against lessons acted out piece by piece, by conservation, and worked by hand."""

from collections import Counter
from fractions import Fraction
from itertools import islice
from random import Random
from typing import NamedTuple

import pytest

from generator.engine.dealing import State, deal_on
from generator.engine.observations import Observation, Reading, readings
from generator.engine.outcomes import simulate
from generator.engine.places import Counts, Mat
from generator.engine.sharing import Sharing, share
from generator.engine.slips import Occasion, Outcome, Slip, Spot
from tests.engine import ribbon_mishaps
from tests.engine.divisions import divisions
from tests.engine.mishaps import NEEDS_RIBBONS, Acted, Mishap

ACTED = list(islice(divisions(seed=1), 120))
RIBBONS = [
    (3432, 12),
    (6312, 102),
    (8463, 21),
    (4876, 23),
    (9999, 111),
    (9090, 30),
    (2460, 20),
    (5, 12),
    (35, 12),
    (9, 10),
    (0, 11),
    (74521, 241),
]


def expand(seen: Observation) -> list[int]:
    return sorted(value for value, sharers, _ in seen.trays for _ in range(sharers))


def as_acted(occasion: Occasion) -> Mishap | None:
    """The same slip for the actors; None for what they do not act."""
    match occasion:
        case Occasion(slip=Slip.ROLLED_AWAY, spot=Spot.ONE_TRAY):
            return Mishap(Slip.ROLLED_AWAY, occasion.place)
        case Occasion(slip=Slip.ROLLED_AWAY):
            return None
        case Occasion(slip=Slip.NOT_BANKED, spot=Spot.LEFT_OVER | Spot.ONE_TRAY):
            return None
        case Occasion(slip=Slip.ZERO_FORGOTTEN, many=many) if many > 1:
            return None
        case Occasion(slip=Slip.SWAPPED | Slip.ZERO_FORGOTTEN, spot=Spot.EVERY_TRAY):
            return None
        case Occasion(spot=Spot.EVERY_CHILD):
            return None
        case Occasion(slip=Slip.NONE_OF_A_PLACE):
            return Mishap(Slip.NONE_OF_A_PLACE, occasion.place, lying=occasion.spot is Spot.LEFT_OVER)
        case Occasion(slip=Slip.SKIPPED, spot=Spot.LEFT_OVER):
            return Mishap(Slip.SKIPPED, occasion.place, occasion.turn, lying=True)
    return Mishap(occasion.slip, occasion.place, occasion.turn, occasion.other or 0, occasion.many)


def test_every_slip_leaves_what_is_left_when_it_is_acted_out_and_none_is_missing() -> None:
    slips = Counter[Slip]()
    for dividend, children in ACTED:
        found = set()
        for outcome in simulate(share(dividend, children)):
            mishap = as_acted(outcome.occasion)
            if mishap:
                acted = Acted(dividend, children, mishap)
                assert (expand(outcome.seen), outcome.left.value) == (sorted(acted.values), acted.left), (
                    dividend,
                    children,
                    outcome.occasion,
                )
                found.add(mishap)
                slips[outcome.occasion.slip] += 1
        chances = set(Acted(dividend, children).chances)
        missing = {chance for chance in chances - found if chance.slip is not Slip.ROLLED_AWAY or not chance.turn}
        assert not missing, (dividend, children)
    assert all(slips[slip] > 20 for slip in set(Slip) - NEEDS_RIBBONS), slips


def test_with_ribbons_a_slip_leaves_what_is_left_when_it_is_acted_out() -> None:
    acted = Counter[Slip]()
    for dividend, divisor in RIBBONS:
        sharing = share(dividend, divisor, ribbons=True)
        for outcome in simulate(sharing):
            if mishaps := with_ribbons_as_acted(sharing, outcome.occasion):
                lessons = [ribbon_mishaps.Lesson(dividend, divisor, mishap) for mishap in mishaps]
                read = {(tray.stands_for, tray.value): tray.sharers for tray in outcome.seen.trays}
                assert (read, outcome.left.value) in [(lesson.read, lesson.left) for lesson in lessons], outcome
                acted[outcome.occasion.slip] += 1
    assert all(acted[slip] >= 10 for slip in {*NEEDS_RIBBONS, Slip.SKIPPED, Slip.NONE_OF_A_PLACE})


def with_ribbons_as_acted(sharing: Sharing, occasion: Occasion) -> list[ribbon_mishaps.Mishap]:
    """The same slip for the actors with ribbons, for each kind of tray that it may be about; none: not acted."""
    slip, place, turn, other, _, spot = occasion
    if slip is Slip.BIG_TRAY_READ:
        return [ribbon_mishaps.Mishap(slip, other or 0)]
    if slip is Slip.SAME_KIND and place is None:
        return [ribbon_mishaps.Mishap(slip, other or 0)]
    lying = spot is Spot.LEFT_OVER and slip in (Slip.SKIPPED, Slip.NONE_OF_A_PLACE)
    if place is None or not (lying or slip is Slip.SAME_KIND):
        return []
    widths = [width for width in sharing.mat.widths if place >= width and (width or lying)]
    return [ribbon_mishaps.Mishap(slip, width, place - width, turn, lying) for width in widths]


def test_a_piece_lost_from_the_middle_at_any_round_is_the_same_as_any_other_time() -> None:
    rounds = 0
    for dividend, children in ACTED:
        lost = [
            outcome
            for outcome in simulate(share(dividend, children))
            if outcome.occasion.slip is Slip.ROLLED_AWAY and outcome.occasion.spot is Spot.MIDDLE
        ]
        for chance in set(Acted(dividend, children).chances):
            if chance.slip is Slip.ROLLED_AWAY and chance.turn:
                acted = Acted(dividend, children, chance)
                left = {(*expand(one.seen), one.left.value) for one in lost if one.occasion.place == chance.place}
                assert left == {(*sorted(acted.values), acted.left)}
                rounds += 1
    assert rounds > 300


def off_by(occasion: Occasion) -> int:
    """How much more than the number lies on the trays and in the middle after a slip: reckoned by value alone."""
    worth = int(10 ** (occasion.place or 0))
    match occasion.slip:
        case Slip.BANK_NINE | Slip.LAID_FEW | Slip.ROLLED_AWAY:
            return -worth
        case Slip.BANK_ELEVEN | Slip.LAID_MANY | Slip.NOT_BANKED:
            return worth
        case Slip.WRONG_KIND:
            assert occasion.other is not None
            return 10 * (int(10**occasion.other) - worth)
    return 0


@pytest.mark.parametrize("ribbons", [False, True])
def test_beads_are_lost_or_gained_by_what_the_slip_is_worth_and_no_count_is_below_zero(ribbons: bool) -> None:
    for dividend, divisor in RIBBONS if ribbons else ACTED:
        sharing = share(dividend, divisor, ribbons=ribbons)
        for outcome in simulate(sharing):
            beads = sum(tray.sharers * tray.holds.value for tray in outcome.trays) + outcome.left.value
            assert beads - dividend == off_by(outcome.occasion), (dividend, divisor, outcome.occasion)
            assert all(
                count >= 0 for counts in (outcome.left, *(tray.holds for tray in outcome.trays)) for count in counts
            )
            more = {Slip.TRAY_MANY: 1, Slip.TRAY_FEW: -1}.get(outcome.occasion.slip, 0)
            assert sum(tray.sharers for tray in outcome.trays) == sharing.sharers + more


def test_with_ribbons_all_shares_stay_alike_unless_the_slip_is_about_single_trays() -> None:
    single = {
        Slip.SKIPPED,
        Slip.NONE_OF_A_PLACE,
        Slip.SAME_KIND,
        Slip.DEALT_TWICE,
        Slip.NOT_TAKEN_BACK,
        Slip.LEFT_OVER_DEALT,
        Slip.NOT_BANKED,
        Slip.ROLLED_AWAY,
    }
    unlike = Counter[Slip]()
    for dividend, divisor in RIBBONS:
        for outcome in simulate(share(dividend, divisor, ribbons=True)):
            shares = {Fraction(tray.holds.value, tray.stands_for) for tray in outcome.trays}
            unlike[outcome.occasion.slip] += len(shares) > 1
    assert {slip for slip, trays in unlike.items() if trays} == single


def test_who_looks_first_can_make_the_same_slips() -> None:
    assert list(simulate(share(5230, 4, look_first=True))) == list(simulate(share(5230, 4)))


class Case(NamedTuple):
    """A slip worked out by hand, and why."""

    sharing: Sharing
    occasion: Occasion
    values: list[int]
    left: int
    why: str


CASES = [
    Case(
        share(5230, 4),
        Occasion(Slip.BANK_ELEVEN, 0, 1),
        [1307, 1307, 1307, 1307],
        3,
        "3 tens become 31 units: 7 each are 28, 3 are left instead of 2",
    ),
    Case(
        share(5230, 4),
        Occasion(Slip.BANK_NINE, 2, 1),
        [1282, 1282, 1282, 1282],
        2,
        "2 + 9 hundreds: 2 each, 3 left, 33 tens: 8 each, 1 left, 10 units: 2 each, 2 left",
    ),
    Case(
        share(5230, 4),
        Occasion(Slip.NOT_BANKED, 3, 1, spot=Spot.MIDDLE),
        [1557, 1557, 1557, 1557],
        2,
        "the thousand goes twice: 22 hundreds, 5 each, 2 left; 23 tens, 5 each, 3 left; 30 units, 7 each, 2 left",
    ),
    Case(
        share(5230, 4),
        Occasion(Slip.NOT_BANKED, 3, 1, spot=Spot.LEFT_OVER),
        [1307, 1307, 1307, 1307],
        1002,
        "everything goes right, and the thousand still lies there with the 2 units",
    ),
    Case(
        share(5230, 4),
        Occasion(Slip.WRONG_KIND, 2, 1, other=1),
        [1082, 1082, 1082, 1082],
        2,
        "10 tens for the thousand: 2 hundreds go round nobody, 20 + 13 tens: 8 each, 1 left, 10 units: 2 each, 2 left",
    ),
    Case(
        share(5230, 4),
        Occasion(Slip.SKIPPED, 3, 1),
        [557, 1557, 1557, 1557],
        2,
        "2 thousands stay: 22 hundreds, 5 each, 2 left; 23 tens, 5 each, 3 left; 30 units, 7 each, 2 left",
    ),
    Case(
        share(7, 4),
        Occasion(Slip.SKIPPED, 0, 1),
        [1, 2, 2, 2],
        0,
        "4 units stay instead of 3, enough for one more round: only the trays tell",
    ),
    Case(
        share(8, 4),
        Occasion(Slip.DEALT_TWICE, 0, 2),
        [3, 2, 2, 1],
        0,
        "the second round takes the last 4 units: who sits last finds the middle empty",
    ),
    Case(
        share(8, 4),
        Occasion(Slip.DEALT_TWICE, 0, 1),
        [2, 1, 1, 1],
        3,
        "3 units stay after the first round: no second round can be finished",
    ),
    Case(
        share(5230, 4),
        Occasion(Slip.NOT_TAKEN_BACK, 1, 1, many=3),
        [1310, 1310, 1310, 1300],
        0,
        "3 tens do not go round four: three children keep one, nothing is left to exchange",
    ),
    Case(
        share(5230, 4),
        Occasion(Slip.LEFT_OVER_DEALT, 0, many=2),
        [1308, 1308, 1307, 1307],
        0,
        "both units left over go to the first two",
    ),
    Case(
        share(4848, 4),
        Occasion(Slip.LAID_MANY, 1),
        [1214, 1214, 1214, 1214],
        2,
        "5 tens: 1 each, 1 left, 18 units: 4 each, 2 left",
    ),
    Case(
        share(390, 4),
        Occasion(Slip.LAID_MANY, 1),
        [100, 100, 100, 100],
        0,
        "3 hundreds go round nobody and become 30 tens; with 10 tens on the mat 40: 10 each",
    ),
    Case(
        share(4848, 4),
        Occasion(Slip.ROLLED_AWAY, 2, spot=Spot.ONE_TRAY),
        [1112, 1212, 1212, 1212],
        0,
        "1,212 less one hundred is 1,112; nobody deals anything again",
    ),
    Case(
        share(5230, 4),
        Occasion(Slip.TRAY_FEW, None, spot=Spot.EVERY_CHILD),
        [0, 1743, 1743, 1743],
        1,
        "5,230 among three is 1,743, 1 left over; the child without a tray has nothing",
    ),
    Case(
        share(5230, 4),
        Occasion(Slip.TRAY_MANY, None, spot=Spot.EVERY_CHILD),
        [1046, 1046, 1046, 1046],
        0,
        "5,230 among five is 1,046; the fifth tray is nobody's, so nobody reads it",
    ),
    Case(
        share(4012, 4),
        Occasion(Slip.ZERO_FORGOTTEN, 2, many=2, spot=Spot.EVERY_TRAY),
        [13, 13, 13, 13],
        0,
        "1,003 has two zeros: with both forgotten the cards read 13",
    ),
    Case(
        share(2684, 2),
        Occasion(Slip.SKIPPED, 3, 1, spot=Spot.LEFT_OVER),
        [342, 1342],
        1000,
        "one cube for each: the other one still lies in the middle, and everything else is shared out as it lies",
    ),
    Case(
        share(8448, 4),
        Occasion(Slip.NONE_OF_A_PLACE, 3, other=0, many=2, spot=Spot.LEFT_OVER),
        [112, 2112, 2112, 2112],
        2000,
        "two cubes for each: the two of one tray lie in the middle",
    ),
    Case(
        share(8448, 4),
        Occasion(Slip.NONE_OF_A_PLACE, 3, other=0, many=2, spot=Spot.MIDDLE),
        [612, 2612, 2612, 2612],
        0,
        "the two cubes make no round of four and become 20 hundreds: 24 are 6 each",
    ),
    Case(
        share(4025, 3),
        Occasion(Slip.NONE_OF_A_PLACE, 1, other=0, many=4),
        [1301, 1361, 1361],
        2,
        "four bars for each: the four of one tray are two more for both others",
    ),
    Case(
        share(3432, 12, ribbons=True),
        Occasion(Slip.SAME_KIND, None, spot=Spot.EVERY_TRAY),
        [1144, 1144, 1144],
        0,
        "three children as if nobody stood for ten: 3,432 among three",
    ),
    Case(
        share(4876, 23, ribbons=True),
        Occasion(Slip.SAME_KIND, None, other=1),
        [3480, 348, 348, 348, 348],
        4,
        "one of the two children for ten is given what a child for one gets: 14 share, and 14 times 348 is 4,872",
    ),
    Case(
        share(3432, 12, ribbons=True),
        Occasion(Slip.SAME_KIND, 1, 6, 0, spot=Spot.ONE_TRAY),
        [2851, 286, 286],
        9,
        "in the last round the child for ten gets a unit; the ten is changed for the last child, and 9 are left",
    ),
    Case(
        share(3432, 12, ribbons=True),
        Occasion(Slip.BIG_TRAY_READ, None, other=1),
        [2860, 2860, 2860],
        0,
        "the answer is 286; on the tray for ten lie 2,860",
    ),
    Case(
        share(2460, 20, ribbons=True),
        Occasion(Slip.BIG_TRAY_READ, None, other=1),
        [1230, 1230, 1230],
        0,
        "nobody stands for one: 1,230 is read, and 123 would be right",
    ),
    Case(
        share(3432, 12, ribbons=True),
        Occasion(Slip.SKIPPED, 0, 6),
        [2860, 286, 285],
        1,
        "in the last round a one-child gets no unit bead: it stays, and nothing else is in the middle",
    ),
]


@pytest.mark.parametrize(
    "case", CASES, ids=lambda case: f"{case.sharing.dividend}-{case.sharing.divisor}-{case.occasion.slip}"
)
def test_worked_by_hand(case: Case) -> None:
    outcomes = [outcome for outcome in simulate(case.sharing) if outcome.occasion == case.occasion]
    assert len(outcomes) == 1
    assert expand(outcomes[0].seen) == sorted(case.values), case.why
    assert outcomes[0].left.value == case.left, case.why


def occasions(sharing: Sharing, slip: Slip) -> list[Outcome]:
    return [outcome for outcome in simulate(sharing) if outcome.occasion.slip is slip]


def test_a_slip_is_followed_at_every_point_where_it_can_happen() -> None:
    """5,230 among four: 1 + 3 exchanges, 1 + 3 + 0 + 7 rounds; 1, 3 and 2 pieces lie in rounds that are taken back."""
    sharing = share(5230, 4)
    assert len(occasions(sharing, Slip.BANK_NINE)) == len(occasions(sharing, Slip.BANK_ELEVEN)) == 4
    assert len(occasions(sharing, Slip.SKIPPED)) == 11 + 4  # in the rounds above the units it may lie there as well
    assert [one.occasion.many for one in occasions(sharing, Slip.NOT_TAKEN_BACK)] == [1, 1, 2, 3, 1, 2]
    assert [one.occasion.place for one in occasions(sharing, Slip.LAID_MANY)] == [0, 1, 2, 3]
    assert [one.occasion.place for one in occasions(sharing, Slip.LAID_FEW)] == [1, 2, 3]
    assert {one.occasion.other for one in occasions(sharing, Slip.WRONG_KIND) if one.occasion.place == 2} == {0, 1, 3}


NOTHING_YET = Counts((0, 0, 0, 0))


def test_dealing_on_from_any_middle_deals_all_that_can_be_dealt() -> None:
    chance = Random(5)
    for _ in range(2_000):
        middle = Counts(chance.randint(0, 25) for _ in range(4))
        divisor = chance.randint(1, 12)
        end = deal_on(State(middle, NOTHING_YET, 3, 0), Mat((divisor,)))
        assert (end.share.value, end.middle.value) == divmod(middle.value, divisor)
        assert end.middle.value == end.middle[0]


def test_dealing_on_with_ribbons_makes_no_piece_and_loses_none() -> None:
    chance = Random(6)
    for _ in range(2_000):
        middle = Counts(chance.randint(0, 25) for _ in range(4))
        mat = Mat.of(chance.randint(1, 999))
        end = deal_on(State(middle, NOTHING_YET, 4 - len(mat), 0), mat)
        assert mat.value * end.share.value + end.middle.value == middle.value
        assert min(end.middle) >= 0


@pytest.mark.parametrize(("dividend", "divisor"), RIBBONS)
def test_dealing_on_from_the_beginning_is_the_whole_sharing(dividend: int, divisor: int) -> None:
    sharing = share(dividend, divisor, ribbons=True)
    end = deal_on(sharing.beginning, sharing.mat)
    assert (end.share.value, end.middle.value) == (sharing.quotient, sharing.remainder)


def test_equal_trays_are_read_together_largest_ribbon_and_value_first() -> None:
    trays = [Reading(3, 1), Reading(30, 1, 10), Reading(4, 1), Reading(3, 2)]
    assert readings(trays) == (Reading(30, 1, 10), Reading(4, 1), Reading(3, 3))
