"""The room from movement to movement: what the hands do, and what lies where afterwards."""

from enum import StrEnum
from typing import NamedTuple

from generator.engine.places import Counts


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
