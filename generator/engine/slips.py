"""The slips that are followed, when they happen, and what one leaves behind."""

from enum import StrEnum
from typing import NamedTuple

from generator.engine.observations import Observation, Reading, beads_on
from generator.engine.places import Counts
from generator.engine.trays import Tray


class Slip(StrEnum):
    """Every slip, the likeliest first: common practice, no source. The first two need ribbons."""

    BIG_TRAY_READ = "big-tray-read"
    SAME_KIND = "ribbon-given-same-kind"
    LEFT_OVER_DEALT = "left-over-dealt"
    NOT_TAKEN_BACK = "round-not-taken-back"
    SKIPPED = "child-skipped"
    BANK_NINE = "bank-counts-nine"
    BANK_ELEVEN = "bank-counts-eleven"
    DEALT_TWICE = "child-dealt-twice"
    NONE_OF_A_PLACE = "none-of-a-place"
    ZERO_FORGOTTEN = "zero-forgotten"
    NOT_BANKED = "piece-not-banked"
    ROLLED_AWAY = "piece-rolled-away"
    LAID_FEW = "laid-out-too-few"
    LAID_MANY = "laid-out-too-many"
    TRAY_FEW = "tray-too-few"
    TRAY_MANY = "tray-too-many"
    SWAPPED = "cards-swapped"
    WRONG_KIND = "bank-wrong-kind"


class Spot(StrEnum):
    """Where a piece was lost or ended up, whose cards are not right, which trays are read."""

    MIDDLE = "middle"
    LEFT_OVER = "left-over"
    ONE_TRAY = "one-tray"
    EVERY_TRAY = "every-tray"
    EVERY_CHILD = "every-child"


class Occasion(NamedTuple):
    """One slip, and where and when it happens.

    place   of the pieces the bank should count out, of the piece not banked, dealt, kept, laid or lost, or the
            larger place of the cards; for a round, what a sharer who stands for one is dealt; None: every place
    turn    which exchange from the place above (for a piece not banked: from its place) or which round, from 1;
            0 where there is none
    other   the kind that came from the bank or went to a ribbon, the smaller of two places swapped, or the power of
            ten that the tray stands for which was read as the answer, or was passed over or given the same kind in
            every round
    many    how many trays kept a piece, how many pieces a tray lacks, how many zeros were forgotten; otherwise 1
    spot    for a piece not banked or rolled away, for cards, and for the number of trays; where the pieces of a tray
            passed over lie (None: dealing goes on with them); whether one ribbon or every was forgotten (None: one,
            in every round)
    """

    slip: Slip
    place: int | None
    turn: int = 0
    other: int | None = None
    many: int = 1
    spot: Spot | None = None


class Outcome(NamedTuple):
    """The room at the close after one slip.

    trays   what lies on them, in the order of dealing; within one kind, who has more comes first
    left    the pieces left over in the middle
    read    what is read at the close where it is not simply what lies on the trays; otherwise empty
    """

    occasion: Occasion
    trays: tuple[Tray, ...]
    left: Counts
    read: tuple[Reading, ...] = ()

    @property
    def seen(self) -> Observation:
        return Observation(self.read or beads_on(self.trays), self.left.value)
