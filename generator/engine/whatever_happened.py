"""What makes the trays alike and the number whole again, told from what is read alone: whatever has happened.

What is read tells how many pieces of each place lie where they should not, also while the lesson goes on.
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
    """The fewest movements that make the trays alike and the number whole again, whatever has happened.

    Every tray should then hold its share, or, where that is fewer movements, what most hold so far: then the sharing
    goes on. Where one ribbon was given the pieces of a smaller one, its trays are filled like the others. Where pieces
    of several places are too many or too few in all or would have to be changed for first, or where it takes more than
    MOST_MOVEMENTS, it is shared out again, from the largest place of the number if pieces are too many or too few.
    """
    off_by = seen.off_by(sharing.dividend)
    if off_by == 0 and seen.sharers == sharing.sharers:
        for one in _may_hold(sharing, seen):
            if mixed_up := _ribbons_mixed_up(sharing, seen, one):
                return *mixed_up, *_share_on(sharing, one)
    plan = in_movements(sharing, seen, MOST_MOVEMENTS)
    if plan and len(places_not_shown(plan)) <= 1:
        return plan
    wrong = [_highest_wrong(tray.value, sharing.quotient * tray.stands_for) for tray in seen.trays]
    return (Again(max(*wrong, len(sharing.start) - 1 if off_by else UNITS)),)


def _ribbons_mixed_up(sharing: Sharing, seen: Observation, one: int) -> Repair:
    """What mends trays that stand before other children, or those of one ribbon with the pieces of a smaller one."""
    if trays := _before_another_child(sharing, seen, one):
        return (ChangePlaces(trays),)
    match [tray for tray in seen.trays if tray.value != one * tray.stands_for]:
        case [tray] if len(seen.trays) > 1 and tray.stands_for > 1 and tray.value in (one, TEN * one):
            return (Refill(tray, one * tray.stands_for),)
    return ()


def in_movements(sharing: Sharing, seen: Observation, most: int) -> Repair:
    """No more than so many movements after which all trays hold the same, and sharing on if that is less than a share.

    Nothing if it takes more.
    """
    off_by = seen.off_by(sharing.dividend)
    if off_by is None or seen.sharers != sharing.sharers:
        return ()
    plans = [(plan, one) for one in _may_hold(sharing, seen) if (plan := _all_alike(sharing, seen, one, off_by, most))]
    if not plans:
        return ()
    plan, one = min(plans, key=lambda found: (len(found[0]), not surely_there(found[0], seen)))
    return *plan, *_share_on(sharing, one)


def _may_hold(sharing: Sharing, seen: Observation) -> list[int]:
    """What a tray for one may be made to hold: its share, or what most hold so far."""
    return [sharing.quotient, *_held_so_far(seen.trays, sharing.quotient)]


def places_not_shown(repair: Repair) -> set[int]:
    """The places of which a movement takes more from a tray than its digit shows: others must be changed for them."""
    return {
        step.place
        for step in repair
        if isinstance(step, Movement) and step.giving
        if step.in_all // step.giving.sharers > Counts.of(step.giving.value).at(step.place)
    }


def surely_there(repair: Repair, seen: Observation) -> bool:
    """Whether the digits show all pieces that are taken, and none must be changed.

    Larger ones in the middle may have been changed already.
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
    """What is still to do when a tray for one holds `one`."""
    return () if one == sharing.quotient else (ShareOn(_highest_wrong(one, sharing.quotient)),)


def _before_another_child(sharing: Sharing, seen: Observation, one: int) -> int:
    """How many trays hold what another ribbon is due, where one is due `one` and all trays that are due are there."""
    due = Counter(one * 10**width for width in sharing.mat.widths for _ in range(sharing.mat[width]))
    if due != Counter(tray.value for tray in seen.trays for _ in range(tray.sharers)):
        return 0
    return sum(tray.sharers for tray in seen.trays if tray.value != one * tray.stands_for)


def _highest_wrong(value: int, right: int) -> int:
    """The highest place with another digit than it should have; the units if there is none."""
    digits, due = Counts.of(value), Counts.of(right)
    places = range(max(len(digits), len(due)))
    return max((place for place in places if digits.at(place) != due.at(place)), default=UNITS)


def _all_alike(sharing: Sharing, seen: Observation, one: int, off_by: int, most: int) -> Repair | None:
    """The easiest movements, no more than so many, after which a tray for one holds `one`, and the others accordingly.

    What differs is taken for as few pieces as can be, in the middle also for just those that the trays lack; or place
    by place (30 has a bar more than 21, and a bead less): the plan counts that moves the fewest pieces. The bank has no
    more to do than to change one for ten.
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
    """What is due, and what differs (ten beads where 20 are read in place of 19).

    As the digits of what is read say if that is not by one change.
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
    """What most trays hold, for one, of what is less than the share and at no place more; nothing if none does.

    Nor is it anything where as many hold their share.
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
