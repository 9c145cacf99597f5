"""What a figure of a lesson shows, worked out from the engine; how large and where is not known here."""

from typing import NamedTuple

from generator.engine.places import UNITS, Counts, Mat
from generator.engine.sharing import Sharing, Stage

_FEWEST_PLACES = 2  # the words of a figure need the room of two columns


class Slot(NamedTuple):
    """One place of the middle. `before` and `after` are its counts; the other numbers say how its pieces are drawn.

    came: have just come from the bank
    stayed: lay there before
    gone: given out or carried to the bank
    left: left over, in the dish
    """

    before: int
    after: int
    came: int = 0
    stayed: int = 0
    gone: int = 0
    left: int = 0


class Scene(NamedTuple):
    """One figure of a lesson. Tuples by place begin with the units.

    stage: the place, or the part of it, that is shown; at the beginning and at the end one without a movement
    known_from: the lowest place of the share whose digit is shown
    active: the places at work; a tray is given pieces of the stage's level and as many places higher as its ribbon says
    given: by place, how many pieces went to each tray that is given any
    new: what has just come of the share of one who stands for one
    ready: the pieces that the bank must have ready
    laid_out: whether nothing has been given out yet: cards lie above the pieces
    """

    middle: tuple[Slot, ...]
    stage: Stage
    known_from: int = UNITS
    active: tuple[int, ...] = ()
    given: Counts = Counts()
    new: Counts = Counts()
    ready: Counts = Counts()
    laid_out: bool = False


class Frame(NamedTuple):
    """What all figures of one lesson have in common, so that nothing jumps from one to the next.

    places: how many place columns there are
    most: by place, the most that ever lie in the middle or have gone from it, with rows of ten kept apart
    on_a_tray: by place, the most that a tray ever holds
    left: by place, what is left over at the end
    mat: how many children stand for 1, 10, 100
    trays: the power of ten that each tray stands for, in the order of giving
    exchanges: at how many places at most one figure shows exchanges
    """

    places: int
    most: Counts
    on_a_tray: Counts
    left: Counts
    mat: Mat
    trays: tuple[int, ...]
    exchanges: int


def frame_of(sharing: Sharing) -> Frame:
    """The frame of a lesson's figures; the number has no place beyond the thousands."""
    by_place = zip(*map(_slots, sharing.stages), strict=True)
    held = (tray.holds for tray in sharing.trays(sharing.end))
    return Frame(
        places=max(len(sharing.start), _FEWEST_PLACES),
        most=Counts(max(map(_lattice_room, slots)) for slots in by_place),
        on_a_tray=Counts(map(max, zip(*held, strict=True))),
        left=sharing.end.middle,
        mat=sharing.mat,
        trays=tuple(width for width in sharing.mat.widths for _ in range(sharing.mat[width])),
        exchanges=max(len(stage.exchanged.places_held) for stage in sharing.stages),
    )


def start_scene(sharing: Sharing) -> Scene:
    """The number laid out, the trays still empty, the bank ready."""
    return Scene(
        middle=tuple(Slot(count, count, came=count) for count in sharing.start),
        stage=Stage(UNITS, sharing.beginning, (), unfinished=False),
        ready=sharing.from_bank,
        laid_out=True,
    )


def stage_scene(sharing: Sharing, stage: Stage) -> Scene:
    """One place, or a part of it: what is given out and exchanged, and the room when it ends."""
    level, places = stage.level, range(len(stage.start))
    begun = stage.after.share[level] or not stage.goes_on
    active = tuple(level + width for width in sharing.mat.widths if level + width < len(places))
    return Scene(
        middle=_slots(stage),
        stage=stage,
        known_from=level if begun else level + 1,
        active=active,
        given=Counts(stage.rounds if place in active else 0 for place in places),
        new=Counts(stage.rounds if place == level else 0 for place in places),
    )


def end_scene(sharing: Sharing) -> Scene:
    """The full trays, and what is left over in the dish. If nothing is exchanged, also all that was given out."""
    share, left = sharing.end.share, sharing.end.middle
    shown = left if sharing.exchanges else sharing.start
    return Scene(
        middle=tuple(Slot(lay, rest, gone=lay - rest, left=rest) for lay, rest in zip(shown, left, strict=True)),
        stage=Stage(UNITS, sharing.end, (), unfinished=False),
        given=Counts() if sharing.exchanges or sharing.ribbons else share,
        new=share,
    )


def _slots(stage: Stage) -> tuple[Slot, ...]:
    """The middle at a place of the answer: the pieces that were there go first, then those that came."""
    slots: list[Slot] = []
    for place, (before, after) in enumerate(zip(stage.start, stage.end, strict=True)):
        came = 10 * stage.exchanged.at(place + 1)
        gone = before + came - after
        left = after if stage.ends_the_sharing else 0
        stayed = max(0, before - gone - left)
        slots.append(Slot(before, after, after - stayed - left, stayed, gone, left))
    return tuple(slots)


def _lattice_room(slot: Slot) -> int:
    """How many spots of a lattice a slot takes, with what stayed in a new row of ten."""
    return next_row_of_ten(slot.came) + slot.stayed + slot.gone if slot.stayed else slot.came + slot.gone


def next_row_of_ten(count: int) -> int:
    """The first spot of the next row of ten: `count` rounded up to tens."""
    return -(-count // 10) * 10
