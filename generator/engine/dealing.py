"""The dealing rule: from pieces in the middle to equal trays, hand movement by hand movement.

One rule gives plain sharing and ribbons. A sharer stands for 1, 10, 100 ...; at *level* p a sharer
who stands for 10^w is dealt pieces of place p + w. In plain sharing everybody stands for one.

Names used here
    mat      who is sharing: how many stand for 1, 10, 100 ...; its value is the divisor
    middle   the pieces not yet dealt
    share    what a sharer who stands for one holds; one who stands for 10^w holds it w places larger
    round    one piece for every sharer; only whole rounds stay on the trays
    ahead    how many sharers have their piece of a round that cannot be finished
"""

from __future__ import annotations

from functools import lru_cache
from operator import add, lt, sub

from generator.engine.places import UNITS, Counts, Mat
from generator.engine.steps import Action, State, Step


def deal(start: Counts, mat: Mat) -> tuple[Step, ...]:
    """Every step from the number in the middle to the finished trays."""
    table = _Table(start, max(len(start) - len(mat), UNITS))
    while True:
        _deal_level(table, mat)
        if table.level == UNITS:
            if table.left:
                table.record(Action.SET_ASIDE, UNITS, sum(table.middle))
            return tuple(table.steps)
        table.level -= 1
        table.record(Action.GO_ON, table.level, 0)


@lru_cache(maxsize=4096)
def deal_on(middle: Counts, mat: Mat, level: int) -> State:
    """Deal what lies in the middle by the same rule, from a level down to the units: the room at the end.

    The share counts only what is dealt from here on. The middle may be one that the rule itself never
    leaves behind, with ten or more of a smaller place; what is too large for the level stays where it is.
    """
    middle = Counts((*middle, *(0,) * (len(mat) - len(middle))))
    table = _Table(middle, level)
    _deal_level(table, mat)
    if level == UNITS:
        return State(Counts(table.middle), table.share, UNITS, 0)
    end = deal_on(Counts(table.middle), mat, level - 1)
    return end._replace(share=Counts(map(add, table.share, end.share)))


def _deal_level(table: _Table, mat: Mat) -> None:
    """Every whole round at one level, then the exchange of what is too large for the next."""
    level = table.level
    size = len(table.middle)
    cost = Counts(mat.at(place - level) if place >= level else 0 for place in range(size))
    worth = mat.value * 10**level
    if not any(have and need for have, need in zip(table.middle, cost, strict=True)):
        table.record(Action.NOTHING, level, 0)
    while table.left >= worth and (places := _exchanges_for_a_round(table.middle, cost)) is not None:
        for place in places:
            table.exchange(place)
        table.deal_round(cost, worth)
    ahead, dealt = _beginning_of_a_round(table.middle, mat, level)
    if ahead:
        table.try_a_round(dealt, ahead)
    too_large = level + len(mat) - 1
    if level > UNITS and too_large < size:
        for _ in range(table.middle[too_large]):
            table.exchange(too_large)


class _Table:
    """The mat while the hands are at work, and a record of every movement."""

    def __init__(self, start: Counts, level: int) -> None:
        self.middle = list(start)
        self.left = start.value
        self.share = Counts((0,) * len(start))
        self.level = level
        self.steps: list[Step] = []

    def record(self, action: Action, place: int, pieces: int, ahead: int = 0) -> None:
        middle = Counts(self.middle)
        self.steps.append(Step(action, place, pieces, State(middle, self.share, self.level, ahead)))

    def exchange(self, place: int) -> None:
        self.middle[place] -= 1
        self.middle[place - 1] += 10
        self.record(Action.EXCHANGE, place, 11)

    def deal_round(self, cost: Counts, worth: int) -> None:
        self.middle = [*map(sub, self.middle, cost)]
        self.share = self.share.with_one_more(self.level)
        self.left -= worth
        self.record(Action.DEAL, self.level, sum(cost))

    def try_a_round(self, dealt: Counts, ahead: int) -> None:
        """Begin a round that cannot be finished, see it, and take it back."""
        whole = self.middle
        self.middle = [have - gone for have, gone in zip(whole, dealt, strict=True)]
        self.record(Action.START, self.level, dealt.pieces, ahead)
        self.middle = whole
        self.record(Action.TAKE_BACK, self.level, dealt.pieces)


def _exchanges_for_a_round(middle: list[int], cost: Counts) -> list[int] | None:
    """The places to exchange a piece of, largest first, before a round can be dealt: as few as possible.

    None where the larger pieces do not go that far.
    """
    if not any(map(lt, middle, cost)):
        return []
    wanted = 0
    places: list[int] = []
    for place, need in enumerate(cost):
        short = need + wanted - middle[place]
        wanted = (short + 9) // 10 if short > 0 else 0
        places += [place + 1] * wanted
    return None if wanted else places[::-1]


def _beginning_of_a_round(middle: list[int], mat: Mat, level: int) -> tuple[int, Counts]:
    """How many sharers can be dealt a piece before the round breaks off, and the pieces they get."""
    ahead = 0
    pieces = [0] * len(middle)
    for width in mat.widths:
        place = level + width
        served = min(mat[width], middle[place]) if place < len(middle) else 0
        ahead += served
        if served:
            pieces[place] = served
        if served < mat[width]:
            break
    return ahead, Counts(pieces)
