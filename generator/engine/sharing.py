"""One division, worked out: the number, who shares it, every step, and all that follows from them."""

from collections import Counter
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import chain, groupby
from typing import NamedTuple, Self

from generator.engine.dealing import Action, State, Step, beginning, deal
from generator.engine.places import UNITS, Counts, Mat
from generator.engine.trays import Tray, every_tray, first_served
from generator.errors import SharingError

_MOST_TRIPS_APART = 3


class Trip(NamedTuple):
    """Pieces of one place exchanged in one go: `times` of them, when so many rounds had been given out."""

    place: int
    times: int
    rounds: int


@dataclass(frozen=True)
class Stage:
    """All that happens at one level, from the largest to the units.

    For every place: end = start - rounds x sharers served with it - exchanged + 10 x exchanged one place up.
    before: the room before its first movement
    unfinished: whether some of the largest pieces that a round takes remain, too few for another round
    at_the_bank: whether it is a part of a stage (`parts`) in which pieces are exchanged and nothing else happens
    goes_on: whether it is a part of a stage after which more rounds are given out
    """

    level: int
    before: State
    steps: tuple[Step, ...]
    unfinished: bool
    at_the_bank: bool = False
    goes_on: bool = False

    @property
    def after(self) -> State:
        """The room after its last movement."""
        return self.steps[-1].after if self.steps else self.before

    @property
    def start(self) -> Counts:
        """What lies in the middle before it."""
        return self.before.middle

    @property
    def end(self) -> Counts:
        """What lies in the middle after it."""
        return self.after.middle

    @property
    def ends_the_sharing(self) -> bool:
        """Whether what then lies in the middle is left over."""
        return self.level == UNITS and not self.goes_on

    @property
    def rounds(self) -> int:
        return self.after.share[self.level] - self.before.share[self.level]

    @cached_property
    def exchanged(self) -> Counts:
        """How many pieces of each place go to the bank."""
        return _exchanged(self.steps, len(self.start))

    @property
    def movements(self) -> tuple[Step, ...]:
        """Its steps without the one that goes on to this level."""
        return tuple(step for step in self.steps if step.action is not Action.GO_ON)

    @property
    def trips(self) -> tuple[Trip, ...]:
        """The exchanges in order, also those that ribbons can need between two rounds."""
        exchanges = (step for step in self.steps if step.action is Action.EXCHANGE)
        times = Counter((step.place, step.after.share[self.level]) for step in exchanges)
        return tuple(Trip(place, times[place, rounds], rounds) for place, rounds in times)

    @cached_property
    def parts(self) -> tuple[Self, ...]:
        """The stage cut up: every trip to the bank, and the rounds before, between and after trips.

        Where rounds need more than _MOST_TRIPS_APART trips, all up to the last round is one part.
        """
        together = groupby(self.movements, key=lambda step: step.action is Action.EXCHANGE)
        groups = [tuple(group) for _, group in together]
        if not self.rounds and (not groups or _ends_at_the_bank(groups[0])):
            groups.insert(0, ())  # a part in which people see that no round can be given out
        later = [groups.pop()] if _ends_at_the_bank(groups[-1]) else []
        if sum(map(_ends_at_the_bank, groups)) > _MOST_TRIPS_APART:
            groups = [tuple(chain(*groups))]
        parts: list[Self] = []
        before, level = self.before, self.level
        for group in (*groups, *later):
            after = group[-1].after if group else before
            goes_on = after.share[level] < self.after.share[level]
            at_the_bank = _ends_at_the_bank(group) and after.share[level] == before.share[level]
            parts.append(replace(self, before=before, steps=group, at_the_bank=at_the_bank, goes_on=goes_on))
            before = after
        return tuple(parts)


def _ends_at_the_bank(steps: tuple[Step, ...]) -> bool:
    return bool(steps) and steps[-1].action is Action.EXCHANGE


@dataclass(frozen=True)
class Sharing:
    """One division, worked out. Counts hold every place of the dividend.

    look_first: no round is begun that cannot be finished; otherwise it is begun and taken back
    """

    dividend: int
    mat: Mat
    steps: tuple[Step, ...]
    look_first: bool = False

    @property
    def divisor(self) -> int:
        return self.mat.value

    @property
    def ribbons(self) -> bool:
        """Whether somebody stands for ten or more."""
        return self.mat.ribbons

    @property
    def sharers(self) -> int:
        """How many children sit on the mat; with ribbons fewer than the divisor says."""
        return self.mat.pieces

    @cached_property
    def start(self) -> Counts:
        """The number laid out in the middle."""
        return Counts.of(self.dividend)

    @property
    def beginning(self) -> State:
        """The room before the first movement."""
        return beginning(self.start, self.mat)

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

    @cached_property
    def exchanged(self) -> Counts:
        """How many pieces of each place go to the bank."""
        return _exchanged(self.steps, len(self.start))

    @property
    def places_of_the_bank(self) -> tuple[int, ...]:
        """The places of which the bank gains or gives pieces, largest first."""
        gains = self.exchanged.places_held
        return tuple(sorted({*gains, *(place - 1 for place in gains)}, reverse=True))

    @property
    def exchanges(self) -> int:
        return self.exchanged.pieces

    def steps_of(self, action: Action) -> list[Step]:
        """All steps in which the hands do one thing."""
        return [step for step in self.steps if step.action is action]

    @cached_property
    def stages(self) -> tuple[Stage, ...]:
        """One per level down to the units, also where no round can be dealt."""
        stages: list[Stage] = []
        before = self.beginning
        for level, group in groupby(self.steps, key=lambda step: step.after.level):
            steps = tuple(group)
            dealt = next((step.after for step in reversed(steps) if step.action is Action.DEAL), before)
            unfinished = dealt.middle.at(level + len(self.mat) - 1) > 0
            stages.append(Stage(level, before, steps, unfinished))
            before = steps[-1].after
        return tuple(stages)

    def to_share(self, state: State) -> int:
        """What is still to be shared: falls with every whole round, never with an exchange."""
        return self.dividend - self.divisor * state.share.value

    def trays(self, state: State) -> tuple[Tray, ...]:
        """Every tray, equal ones together, in the order of dealing."""
        ahead = first_served(self.mat, state.level, state.ahead)
        return every_tray(self.mat, state.share, *ahead)

    def out_of_the_bank(self, state: State) -> Counts:
        """The pieces in the middle and on all trays together."""
        out = list(state.middle)
        for tray in self.trays(state):
            for place, held in enumerate(tray.holds):
                out[place] += tray.sharers * held
        return Counts(out)

    def bank(self, state: State) -> Counts:
        """What the bank has gained since the number was laid out; below zero: given out."""
        return self.start.less(self.out_of_the_bank(state))

    @cached_property
    def pieces_needed(self) -> Counts:
        """The most pieces of each place that are out of the bank at one moment."""
        moments = (self.start, *(self.out_of_the_bank(step.after) for step in self.steps_of(Action.EXCHANGE)))
        return Counts(map(max, zip(*moments, strict=True)))

    @property
    def from_bank(self) -> Counts:
        """The most pieces of each place that come from the bank besides those laid out at the start."""
        return self.pieces_needed.less(self.start)

    @property
    def handlings(self) -> int:
        """Every piece that is moved, from laying out the number to setting aside what is left."""
        return self.start.pieces + sum(step.pieces for step in self.steps)


def _exchanged(steps: tuple[Step, ...], places: int) -> Counts:
    count = Counter(step.place for step in steps if step.action is Action.EXCHANGE)
    return Counts(count[place] for place in range(places))


def share(dividend: int, divisor: int, *, ribbons: bool = False, look_first: bool = False) -> Sharing:
    """Work out one division. With ribbons, every digit of the divisor is a group of sharers.

    With `look_first` no round is begun that cannot be finished, so that none has to be taken back.
    Raises SharingError for anything but a whole dividend >= 0 and a whole divisor >= 1.
    """
    refuse_unless_whole("dividend", dividend, least=0)
    refuse_unless_whole("divisor", divisor, least=1)
    mat = Mat.of_group(divisor, ribbons=ribbons)
    return Sharing(dividend, mat, deal(Counts.of(dividend), mat, look_first=look_first), look_first)


def refuse_unless_whole(name: str, number: object, least: int) -> None:
    """Raise SharingError for anything but a whole number that is not below `least`; `name` says what it is."""
    if isinstance(number, bool) or not isinstance(number, int):
        raise SharingError(f"the {name} is {number!r}: it must be a whole number")
    if number < least:
        raise SharingError(f"the {name} is {number}: it must be {least} or more")
