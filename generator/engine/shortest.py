"""The shortest way to put a room right, as few movements as there can be.

Among plans that are equally short the thrifty ones come first: the bank gives no more of a place than the whole room
lacks there, and takes no more than is too many; so does each tray for itself, and pieces may go by the middle. Among
these the first counts, compared movement by movement: the larger place first, then where the pieces come from and where
they go (floor, bank, left over, trays), then the fullest trays. So the steps that are worth trying are tried in this
order, and only while so few movements may still be enough.
"""

from collections import Counter
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import TypeAlias

from generator.engine.repair_movements import TEN, At, Exchange, Movement, Piles, Repair, Room, exchanged, moved

MOST_MOVEMENTS = 4
"""What people can still follow in one go."""

# For each kind of pile, by how much its piles are off at one place; 0 is always among them.
_Off: TypeAlias = Mapping[tuple[At, int], set[int]]
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
    for step, after in _steps(room, thrifty):
        most_off = still_off if thrifty and _is_by_the_middle(step) else still_off - 1
        if _still_off(after) <= min(most_off, 2 * (movements - 1)):  # one movement settles no more than two
            plan = _plan(after, movements - 1, thrifty)
            if plan is not None:
                return (step, *plan)
    return None


def _is_by_the_middle(step: Movement | Exchange) -> bool:
    """Whether pieces go to what is left over or come from there, perhaps on their way between two trays."""
    return isinstance(step, Movement) and At.LEFT_OVER in (step.source, step.target)


def _still_off(room: Room) -> int:
    """At how many piles pieces of a place are off; trays for the same that are off alike there count once."""
    return len(
        {(pile.at, pile.stands_for, place, off) for pile, _ in room for place, off in enumerate(pile.off) if off}
    )


def _steps(room: Room, thrifty: bool) -> Iterator[tuple[Movement | Exchange, Room]]:
    """What may be done next in a shortest plan, and the room after it, in the order in which plans are compared."""
    piles = _named(room)
    on_the_way = {At.BANK, At.LEFT_OVER} if thrifty else {At.BANK}
    for place in reversed(range(len(piles[0][0].off))):
        too_many = sum(many * pile.off[place] for pile, many in room) if thrifty else None
        off: dict[tuple[At, int], set[int]] = {}
        for pile, _ in room:
            off.setdefault((pile.at, pile.stands_for), {0}).add(pile.off[place])
        ends = [one for one in piles if one[0].off[place] or one[0].at in on_the_way]
        for source in piles:
            for target in ends if source in ends else ():
                for pieces in _worth_moving(source, target, place, off, too_many):
                    yield moved(room, source, target, place, pieces)
            for changed, pieces in _worth_exchanging(source, place):
                yield exchanged(room, source, changed, pieces)


def _named(room: Room) -> list[Piles]:
    """The piles in the order of preference: floor, bank, left over, trays, of these the fullest first.

    Left out are trays that read the same as others and hold something else, because words cannot tell them apart.
    """
    piles = sorted((_ORDER.index(pile.at), -pile.reads, pile, many) for pile, many in room)
    alike = Counter((pile.at, pile.stands_for, reads) for _, reads, pile, _ in piles)
    return [(pile, many) for _, reads, pile, many in piles if alike[pile.at, pile.stands_for, reads] == 1]


def _worth_exchanging(source: Piles, place: int) -> Iterator[tuple[int, int]]:
    """Exchanges of one piece of a place, or of ten of the next smaller, if either is off: the place and 1 or 10."""
    pile, _ = source
    if place and pile.at in (At.LEFT_OVER, At.TRAY) and (pile.off[place] or pile.off[place - 1]):
        if pile.holds(place):
            yield place, 1
        if pile.holds(place - 1) >= TEN:
            yield place - 1, TEN


def _worth_moving(source: Piles, target: Piles, place: int, off: _Off, too_many: int | None) -> list[int]:
    """How many pieces to move, ascending: as many as make source or target right, or like other trays of its kind.

    too_many    for a thrifty plan, how many more than right the whole room has (below zero: fewer): then a tray gives
                or takes no more than it is off, and the bank no more than the room is off
    """
    (giver, givers), (taker, takers) = source, target
    hands = max(givers, takers)
    if taker.at is At.FLOOR or source == target or min(givers, takers) not in (1, hands):
        return []
    pieces: set[int] = set()
    most = giver.holds(place) * givers // hands
    for pile, each, way in ((giver, hands // givers, 1), (taker, hands // takers, -1)):
        more = [way * (pile.off[place] - others) for others in off[pile.at, pile.stands_for]]
        pieces.update([one // each for one in more if one > 0 and one % each == 0])
        if too_many is not None and pile.at is At.TRAY:
            most = min(most, way * pile.off[place] // each)
        if too_many is not None and pile.at is At.BANK:
            most = min(most, -way * too_many // hands)
    if too_many is not None and {giver.at, taker.at} == {At.BANK, At.LEFT_OVER}:
        pieces.add(most)
    return sorted([more for more in pieces if 0 < more <= most])
