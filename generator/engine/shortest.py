"""The shortest way to put a room right, as few movements as there can be.

Among plans that are equally short those come first in which the bank is thrifty: it gives no more of a place than the
whole room lacks there, and takes no more than is too many. Among these the first counts, compared movement by movement:
the larger place first, then where the pieces come from and where they go (floor, bank, left over, trays), then the
fullest trays. So the steps that are worth trying are tried in this order, and only while so few movements may still be
enough.
"""

from collections import Counter
from collections.abc import Iterator
from functools import lru_cache
from typing import TypeAlias

from generator.engine.movements import TEN, At, Pile, PlannedMove, Repair, Room, room_after, told

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
    """A plan of no more than so many movements; after each of them less must be off, or the bank done at a place."""
    still_off = _still_off(room)
    if not still_off:
        return ()
    for step in _steps(room, thrifty):
        after = room_after(room, step)
        most_off = still_off if thrifty and _bank_is_done(room, step) else still_off - 1
        if _still_off(after) <= min(most_off, 2 * (movements - 1)):  # one movement settles no more than two
            plan = _plan(after, movements - 1, thrifty)
            if plan is not None:
                return (told(room, step), *plan)
    return None


def _too_many(room: Room, place: int) -> int:
    """How many pieces of a place more than right there are in the whole room; below zero: fewer."""
    return sum(many * pile.off[place] for pile, many in room)


def _bank_is_done(room: Room, step: PlannedMove) -> bool:
    """Whether what is left over takes from the bank all that the whole room lacks of a place, or gives it all back."""
    ends = {step.source.at, step.target.at} if step.target else set()
    return ends == {At.BANK, At.LEFT_OVER} and step.pieces == abs(_too_many(room, step.place))


def _still_off(room: Room) -> int:
    """At how many piles pieces of a place are off; trays for the same that are off alike there count once."""
    return len(
        {(pile.at, pile.stands_for, place, off) for pile, _ in room for place, off in enumerate(pile.off) if off}
    )


def _steps(room: Room, thrifty: bool) -> Iterator[PlannedMove]:
    """What may be done next in a shortest plan, in the order in which plans are compared.

    Pieces go from and to the bank and piles that are off at their place. Trays that read the same as others and do not
    hold the same cannot be named by what they read: nothing is done with them.
    """
    piles = sorted((_ORDER.index(pile.at), -pile.reads, pile, many) for pile, many in room)
    alike = Counter((pile.at, pile.stands_for, reads) for _, reads, pile, _ in piles)
    named = [(pile, many) for _, reads, pile, many in piles if alike[pile.at, pile.stands_for, reads] == 1]
    for place in reversed(range(len(named[0][0].off))):
        off = [(pile, many) for pile, many in named if pile.off[place] or pile.at is At.BANK]
        like: dict[_Kind, set[int]] = {}
        for pile, _ in room:
            like.setdefault((pile.at, pile.stands_for), {0}).add(pile.off[place])
        too_many = _too_many(room, place)
        for source, sources in named:
            if source.off[place] or source.at is At.BANK:
                for target, targets in off:
                    worth_moving = _worth_moving(source, sources, target, targets, place, like)
                    if thrifty and At.BANK in (source.at, target.at):
                        trays = max(sources, targets)
                        worth_moving = _thrifty(worth_moving, source, target, trays, place, too_many)
                    for pieces in worth_moving:
                        yield PlannedMove(source, target, place, pieces)
            if place and source.at in (At.LEFT_OVER, At.TRAY) and (source.off[place] or source.off[place - 1]):
                if source.holds(place):
                    yield PlannedMove(source, None, place, 1)
                if source.holds(place - 1) >= TEN:
                    yield PlannedMove(source, None, place - 1, TEN)


def _worth_moving(
    source: Pile, sources: int, target: Pile, targets: int, place: int, like: dict[_Kind, set[int]]
) -> list[int]:
    """So many pieces for each tray that the source or the target is right, or like other trays for the same."""
    trays = max(sources, targets)
    if target.at is At.FLOOR or source == target or (source.at is target.at and sources != targets):
        return []
    there = source.holds(place) * sources
    pieces: set[int] = set()
    for pile, way in ((source, 1), (target, -1)):
        if pile.at is not At.BANK:
            many = 1 if pile.at is At.TRAY else trays
            moved = (way * (pile.off[place] - off) for off in like[pile.at, pile.stands_for])
            pieces.update(more // many for more in moved if more > 0 and more % many == 0)
    return sorted(more for more in pieces if more * trays <= there)


def _thrifty(pieces: list[int], source: Pile, target: Pile, trays: int, place: int, too_many: int) -> list[int]:
    """Of so many pieces from or to the bank those that the whole room lacks or has too many; to or from left over all.

    too_many    how many more than right there are in the whole room; below zero: fewer
    """
    most = -too_many if source.at is At.BANK else too_many
    thrifty = {more for more in pieces if more * trays <= most}
    if At.LEFT_OVER in (source.at, target.at) and 0 < most <= source.holds(place):
        thrifty.add(most)
    return sorted(thrifty)
