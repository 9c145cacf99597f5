"""The shortest way to put a room right, as few movements as there can be.

Among plans that are equally short those come first in which the bank is thrifty: it gives no more of a place than the
whole room lacks there, and takes no more than is too many. Among these the first counts, compared movement by movement:
the larger place first, then where the pieces come from and where they go (floor, bank, left over, trays), then the
fullest trays. So the steps that are worth trying are tried in this order, and only while so few movements may still be
enough.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import lru_cache
from typing import TypeAlias

from generator.engine.movements import TEN, At, Pile, PlannedMove, Repair, Room, room_after, told

_Kind: TypeAlias = tuple[At, int]
_Column: TypeAlias = frozenset[tuple[tuple[_Kind, int], int]]
_ORDER = tuple(At)


@lru_cache(maxsize=4096)
def shortest(room: Room, most: int) -> Repair | None:
    """The first of the shortest plans; None where it takes more than so many movements."""
    for movements in range(_least(room), most + 1):
        plan = _plan(room, movements, thrifty=False)
        if plan is not None:
            return _plan(room, movements, thrifty=True) or plan
    return None


def _plan(room: Room, movements: int, thrifty: bool) -> Repair | None:
    """A plan of no more than so many movements; after each of them less must be off, or the bank done at a place."""
    if not any(any(pile.off) for pile, _ in room):
        return ()
    still_off = _still_off(room)
    for step in _steps(room, thrifty):
        after = room_after(room, step)
        most_off = still_off if thrifty and _bank_is_done(room, step) else still_off - 1
        if _still_off(after) <= most_off and _least(after) < movements:
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
    """At how many piles pieces of a place are off."""
    return sum(map(len, _columns(room)))


def _least(room: Room) -> int:
    """Fewer movements than this cannot put a room right.

    At one place every pile that is off needs a movement of its own, but for piles that settle with each other; an
    exchange may be one movement fewer for two places.
    """
    columns = _columns(room)
    needed = [_needed(column) for column in columns]
    saved = [
        min(needed[place - 1 : place + 1])
        for place in range(1, len(columns))
        if columns[place] and columns[place - 1] and _exchange_helps(room, place)
    ]
    if saved:
        return max((sum(map(len, columns)) + 1) // 2, sum(needed) - sum(saved))
    return sum(needed)


def _columns(room: Room) -> list[_Column]:
    """What is off, place by place; trays for the same that are off alike at a place are together there."""
    columns: list[dict[tuple[_Kind, int], int]] = [{} for _ in next(iter(room))[0].off]
    for pile, many in room:
        if any(pile.off):
            kind = (pile.at, pile.stands_for)
            for column, off in zip(columns, pile.off, strict=True):
                if off:
                    column[kind, off] = column.get((kind, off), 0) + many
    return [frozenset(column.items()) for column in columns]


@lru_cache(maxsize=4096)
def _needed(column: _Column) -> int:
    """One movement for each pile, or for two of them where some may settle with each other."""
    like: dict[_Kind, set[int]] = {}
    for (kind, off), _ in column:
        like.setdefault(kind, {0}).add(off)
    sums = {(0, 0)}
    for (kind, off), many in column:
        moved = {many * (off - other) for other in like[kind] - {off}}
        sums |= {(total + more, 1) for total, _ in sums for more in moved}
    return len(column) - (len(column) // 2 if (0, 1) in sums else 0)


def _exchange_helps(room: Room, place: int) -> bool:
    """Whether an exchange between a place and the next smaller one may save a movement.

    It does so only at a pile that settles both places without a movement from or to the bank.
    """
    return any(
        _settles(room, pile, many, place, -way) and _settles(room, pile, many, place - 1, TEN * way)
        for pile, many in room
        if pile.at in (At.LEFT_OVER, At.TRAY)
        for way in (1, -1)
    )


def _settles(room: Room, pile: Pile, many: int, place: int, more: int) -> bool:
    """Whether what is off after an exchange, and perhaps one at the next place, may be settled with other piles."""
    others = [(other, number) for other, number in room if other != pile]
    like = {0} | {other.off[place] for other, _ in others}
    sums = _sums(frozenset((other.off[place], number) for other, number in others if other.off[place]), frozenset(like))
    return any(
        many * (other - pile.off[place] - more - beside) in sums for beside in (-TEN, -1, 0, 1, TEN) for other in like
    )


@lru_cache(maxsize=4096)
def _sums(others: frozenset[tuple[int, int]], like: frozenset[int]) -> frozenset[int]:
    """What others may give or take together, each until it is right or like another."""
    sums = {0}
    for off, many in others:
        sums |= {total + many * (off - other) for total in sums for other in like}
    return frozenset(sums)


def _steps(room: Room, thrifty: bool) -> Iterator[PlannedMove]:
    """What may be done next in a shortest plan, in the order in which plans are compared.

    Pieces go from and to the bank and piles that are off at their place. Trays that read the same as others and do not
    hold the same cannot be named by what they read: nothing is done with them.
    """
    read = Counter((pile.at, pile.stands_for, pile.reads) for pile, _ in room)
    piles = sorted(room, key=lambda one: (_ORDER.index(one[0].at), -one[0].reads, one[0]))
    named = [one for one in piles if read[one[0].at, one[0].stands_for, one[0].reads] == 1]
    for place in reversed(range(len(piles[0][0].off))):
        off = [(pile, many) for pile, many in named if pile.off[place] or pile.at is At.BANK]
        like: dict[_Kind, set[int]] = {}
        for pile, _ in piles:
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
