"""The dealing rule: from pieces in the middle to equal trays, hand movement by hand movement.

One rule gives plain sharing and ribbons. A sharer stands for 1, 10, 100 ...; at *level* p a sharer
who stands for 10^w is dealt pieces of place p + w. In plain sharing everybody stands for one.

Names used here
    mat      who is sharing: how many stand for 1, 10, 100 ...; its value is the divisor
    middle   the pieces not yet dealt
    share    what a sharer who stands for one holds; one who stands for 10^w holds it w places larger
    round    one piece for every sharer; only whole rounds stay on the trays
    cost     the pieces that one round takes, for every place of the middle
    ahead    how many sharers have their piece of a round that cannot be finished
"""

from collections.abc import Iterator
from enum import StrEnum
from operator import sub
from typing import NamedTuple

from generator.engine.places import UNITS, Counts, Mat


class Action(StrEnum):
    """What the hands do in one step."""

    DEAL = "deal-round"
    START = "start-round"
    TAKE_BACK = "take-back"
    EXCHANGE = "exchange"
    SET_ASIDE = "set-aside"
    GO_ON = "next-place"
    NOTHING = "nothing-here"


class State(NamedTuple):
    """The room after a step. What is set aside still counts as lying in the middle."""

    middle: Counts
    share: Counts
    level: int
    ahead: int


class Step(NamedTuple):
    """One hand movement and the room after it.

    `place` is the piece exchanged, or else the place dealt to a sharer who stands for one;
    `pieces` is how many pieces changed their place (an exchange: one to the bank, ten from it).
    """

    action: Action
    place: int
    pieces: int
    after: State


def beginning(start: Counts, mat: Mat) -> State:
    """The room before the first movement: the number in the middle, nothing on the trays."""
    return State(start, Counts((0,) * len(start)), max(len(start) - len(mat), UNITS), 0)


def deal(start: Counts, mat: Mat, *, look_first: bool = False) -> tuple[Step, ...]:
    """Every step from the number in the middle to the finished trays.

    With `look_first` no round is begun that cannot be finished; all other movements are the same.
    """
    room = _Room(beginning(start, mat))
    left_out = (Action.START, Action.TAKE_BACK) if look_first else ()
    return tuple(
        Step(action, place, pieces, room.state())
        for action, place, pieces in _movements(room, mat)
        if action not in left_out
    )


def deal_on(state: State, mat: Mat) -> State:
    """The last state when dealing goes on by the same rule from a state that a slip may have disturbed.

    Pieces larger than the level are dealt first, as at the beginning. The middle may hold ten or more of a smaller
    place, which the rule itself never leaves behind.
    """
    mat = Mat(mat[: mat.widths[0] + 1])  # no larger place than somebody still stands for
    missing = (0,) * (len(mat) - len(state.middle))
    middle, share = Counts(state.middle + missing), Counts(state.share + missing)
    largest = max(middle.places_held, default=UNITS)
    room = _Room(State(middle, share, max(state.level, largest + 1 - len(mat)), 0))
    for _ in _movements(room, mat):
        pass
    return room.state()


class _Room:
    """The state while dealing goes on, changed in place."""

    def __init__(self, state: State) -> None:
        self.middle = list(state.middle)
        self.share = list(state.share)
        self.level = state.level
        self.ahead = state.ahead

    def state(self) -> State:
        return State(Counts(self.middle), Counts(self.share), self.level, self.ahead)


def _movements(room: _Room, mat: Mat) -> Iterator[tuple[Action, int, int]]:
    """Change `room` movement by movement; yield action, place and number of pieces of each."""
    yield from _deal_level(room, mat)
    while room.level > UNITS:
        room.level -= 1
        yield Action.GO_ON, room.level, 0
        yield from _deal_level(room, mat)
    if any(room.middle):
        yield Action.SET_ASIDE, UNITS, sum(room.middle)


def _deal_level(room: _Room, mat: Mat) -> Iterator[tuple[Action, int, int]]:
    """Deal every whole round at the room's level, then exchange the pieces that are too large for the next level.

    Without a piece of the largest place that a round takes, nothing moves: still larger ones have been exchanged.
    """
    level = room.level
    largest = level + len(mat) - 1
    cost = [*(0,) * level, *mat, *(0,) * len(room.middle)][: len(room.middle)]
    if largest >= len(room.middle) or not room.middle[largest]:
        yield Action.NOTHING, level, 0
        return
    while (places := _exchanges_for_a_round(room.middle, cost)) is not None:
        for place in places:
            yield _exchange(room, place)
        room.middle = [*map(sub, room.middle, cost)]
        room.share[level] += 1
        yield Action.DEAL, level, sum(cost)
    dealt = _beginning_of_a_round(room.middle, cost)
    if ahead := sum(dealt):
        whole = room.middle
        room.middle, room.ahead = [*map(sub, whole, dealt)], ahead
        yield Action.START, level, ahead
        room.middle, room.ahead = whole, 0
        yield Action.TAKE_BACK, level, ahead
    if level > UNITS:
        for _ in range(room.middle[largest]):
            yield _exchange(room, largest)


def _exchange(room: _Room, place: int) -> tuple[Action, int, int]:
    room.middle[place] -= 1
    room.middle[place - 1] += 10
    return Action.EXCHANGE, place, 11


def _exchanges_for_a_round(middle: list[int], cost: list[int]) -> list[int] | None:
    """The places to exchange one piece of, largest first, so that a round can be dealt: as few as possible.

    None if the larger pieces are not enough for that.
    """
    wanted = 0
    places: list[int] = []
    for place, need in enumerate(cost):
        short = need + wanted - middle[place]
        wanted = (short + 9) // 10 if short > 0 else 0
        places += [place + 1] * wanted
    return None if wanted else places[::-1]


def _beginning_of_a_round(middle: list[int], cost: list[int]) -> list[int]:
    """The pieces of an unfinished round, dealt from the largest place down until one place has too few."""
    dealt = [0] * len(cost)
    for place in reversed(range(len(cost))):
        dealt[place] = min(cost[place], middle[place])
        if dealt[place] < cost[place]:
            break
    return dealt
