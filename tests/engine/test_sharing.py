"""One lesson read step by step, and what is refused. The rules themselves are checked for every division elsewhere."""

from decimal import Decimal
from typing import Any

import pytest

from generator.engine.dealing import Action
from generator.engine.places import Counts
from generator.engine.sharing import share
from generator.engine.trays import Tray
from generator.errors import SharingError

# Worked by hand: (what the hands do, place, pieces moved, then units, tens, hundreds, thousands in the middle)
STEPS_OF_1201_AMONG_3 = [
    (Action.START, 3, 1, (1, 0, 2, 0)),
    (Action.TAKE_BACK, 3, 1, (1, 0, 2, 1)),
    (Action.EXCHANGE, 3, 11, (1, 0, 12, 0)),
    (Action.GO_ON, 2, 0, (1, 0, 12, 0)),
    (Action.DEAL, 2, 3, (1, 0, 9, 0)),
    (Action.DEAL, 2, 3, (1, 0, 6, 0)),
    (Action.DEAL, 2, 3, (1, 0, 3, 0)),
    (Action.DEAL, 2, 3, (1, 0, 0, 0)),
    (Action.GO_ON, 1, 0, (1, 0, 0, 0)),
    (Action.NOTHING, 1, 0, (1, 0, 0, 0)),
    (Action.GO_ON, 0, 0, (1, 0, 0, 0)),
    (Action.START, 0, 1, (0, 0, 0, 0)),
    (Action.TAKE_BACK, 0, 1, (1, 0, 0, 0)),
    (Action.SET_ASIDE, 0, 1, (1, 0, 0, 0)),
]


def test_a_lesson_step_by_step() -> None:
    sharing = share(1201, 3)
    assert [(*step[:3], step.after.middle) for step in sharing.steps] == STEPS_OF_1201_AMONG_3
    assert (sharing.quotient, sharing.remainder, sharing.exchanges) == (400, 1, 1)
    assert sharing.pieces_needed == Counts((1, 0, 12, 1))
    assert sharing.handlings == 4 + 2 + 11 + 12 + 2 + 1
    assert [tuple(stage.exchanged) for stage in sharing.stages] == [(0, 0, 0, 1)] + [(0, 0, 0, 0)] * 3
    assert [stage.rounds for stage in sharing.stages] == [0, 4, 0, 0]


def test_the_room_in_an_unfinished_round() -> None:
    sharing = share(1201, 3)
    begun, taken_back, exchanged = (step.after for step in sharing.steps[:3])
    a_cube, nothing = Counts((0, 0, 0, 1)), Counts((0, 0, 0, 0))
    assert sharing.trays(begun) == (Tray(1, 1, a_cube), Tray(2, 1, nothing))
    assert sharing.trays(taken_back) == (Tray(3, 1, nothing),)
    assert sharing.out_of_the_bank(begun) == sharing.start
    assert sharing.bank(exchanged) == Counts((0, 0, -10, 1))
    assert sharing.to_share(begun) == sharing.to_share(exchanged) == 1201


def test_an_unfinished_round_with_ribbons_stops_within_a_group() -> None:
    """Two who stand for ten and three for one: after a round the two take the hundreds and one ten goes round."""
    sharing = share(460, 23, ribbons=True)
    begun = [step.after for step in sharing.steps if step.action is Action.START]
    assert share(460, 23).quotient == sharing.quotient == 20
    assert sharing.steps[-1].action is Action.NOTHING
    assert not begun

    sharing = share(440, 23, ribbons=True)
    begun = [step.after for step in sharing.steps if step.action is Action.START]
    assert [(tray.sharers, tray.stands_for, tuple(tray.holds)) for tray in sharing.trays(begun[0])] == [
        (2, 10, (0, 0, 2)),
        (1, 1, (0, 2, 0)),
        (2, 1, (0, 1, 0)),
    ]


@pytest.mark.parametrize(("dividend", "divisor", "ribbons"), [(5230, 4, False), (1201, 3, False), (440, 23, True)])
def test_who_looks_first_makes_the_same_movements_but_those_of_rounds_that_are_taken_back(
    dividend: int, divisor: int, ribbons: bool
) -> None:
    begun = share(dividend, divisor, ribbons=ribbons)
    looked = share(dividend, divisor, ribbons=ribbons, look_first=True)
    unfinished = [step for step in begun.steps if step.action in (Action.START, Action.TAKE_BACK)]
    assert unfinished
    assert looked.steps == tuple(step for step in begun.steps if step not in unfinished)
    assert looked.handlings == begun.handlings - sum(step.pieces for step in unfinished)
    assert looked.pieces_needed == begun.pieces_needed
    for after_a_look, after_a_try in zip(looked.stages, begun.stages, strict=True):
        for name in ("level", "start", "rounds", "trips", "end", "unfinished"):
            assert getattr(after_a_look, name) == getattr(after_a_try, name)
    assert [stage.unfinished for stage in begun.stages] == [
        any(step.action is Action.START for step in stage.steps) for stage in begun.stages
    ]


def test_nobody_gets_a_bead() -> None:
    sharing = share(3, 5)
    assert [step.action for step in sharing.steps] == [Action.START, Action.TAKE_BACK, Action.SET_ASIDE]
    assert (sharing.quotient, sharing.remainder) == (0, 3)
    assert [step.action for step in share(3, 5, look_first=True).steps] == [Action.SET_ASIDE]


def test_nothing_to_share() -> None:
    sharing = share(0, 5)
    assert [step.action for step in sharing.steps] == [Action.NOTHING]
    assert (sharing.quotient, sharing.remainder, sharing.handlings, sharing.exchanges) == (0, 0, 0, 0)
    assert [(stage.level, stage.rounds, tuple(stage.end)) for stage in sharing.stages] == [(0, 0, (0,))]


REFUSED: list[tuple[Any, Any, str]] = [
    (5, 0, "divisor is 0"),
    (5, -2, "divisor is -2"),
    (-1, 2, "dividend is -1"),
    (5.0, 2, "dividend is 5.0"),
    (5, 2.0, "divisor is 2.0"),
    ("5", 2, "dividend is '5'"),
    (5, None, "divisor is None"),
    (Decimal(5), 2, "dividend is Decimal"),
    (True, 2, "dividend is True"),
    (5, True, "divisor is True"),
]


@pytest.mark.parametrize("ribbons", [False, True])
@pytest.mark.parametrize(("dividend", "divisor", "message"), REFUSED)
def test_what_makes_no_sense_is_refused(dividend: Any, divisor: Any, message: str, ribbons: bool) -> None:
    with pytest.raises(SharingError, match=message):
        share(dividend, divisor, ribbons=ribbons)
