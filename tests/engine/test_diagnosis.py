"""Reading back: lessons acted out with one mishap, cases worked by hand, and the symptoms a lesson shows."""

from itertools import filterfalse, islice
from random import Random

import pytest

from generator.engine.diagnosis import Cause, Diagnosis, Symptom, diagnose, telling_slips
from generator.engine.observations import Reading
from generator.engine.places import Counts
from generator.engine.sharing import Sharing, share
from generator.engine.slips import Slip, Spot
from generator.engine.whatever_happened import places_not_shown
from generator.errors import SharingError
from tests.engine.divisions import divisions
from tests.engine.following import followed_once
from tests.engine.mishaps import NEEDS_RIBBONS, Acted
from tests.sampling import times

LESSONS_FOR_EACH_SLIP = times(whole=60, sampled=10)
LESSONS_AT_MOST = 20 * LESSONS_FOR_EACH_SLIP
PLAIN = set(Slip) - NEEDS_RIBBONS

U, T, H, TH = range(4)


def told(diagnosis: Diagnosis) -> list[tuple[Slip, int | None]]:
    """Every slip and place once, also where it needs one repair or another."""
    return list(dict.fromkeys((cause.slip, cause.place) for cause in diagnosis.causes))


@pytest.mark.parametrize("slip", sorted(PLAIN))
def test_the_slip_that_was_acted_out_is_found(slip: Slip) -> None:
    seed = list(Slip).index(slip)
    chance = Random(seed)
    lessons = 0
    for dividend, children in islice(divisions(seed), LESSONS_AT_MOST):
        right = Acted(dividend, children)
        chances = [mishap for mishap in right.chances if mishap.slip is slip]
        if not chances:
            continue
        mishap = chance.choice(chances)
        acted = Acted(dividend, children, mishap)
        if (sorted(acted.values), acted.left) == (sorted(right.values), right.left):
            continue
        seen = chance.sample(acted.values, len(acted.values))
        with followed_once(share(dividend, children)):
            diagnosis = diagnose(dividend, children, seen, acted.left)
            assert not diagnosis.consistent
            assert (slip, mishap.place) in told(diagnosis), (dividend, children, mishap)
            if sorted(acted.values) != sorted(right.values):
                assert (slip, mishap.place) in told(diagnose(dividend, children, seen)), (dividend, children, mishap)
        lessons += 1
        if lessons == LESSONS_FOR_EACH_SLIP:
            break
    assert lessons == LESSONS_FOR_EACH_SLIP


def test_the_right_result_is_right_and_nothing_else_is() -> None:
    for dividend, children in islice(divisions(seed=90), times(whole=200, sampled=40)):
        quotient, remainder = divmod(dividend, children)
        for left in (remainder, None):
            diagnosis = diagnose(dividend, children, [quotient] * children, left)
            assert diagnosis.consistent
            assert diagnosis.causes == ()
        assert not diagnose(dividend, children, [quotient] * children, remainder + children).consistent
        assert not diagnose(dividend, children, [quotient] * (children + 1), remainder).consistent
        assert not diagnose(dividend, children, [quotient + 1, *[quotient] * (children - 1)]).consistent


def test_every_point_of_every_cause_leads_to_exactly_what_is_seen() -> None:
    """Also for what no single slip explains: trays and what is left are moved about at random."""
    chance = Random(91)
    explained = 0
    for dividend, children in islice(divisions(seed=91), times(whole=40, sampled=10)):
        with followed_once(share(dividend, children)) as outcomes:
            chosen = chance.sample(outcomes, min(4, len(outcomes)))
            asked = [
                (outcome, left)
                for outcome in chosen
                for left in (outcome.left.value, outcome.left.value + chance.randint(0, 2), None)
            ]
            for outcome, left in asked:
                seen = [tray.value for tray in outcome.seen.trays for _ in range(tray.sharers)]
                diagnosis = diagnose(dividend, children, seen, left)
                agreeing = {
                    one.occasion
                    for one in outcomes
                    if one.seen.trays == outcome.seen.trays and left in (None, one.left.value)
                }
                occasions = {occasion for cause in diagnosis.causes for occasion in cause.occasions}
                assert occasions == (set() if diagnosis.consistent else agreeing)
                explained += bool(occasions)
    assert explained > times(whole=150, sampled=35)


def test_causes_come_likeliest_slip_first_and_smaller_places_first() -> None:
    """Those come last of whose pieces the digits of a tray show too few."""
    order = list(Slip)
    several = 0
    for dividend, children in islice(divisions(seed=92), times(whole=40, sampled=10)):
        with followed_once(share(dividend, children)) as outcomes:
            for outcome in outcomes[::9]:
                seen = [tray.value for tray in outcome.seen.trays for _ in range(tray.sharers)]
                causes = diagnose(dividend, children, seen).causes
                keys = [
                    (bool(places_not_shown(cause.advice)), order.index(cause.slip), cause.place or -1)
                    for cause in causes
                ]
                assert keys == sorted(keys)
                assert len({(cause.slip, cause.place, cause.repair) for cause in causes}) == len(causes)
                several += len(keys) > 1
    assert several > times(whole=50, sampled=10)


# dividend, sharers, trays seen, left over, every cause, and why: worked by hand
CASES = [
    (
        (5230, 4, [1308, 1307, 1307, 1307], 1),
        [(Slip.LEFT_OVER_DEALT, U), (Slip.NOT_TAKEN_BACK, U), (Slip.DEALT_TWICE, U)],
        "one of the two units left over lies on a tray; it can have come there in three ways",
    ),
    (
        (5230, 4, [1307, 1307, 1308, 1308], 0),
        [(Slip.LEFT_OVER_DEALT, U), (Slip.NOT_TAKEN_BACK, U)],
        "both units left over lie on trays: no one child was dealt twice",
    ),
    (
        (5230, 4, [1307, 1306, 1307, 1307], 3),
        [(Slip.SKIPPED, U)],
        "the total comes back, and the unit one child lacks is with what is left over",
    ),
    (
        (5230, 4, [1307, 1306, 1307, 1307], 2),
        [(Slip.ROLLED_AWAY, U)],
        "the unit one child lacks is nowhere",
    ),
    (
        (5230, 4, [1307, 1306, 1307, 1307], None),
        [(Slip.SKIPPED, U), (Slip.ROLLED_AWAY, U)],
        "the two cases before, when nobody counted what is left over",
    ),
    (
        (5230, 4, [1307] * 4, 1),
        [(Slip.BANK_NINE, U), (Slip.ROLLED_AWAY, U)],
        "5,229; the number has no unit that could be missing when it is laid out",
    ),
    (
        (5230, 4, [1307] * 4, 3),
        [(Slip.BANK_ELEVEN, U), (Slip.LAID_MANY, U)],
        "5,231",
    ),
    (
        (5230, 4, [1310] * 4, 0),
        [(Slip.LAID_MANY, T), (Slip.NOT_BANKED, T)],
        "5,240; no hundred is exchanged, so the bank never counts out ten-bars; one that came back would leave ten "
        "units on every tray",
    ),
    (
        (5230, 4, [1307] * 4, 12),
        [(Slip.NOT_BANKED, T)],
        "a ten lies beside the two units: more than four, so it cannot have been there to deal",
    ),
    (
        (5230, 4, [1332] * 4, 2),
        [(Slip.BANK_ELEVEN, H), (Slip.LAID_MANY, H)],
        "5,330; no hundred is exchanged, so none can have stayed",
    ),
    (
        (5230, 4, [1330] * 4, 0),
        [(Slip.WRONG_KIND, U)],
        "5,320: 10 is gone and 100 has come, ten ten-bars for one",
    ),
    ((848, 4, [462] * 4, 0), [(Slip.LAID_MANY, TH)], "1,848: a cube that is no part of the number was laid out"),
    ((5230, 4, [1046] * 5, 0), [(Slip.TRAY_MANY, None)], "5,230 among five"),
    ((5230, 4, [1743] * 3, 1), [(Slip.TRAY_FEW, None)], "5,230 among three"),
    ((5230, 4, [137, 1307, 1307, 1307], 2), [(Slip.ZERO_FORGOTTEN, T)], "1, 3 and 7 with no empty tens between"),
    ((5230, 4, [3107] * 4, 2), [(Slip.SWAPPED, TH)], "thousands and hundreds changed places on the cards"),
    ((5230, 4, [1300] * 4, 2), [], "28 units gone from four trays: more than one slip"),
    ((5230, 4, [1307, 1307], 2), [], "two trays for four children: more than one slip"),
    (
        (8, 4, [3, 2, 2, 1], 0),
        [(Slip.DEALT_TWICE, U)],
        "in the last round one child has two, and the last finds the middle empty",
    ),
    (
        (12, 4, [2] * 4, 3),
        [(Slip.BANK_NINE, U), (Slip.ROLLED_AWAY, U), (Slip.LAID_FEW, U)],
        "11: 9 units come from the bank, or 1 of the 2 was not laid, or one is lost",
    ),
    ((0, 3, [0, 0, 0], 1), [(Slip.LAID_MANY, U)], "there is nothing to lose, to deal or to exchange"),
    (
        (3, 7, [1, 1, 1, 0, 0, 0, 0], 0),
        [(Slip.LEFT_OVER_DEALT, U), (Slip.NOT_TAKEN_BACK, U)],
        "more children than beads: all of it is left over",
    ),
    ((7, 1, [6], 0), [(Slip.ROLLED_AWAY, U), (Slip.LAID_FEW, U)], "one child has whatever lies there"),
    ((7, 1, [8], 0), [(Slip.LAID_MANY, U)], "one child has whatever lies there"),
    (
        (30, 2, [20, 10], 0),
        [(Slip.NOT_TAKEN_BACK, T), (Slip.SKIPPED, T), (Slip.DEALT_TWICE, T), (Slip.NONE_OF_A_PLACE, U)],
        "the third ten lies whole on one tray; or one child had none of the first round, so that two were left "
        "to deal; or one child had two, and the ten left went to the other; or one child had all ten units",
    ),
]


@pytest.mark.parametrize(
    ("what", "causes", "why"), CASES, ids=lambda value: str(value) if isinstance(value, tuple) else ""
)
def test_worked_by_hand(
    what: tuple[int, int, list[int], int | None], causes: list[tuple[Slip, int | None]], why: str
) -> None:
    assert told(diagnose(*what)) == causes, why


@pytest.mark.parametrize(
    ("dividend", "divisor", "seen", "left", "problem"),
    [
        (-1, 4, [1], None, "the dividend is -1"),
        (8, 0, [1], None, "the divisor is 0"),
        (8, 4, [], None, "the number of trays seen is 0"),
        (8, 4, [2, 2, -2, 2], None, "the value of a tray is -2"),
        (8, 4, [2, 2, 2, 2], -1, "the value left over is -1"),
        (8, 4, [2, 2, 2, True], 0, "the value of a tray is True"),
    ],
)
def test_refused(dividend: int, divisor: int, seen: list[int], left: int | None, problem: str) -> None:
    with pytest.raises(SharingError, match=problem):
        diagnose(dividend, divisor, seen, left)


def test_what_cannot_be_explained_costs_no_simulation() -> None:
    assert diagnose(10**15, 9_999, [1, 2]).causes == ()


WITH_RIBBONS = [share(*numbers, ribbons=True) for numbers in ((3432, 12), (6312, 102), (2460, 20), (35, 12), (5, 12))]
SHARINGS = [*(share(*numbers) for numbers in islice(divisions(seed=93), times(whole=120, sampled=30))), *WITH_RIBBONS]


def as_seen(symptom: Symptom) -> list[int]:
    return [tray.value for tray in symptom.seen.trays for _ in range(tray.sharers)]


def is_of_a_child_without_a_tray(cause: Cause) -> bool:
    """Such a child was written down as having 0, which no tray shows: only a diagnosis knows of it."""
    return cause.slip is Slip.TRAY_FEW and {occasion.spot for occasion in cause.occasions} == {Spot.EVERY_CHILD}


@pytest.mark.parametrize("sharing", SHARINGS, ids=lambda sharing: f"{sharing.dividend}-{sharing.divisor}")
def test_the_signs_of_a_lesson(sharing: Sharing) -> None:
    symptoms = telling_slips(sharing)
    assert 1 <= len(symptoms) <= 8
    assert len({symptom.seen for symptom in symptoms}) == len(symptoms)
    for symptom in symptoms:
        assert symptom.off_by == sum(as_seen(symptom)) + (symptom.seen.left or 0) - sharing.dividend
        assert symptom.causes
        if not sharing.ribbons:
            diagnosis = diagnose(sharing.dividend, sharing.divisor, as_seen(symptom), symptom.seen.left)
            assert tuple(filterfalse(is_of_a_child_without_a_tray, diagnosis.causes)) == symptom.causes
            assert not diagnosis.consistent
    first = [list(Slip).index(symptom.causes[0].slip) for symptom in symptoms]
    assert first[0] == min(first)
    assert telling_slips(sharing, most=3) == symptoms[:3]


def test_no_symptom_comes_twice() -> None:
    """Among four 7,551 leaves two slips with the same best symptom, which others have told before."""
    symptoms = telling_slips(share(7551, 4), most=20)
    assert len({symptom.seen for symptom in symptoms}) == len(symptoms)


def test_the_signs_of_5230_among_four() -> None:
    symptoms = {symptom.seen: symptom for symptom in telling_slips(share(5230, 4), most=20)}
    seen = [(each.trays, each.left) for each in symptoms]
    assert seen[:4] == [
        ((Reading(1308, 2), Reading(1307, 2)), 0),
        ((Reading(1307, 3), Reading(1306, 1)), 3),
        ((Reading(1307, 4),), 1),
        ((Reading(1307, 4),), 3),
    ]
    assert {cause.slip for symptom in symptoms.values() for cause in symptom.causes} == PLAIN
    assert [symptom.seen.equal for symptom in symptoms.values()][:4] == [False, False, True, True]
    assert [symptom.off_by for symptom in symptoms.values()][:4] == [0, 0, -1, 1]


def test_a_lesson_without_exchanges_shows_nothing_of_the_bank() -> None:
    slips = {cause.slip for symptom in telling_slips(share(4848, 4), most=20) for cause in symptom.causes}
    bank = {Slip.BANK_NINE, Slip.BANK_ELEVEN, Slip.NOT_BANKED, Slip.WRONG_KIND}
    assert slips == PLAIN - bank - {Slip.LEFT_OVER_DEALT, Slip.NOT_TAKEN_BACK, Slip.ZERO_FORGOTTEN}


@pytest.mark.parametrize(("dividend", "divisor"), [(1768, 8), (1899, 9), (11, 12), (5230, 4)])
def test_what_the_shelf_could_not_show_is_left_out(dividend: int, divisor: int) -> None:
    """Of 1,768 among eight a cube on one tray leaves 96 on each: 72 tens on trays, and 45 are there. Own reasoning."""
    owned, sharing = Counts((100, 45, 45, 9)), share(dividend, divisor)
    shown = telling_slips(sharing, most=20, owned=owned)
    assert len(shown) > 4
    for symptom in shown:
        there = [Counts.of(tray.value) for tray in symptom.seen.trays for _ in range(tray.sharers)]
        on_trays = [sum(tray.at(place) for tray in there) for place in range(4)]
        assert all(many <= max(owned[place], sharing.pieces_needed.at(place)) for place, many in enumerate(on_trays))


def test_what_the_sharing_needs_is_shown_on_a_shelf_that_has_less() -> None:
    """Two beads for each of two are four where the shelf has three; a fifth, to lay out too many, is not there."""
    shown = telling_slips(share(4, 2), most=20, owned=Counts((3,)))
    assert {sum(as_seen(symptom)) + (symptom.seen.left or 0) for symptom in shown} == {3, 4}


def test_rows_are_those_in_which_everybody_goes_on_by_the_rules() -> None:
    """Left over and dealt: all of it. A bar that one tray did not get goes to the bank with the others. By hand."""
    (first, *_) = telling_slips(share(11, 12))
    assert (first.seen.trays, first.seen.left) == ((Reading(1, 11), Reading(0, 1)), 0)
    seen = [(symptom.seen.trays, symptom.seen.left) for symptom in telling_slips(share(1246, 2), most=20)]
    assert ((Reading(623, 1), Reading(622, 1)), 1) in seen
    assert ((Reading(623, 1), Reading(613, 1)), 10) not in seen


def test_points_of_a_cause_tell_every_round_and_exchange() -> None:
    (cause,) = diagnose(5230, 4, [1307, 1307, 1307, 1306], 3).causes
    assert (cause.slip, cause.place) == (Slip.SKIPPED, U)
    assert [occasion.turn for occasion in cause.occasions] == [1, 2, 3, 4, 5, 6, 7]
    (cause,) = diagnose(5230, 4, [1317, 1307, 1307, 1307], 2).causes
    assert [(occasion.turn, occasion.spot) for occasion in cause.occasions] == [
        (turn, Spot.ONE_TRAY) for turn in (1, 2, 3)
    ]


def test_where_nobody_goes_to_the_bank_a_piece_passed_over_still_lies_in_the_middle() -> None:
    """In a first lesson without exchanges nobody would change it; four go round again. Own reasoning, no source."""
    passed_over = {Slip.SKIPPED: [(1342, 1332, 10)], Slip.NONE_OF_A_PLACE: [(1382, 1302, 0)]}
    for symptom in telling_slips(share(2684, 2)):
        if (slip := symptom.causes[0].slip) in passed_over:
            assert symptom.seen.left is not None
            assert passed_over[slip] == [(*(tray.value for tray in symptom.seen.trays), symptom.seen.left)]
            del passed_over[slip]
    assert not passed_over


def test_one_ribbon_forgotten_in_every_round_is_named_and_makes_no_row() -> None:
    """4,876 for 23: 14 children with 348 each are 4,872. A row shows what is less easily seen. Own reasoning."""
    seen = [Reading(348, 1, 10), Reading(3480, 1, 10), Reading(348, 3)]
    assert told(diagnose(4876, 23, seen, 4, ribbons=True)) == [(Slip.SAME_KIND, None)]
    occasions = {one for row in telling_slips(share(4876, 23, ribbons=True), 20) for one in row.causes[0].occasions}
    assert not any(one.slip is Slip.SAME_KIND and one.spot is None for one in occasions)


def test_a_missing_tray_is_seen_by_the_trays_that_are_there() -> None:
    """11 among 12 with a tray missing: 11 trays of 1. Where 12 are seen, none can be missing. Own reasoning."""
    symptoms = telling_slips(share(11, 12))
    missing = [one for one in symptoms if any(cause.slip is Slip.TRAY_FEW for cause in one.causes)]
    assert [one.seen.trays for one in missing] == [(Reading(1, 11),)]
