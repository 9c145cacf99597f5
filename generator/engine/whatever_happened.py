"""A repair worked out from what is read alone, whatever has happened: trays are alike and the number whole again.

The readings say how many pieces of each place are too many or too few at each pile, also while a lesson still goes on.
"""

from collections import Counter
from collections.abc import Iterable
from functools import partial
from operator import add

from generator.engine.observations import Observation, Reading
from generator.engine.places import UNITS, Counts
from generator.engine.repair_movements import (
    TEN,
    Again,
    At,
    ChangePlaces,
    Exchange,
    Movement,
    Pile,
    Refill,
    Repair,
    ShareOn,
    room_of,
)
from generator.engine.sharing import Sharing
from generator.engine.shortest import MOST_MOVEMENTS, shortest


def by_what_is_seen(sharing: Sharing, seen: Observation) -> Repair:
    """The fewest movements that make the trays alike and the number whole again.

    Afterwards every tray holds its share or, if that takes fewer movements, what most hold so far: then the sharing
    goes on. Trays with the pieces of a smaller ribbon are emptied and filled again. All is shared out again if the plan
    takes more than MOST_MOVEMENTS, or if pieces of several places are off in all or must be changed first; from the
    largest place of the number if the total is off.
    """
    off_by = seen.off_by(sharing.dividend)
    if off_by == 0 and seen.sharers == sharing.sharers:
        for one in _may_hold(sharing, seen):
            if mixed_up := _ribbons_mixed_up(sharing, seen, one):
                return *mixed_up, *_share_on(sharing, one)
    plan = trays_made_alike(sharing, seen, MOST_MOVEMENTS)
    if plan and len(places_not_shown(plan)) <= 1:
        return plan
    wrong = [_highest_wrong(tray.value, sharing.quotient * tray.stands_for) for tray in seen.trays]
    return (Again(max(*wrong, len(sharing.start) - 1 if off_by else UNITS)),)


def _ribbons_mixed_up(sharing: Sharing, seen: Observation, one: int) -> Repair:
    """What mends trays before the wrong children, or with the pieces of a smaller ribbon; () where neither is so."""
    if trays := _before_another_child(sharing, seen, one):
        return (ChangePlaces(trays),)
    match [tray for tray in seen.trays if tray.value != one * tray.stands_for]:
        case [tray] if len(seen.trays) > 1 and tray.stands_for > 1 and tray.value in (one, TEN * one):
            return (Refill(tray, one * tray.stands_for),)
    return ()


def trays_made_alike(sharing: Sharing, seen: Observation, most: int) -> Repair:
    """At most `most` movements to make trays alike, then ShareOn if they hold less than a share; () if more."""
    off_by = seen.off_by(sharing.dividend)
    if off_by is None or seen.sharers != sharing.sharers:
        return ()
    plans = [(plan, one) for one in _may_hold(sharing, seen) if (plan := _plan_for(sharing, seen, one, off_by, most))]
    if not plans:
        return ()
    plan, one = min(plans, key=lambda found: (len(found[0]), not surely_there(found[0], seen)))
    return *plan, *_share_on(sharing, one)


def _may_hold(sharing: Sharing, seen: Observation) -> list[int]:
    """What a tray for one may be made to hold: its share or, if it can be told, what most trays hold so far."""
    return [sharing.quotient, *_held_so_far(seen.trays, sharing.quotient)]


def places_not_shown(repair: Repair) -> set[int]:
    """The places of which a movement takes more from a tray than its digit: larger pieces must be changed first."""
    return {
        step.place
        for step in repair
        if isinstance(step, Movement) and step.giving
        if step.in_all // step.giving.sharers > Counts.of(step.giving.value).at(step.place)
    }


def surely_there(repair: Repair, seen: Observation) -> bool:
    """Whether every piece that is taken must be there, going by the digits.

    Of the middle that is sure of unit beads alone: larger pieces may have been exchanged already.
    """
    if places_not_shown(repair):
        return False
    units = Counts.of(seen.left or 0).at(UNITS)
    for step in repair:
        if isinstance(step, Exchange | Refill):
            return False
        if not isinstance(step, Movement):
            continue
        if step.place == UNITS:
            units += step.in_all * ((step.target is At.LEFT_OVER) - (step.source is At.LEFT_OVER))
        if units < 0 or (step.place > UNITS and step.source is At.LEFT_OVER):
            return False
    return True


def _share_on(sharing: Sharing, one: int) -> Repair:
    """ShareOn when a tray for one holds `one`; () when that is its share."""
    return () if one == sharing.quotient else (ShareOn(_highest_wrong(one, sharing.quotient)),)


def _before_another_child(sharing: Sharing, seen: Observation, one: int) -> int:
    """How many trays stand before the wrong child, if together they hold just what all are due; otherwise 0.

    one    what a tray for one is due
    """
    due = Counter(one * 10**width for width in sharing.mat.widths for _ in range(sharing.mat[width]))
    if due != Counter(tray.value for tray in seen.trays for _ in range(tray.sharers)):
        return 0
    return sum(tray.sharers for tray in seen.trays if tray.value != one * tray.stands_for)


def _highest_wrong(value: int, right: int) -> int:
    """The highest place at which two numbers have different digits; the units if there is none."""
    digits, due = Counts.of(value), Counts.of(right)
    places = range(max(len(digits), len(due)))
    return max((place for place in places if digits.at(place) != due.at(place)), default=UNITS)


def _plan_for(sharing: Sharing, seen: Observation, one: int, off_by: int, most: int) -> Repair | None:
    """At most `most` movements after which a tray for one holds `one`, others their multiple; None if it takes more.

    A difference in value may be read as pieces in three ways: as few pieces as possible; the same, but in the middle
    just what trays lack; digit by digit (30 has a bar more than 21, and a bead less). The plan that moves the fewest
    pieces is taken. Ways in which the bank would do more than change one for ten are left out.
    """
    if len(Counts.of(abs(off_by)).places_held) > 1:
        return None
    there = [Reading(seen.left or 0, 1), *seen.trays]
    due = [sharing.dividend - one * sharing.divisor, *(one * tray.stands_for for tray in seen.trays)]
    size = len(Counts.of(max(sharing.dividend, abs(off_by), *(pile.value for pile in there))))
    digits = partial(_pieces_of, size=size)
    in_all = [digits(pile.value - right) for pile, right in zip(there, due, strict=True)]
    by_place = [digits(pile.value).less(digits(right)) for pile, right in zip(there, due, strict=True)]
    lacking = digits(off_by)
    for tray, off in zip(there[1:], in_all[1:], strict=True):
        lacking = lacking.less(Counts(tray.sharers * pieces for pieces in off))
    plans: list[Repair | None] = []
    for differs in ([lacking, *in_all[1:]], in_all, by_place):
        left, *trays = zip(there, due, differs, strict=True)
        on_trays = ((_pile(At.TRAY, *tray), tray[0].sharers) for tray in trays)
        room = room_of(digits(0), _pile(At.LEFT_OVER, *left), on_trays)
        of_each = (sum(many * pile.off[place] for pile, many in room) for place in range(size))
        if sum(map(abs, of_each)) <= TEN + 1:
            plans.append(shortest(room, most))
    return min(filter(None, plans), key=_pieces_moved, default=None)


def _pile(at: At, read: Reading, due: int, off: Counts) -> Pile:
    """A pile with what is due and `off` (ten beads, where 20 is read in place of 19).

    Where that is more than one exchange away from plain digits, it holds the digits of what is read.
    """
    size = len(off)
    right = _pieces_of(due, size)
    if not all(0 <= pieces < 2 * TEN for pieces in map(add, right, off)):
        right = _pieces_of(read.value, size).less(off)
    return Pile(at, right, off, read.stands_for)


def _pieces_moved(plan: Repair) -> int:
    """How many pieces change their place, at all trays together; an exchange is one for ten."""
    return sum(step.in_all if isinstance(step, Movement) else TEN + 1 for step in plan)


def _pieces_of(number: int, size: int) -> Counts:
    """A number as pieces of so many places; below zero, as many pieces fewer."""
    sign = 1 if number > 0 else -1
    return Counts(sign * pieces for pieces in Counts.of(abs(number)).with_places(size))


def _held_so_far(trays: Iterable[Reading], share: int) -> list[int]:
    """What most trays hold so far, for one: less than the share, and at no place more. At most one number.

    [] also if as many trays hold their whole share.
    """
    due = Counts.of(share)
    sharers: Counter[int] = Counter()
    for tray in trays:
        sharers[tray.value // tray.stands_for] += tray.sharers
    held = [
        one
        for one in sharers
        if one < share
        and sharers[one] > sharers[share]
        and all(due.at(place) >= pieces for place, pieces in enumerate(Counts.of(one)))
    ]
    return sorted(held, key=lambda one: (-sharers[one], one))[:1]
