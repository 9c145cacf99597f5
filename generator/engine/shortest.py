"""The shortest way to put a room right, as few movements as there can be.

Among plans that are equally short the thrifty ones come first: the bank gives no more of a place than the whole room
lacks there, and takes no more than is too many; so does each tray for itself, and pieces may go by the middle. Among
these the first counts, compared movement by movement: the larger place first, then where the pieces come from and where
they go (floor, bank, left over, trays), then the fullest trays. So the steps that are worth trying are tried in this
order, and only while so few movements may still be enough.
"""

from collections import Counter
from collections.abc import Iterator
from functools import lru_cache
from typing import TypeAlias

from generator.engine.movements import TEN, At, Pile, PlannedMove, Repair, Room, room_after, told

MOST_MOVEMENTS = 4
"""What people can still follow in one go."""

_Kind: TypeAlias = tuple[At, int]
_ORDER = tuple(At)


@lru_cache(maxsize=4096)
def shortest(room: Room, most: int) -> Repair | None:
    """The first of the shortest plans; None where it takes more than so many movements."""
    for movements in range((_still_off(room) + 1) // 2, most + 1):
        plan = _plan(room, movements, thrifty=False)
        if plan is not None:
            return _plan(room, movements, thrifty=True) or plan
    return None


def _plan(room: Room, movements: int, thrifty: bool) -> Repair | None:
    """A plan of no more than so many movements; after each of them less must be off, or pieces lie in the middle."""
    still_off = _still_off(room)
    if not still_off:
        return ()
    for step in _steps(room, thrifty):
        after = room_after(room, step)
        most_off = still_off if thrifty and _is_by_the_middle(step) else still_off - 1
        if _still_off(after) <= min(most_off, 2 * (movements - 1)):  # one movement settles no more than two
            plan = _plan(after, movements - 1, thrifty)
            if plan is not None:
                return (told(room, step), *plan)
    return None


def _too_many(room: Room, place: int) -> int:
    """How many pieces of a place more than right there are in the whole room; below zero: fewer."""
    return sum(many * pile.off[place] for pile, many in room)


def _is_by_the_middle(step: PlannedMove) -> bool:
    """Whether pieces go to what is left over or come from there: on their way, it may be."""
    return step.target is not None and At.LEFT_OVER in (step.source.at, step.target.at)


def _still_off(room: Room) -> int:
    """At how many piles pieces of a place are off; trays for the same that are off alike there count once."""
    return len(
        {(pile.at, pile.stands_for, place, off) for pile, _ in room for place, off in enumerate(pile.off) if off}
    )


def _steps(room: Room, thrifty: bool) -> Iterator[PlannedMove]:
    """What may be done next in a shortest plan, in the order in which plans are compared.

    Pieces go from and to the bank, piles that are off at their place and, on their way, the middle. Trays that read the
    same as others and do not hold the same cannot be named by what they read: nothing is done with them.
    """
    piles = sorted((_ORDER.index(pile.at), -pile.reads, pile, many) for pile, many in room)
    alike = Counter((pile.at, pile.stands_for, reads) for _, reads, pile, _ in piles)
    named = [(pile, many) for _, reads, pile, many in piles if alike[pile.at, pile.stands_for, reads] == 1]
    on_the_way = {At.BANK, At.LEFT_OVER} if thrifty else {At.BANK}
    for place in reversed(range(len(named[0][0].off))):
        like: dict[_Kind, set[int]] = {}
        for pile, _ in room:
            like.setdefault((pile.at, pile.stands_for), {0}).add(pile.off[place])
        too_many = _too_many(room, place)
        targets = [(pile, many) for pile, many in named if pile.off[place] or pile.at in on_the_way]
        for source, sources in named:
            if source.off[place] or source.at in on_the_way:
                for target, many in targets:
                    for pieces in _worth_moving(source, sources, target, many, place, like, too_many, thrifty):
                        yield PlannedMove(source, target, place, pieces)
            if place and source.at in (At.LEFT_OVER, At.TRAY) and (source.off[place] or source.off[place - 1]):
                if source.holds(place):
                    yield PlannedMove(source, None, place, 1)
                if source.holds(place - 1) >= TEN:
                    yield PlannedMove(source, None, place - 1, TEN)


def _worth_moving(
    source: Pile,
    sources: int,
    target: Pile,
    targets: int,
    place: int,
    like: dict[_Kind, set[int]],
    too_many: int,
    thrifty: bool,
) -> list[int]:
    """So many pieces for each tray that the source or the target is right, or like other trays for the same.

    too_many    how many more than right there are in the whole room; below zero: fewer
    thrifty     only so many as a tray has too many or lacks, and the bank as the whole room
    """
    hands = max(sources, targets)
    if target.at is At.FLOOR or source == target or min(sources, targets) not in (1, hands):
        return []
    pieces: set[int] = set()
    most = source.holds(place) * sources // hands
    for pile, each, way in ((source, hands // sources, 1), (target, hands // targets, -1)):
        if pile.at is not At.BANK:
            moved = [way * (pile.off[place] - off) for off in like[pile.at, pile.stands_for]]
            pieces.update([more // each for more in moved if more > 0 and more % each == 0])
        if thrifty and pile.at is At.TRAY:
            most = min(most, way * pile.off[place] // each)
        if thrifty and pile.at is At.BANK:
            most = min(most, -way * too_many // hands)
    if thrifty and {source.at, target.at} == {At.BANK, At.LEFT_OVER}:
        pieces.add(most)
    return sorted([more for more in pieces if 0 < more <= most])
