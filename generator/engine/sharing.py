"""The dealing engine: one division, worked out hand movement by hand movement.

One rule gives plain sharing and ribbons. A sharer stands for 1, 10, 100 ...; at *level* p a sharer
who stands for 10^w is dealt pieces of place p + w. In plain sharing everybody stands for one.

Names used here
    mat      who is sharing: Counts of the sharers who stand for 1, 10, 100 ...; its value is the divisor
    middle   the pieces not yet dealt
    share    what a sharer who stands for one holds; one who stands for 10^w holds it w places larger
    round    one piece for every sharer; only whole rounds stay on the trays
    ahead    how many sharers have their piece of a round that cannot be finished
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property, lru_cache
from itertools import groupby
from operator import add, lt, sub
from typing import NamedTuple

from generator.engine.places import UNITS, Counts
from generator.errors import SharingError


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


class Tray(NamedTuple):
    """Trays that hold the same: how many sharers, what each stands for, what each has."""

    sharers: int
    stands_for: int
    holds: Counts


class Stage(NamedTuple):
    """All that happens at one level, from the largest to the units.

    For every place: end = start - rounds x sharers served with it - exchanged + 10 x exchanged one place up.
    """

    level: int
    start: Counts
    rounds: int
    exchanged: Counts
    end: Counts
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class Sharing:
    """One division, worked out. Counts hold every place of the dividend."""

    dividend: int
    mat: Counts
    ribbons: bool
    steps: tuple[Step, ...]

    @property
    def divisor(self) -> int:
        return self.mat.value

    @property
    def sharers(self) -> int:
        """How many children sit on the mat; with ribbons fewer than the divisor says."""
        return self.mat.pieces

    @cached_property
    def start(self) -> Counts:
        """The number laid out in the middle."""
        return Counts.of(self.dividend)

    @property
    def end(self) -> State:
        return self.steps[-1].after

    @property
    def quotient(self) -> int:
        """The share of one who stands for one."""
        return self.end.share.value

    @property
    def remainder(self) -> int:
        return self.end.middle.value

    @property
    def exchanges(self) -> int:
        return sum(step.action is Action.EXCHANGE for step in self.steps)

    @cached_property
    def stages(self) -> tuple[Stage, ...]:
        """One per level down to the units, also where no round can be dealt."""
        stages: list[Stage] = []
        start = self.start
        for level, group in groupby(self.steps, key=lambda step: step.after.level):
            steps = tuple(group)
            exchanged = [0] * len(start)
            for step in steps:
                if step.action is Action.EXCHANGE:
                    exchanged[step.place] += 1
            end = steps[-1].after.middle
            rounds = steps[-1].after.share[level]
            stages.append(Stage(level, start, rounds, Counts(exchanged), end, steps))
            start = end
        return tuple(stages)

    def to_share(self, state: State) -> int:
        """What is still to be shared: falls with every whole round, never with an exchange."""
        return self.dividend - self.divisor * state.share.value

    def trays(self, state: State) -> tuple[Tray, ...]:
        """Every tray, equal ones together, in the order of dealing (largest ribbon first)."""
        trays: list[Tray] = []
        ahead = state.ahead
        for width in self.mat.places_held:
            sharers = self.mat[width]
            served = min(ahead, sharers)
            ahead -= served
            holds = Counts(((0,) * width + state.share)[: len(state.share)])
            if served:
                trays.append(Tray(served, 10**width, _with_one_more(holds, state.level + width)))
            if served < sharers:
                trays.append(Tray(sharers - served, 10**width, holds))
        return tuple(trays)

    def room(self, state: State) -> Counts:
        """The pieces out of the bank: in the middle and on all trays together."""
        room = list(state.middle)
        for tray in self.trays(state):
            for place in tray.holds.places_held:
                room[place] += tray.sharers * tray.holds[place]
        return Counts(room)

    def bank(self, state: State) -> Counts:
        """What the bank has gained since the number was laid out; below zero: given out."""
        return Counts(laid - out for laid, out in zip(self.start, self.room(state), strict=True))

    @cached_property
    def pieces_needed(self) -> Counts:
        """The most pieces of each place that are out of the bank at one moment."""
        moments = (self.start, *(self.room(step.after) for step in self.steps if step.action is Action.EXCHANGE))
        return Counts(map(max, zip(*moments, strict=True)))

    @property
    def handlings(self) -> int:
        """Every piece that is moved, from laying out the number to setting aside what is left."""
        return self.start.pieces + sum(step.pieces for step in self.steps)


def share(dividend: int, divisor: int, *, ribbons: bool = False) -> Sharing:
    """Work out one division. With ribbons, every digit of the divisor is a group of sharers.

    Raises SharingError for anything but a whole dividend >= 0 and a whole divisor >= 1.
    """
    refuse_unless_whole("dividend", dividend, least=0)
    refuse_unless_whole("divisor", divisor, least=1)
    mat = Counts.of(divisor) if ribbons else Counts((divisor,))
    start = Counts.of(dividend)
    table = _Table(start, max(len(start) - len(mat), UNITS), dividend)
    _deal(table, mat)
    return Sharing(dividend, mat, ribbons, tuple(table.steps))


@lru_cache(maxsize=4096)
def deal_on(middle: Counts, mat: Counts, level: int) -> State:
    """Deal what lies in the middle by the same rule, from a level down to the units: the room at the end.

    The share counts only what is dealt from here on. The middle may be one that the rule itself never
    leaves behind, with ten or more of a smaller place; what is too large for the level stays where it is.
    """
    middle = Counts((*middle, *(0,) * (len(mat) - len(middle))))
    table = _Table(middle, level, middle.value)
    _deal_level(table, mat)
    if level == UNITS:
        return State(Counts(table.middle), table.share, UNITS, 0)
    end = deal_on(Counts(table.middle), mat, level - 1)
    return end._replace(share=Counts(map(add, table.share, end.share)))


def refuse_unless_whole(name: str, number: object, least: int) -> None:
    """Raise SharingError for anything but a whole number that is not below `least`; `name` says what it is."""
    if isinstance(number, bool) or not isinstance(number, int):
        raise SharingError(f"the {name} is {number!r}: it must be a whole number")
    if number < least:
        raise SharingError(f"the {name} is {number}: it must be {least} or more")


def _deal(table: _Table, mat: Counts) -> None:
    """Every step from the pieces in the middle to the finished trays."""
    while True:
        _deal_level(table, mat)
        if table.level == UNITS:
            if table.left:
                table.record(Action.SET_ASIDE, UNITS, sum(table.middle))
            return
        table.level -= 1
        table.record(Action.GO_ON, table.level, 0)


def _deal_level(table: _Table, mat: Counts) -> None:
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

    def __init__(self, start: Counts, level: int, left: int) -> None:
        self.middle = list(start)
        self.left = left
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
        self.share = _with_one_more(self.share, self.level)
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


def _beginning_of_a_round(middle: list[int], mat: Counts, level: int) -> tuple[int, Counts]:
    """How many sharers can be dealt a piece before the round breaks off, and the pieces they get."""
    ahead = 0
    pieces = [0] * len(middle)
    for width in mat.places_held:
        place = level + width
        served = min(mat[width], middle[place]) if place < len(middle) else 0
        ahead += served
        if served:
            pieces[place] = served
        if served < mat[width]:
            break
    return ahead, Counts(pieces)


def _with_one_more(counts: Counts, place: int) -> Counts:
    more = [*counts]
    more[place] += 1
    return Counts(more)
