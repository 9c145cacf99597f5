"""What puts a room right again after a slip: the fewest movements, or sharing out again from one place down.

A repair leads from what a slip left behind (`Outcome`) to the end of the right sharing: the right pieces on every
tray and left over, nothing on the floor, and so a whole bank.

Where more than MOST_MOVEMENTS are needed, first the pieces that are too many or too few are put right, and then the
highest place that is not right on the trays and all below it is shared out again. After a tray too many or too few
that is always so: the right trays are set down, and the largest pieces are where it begins.

Where no single slip explains what is seen, what is read tells how many pieces of each place lie where they should not
(`by_what_is_seen`), also while the lesson goes on.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from functools import partial

from generator.engine.movements import (
    TEN,
    Again,
    At,
    ChangePlaces,
    Movement,
    Pile,
    Repair,
    Room,
    ShareOn,
    together,
)
from generator.engine.observations import Observation, Reading
from generator.engine.places import UNITS, Counts
from generator.engine.sharing import Sharing
from generator.engine.shortest import shortest
from generator.engine.slips import Occasion, Outcome, Slip

MOST_MOVEMENTS = 4
_PLENTY = 10**6


def repair(sharing: Sharing, outcome: Outcome) -> Repair:
    """The movements that put right what a slip left behind; none where all pieces lie right, as with cards."""
    if outcome.occasion.slip in (Slip.TRAY_FEW, Slip.TRAY_MANY):
        return _with_the_right_trays(sharing, outcome)
    room = _left_behind(sharing, outcome)
    plan = shortest(room, MOST_MOVEMENTS)
    return _from_one_place_down(room, outcome.occasion) if plan is None else plan


def easier(sharing: Sharing, outcome: Outcome, fewest: Repair) -> Repair | None:
    """Sharing out again from one place down, where children could not follow the fewest movements.

    That is where trays give pieces of several places to the bank or get them from there: eight bars for five unit beads
    are no exchange that they know. Where a round that did not go round lies on trays, it comes back, and they share on.
    """
    movements = [step for step in fewest if isinstance(step, Movement) and (step.giving or step.taking)]
    told = fewest
    if len({step.place for step in movements}) > 1 and any(At.BANK in (m.source, m.target) for m in movements):
        told = _from_one_place_down(_left_behind(sharing, outcome), outcome.occasion)
    if any(isinstance(step, Again) for step in told):
        told = _back_and_on(sharing, outcome) or told
    return None if told is fewest else told


def _back_and_on(sharing: Sharing, outcome: Outcome) -> Repair | None:
    """The one movement to the middle after which all trays have as much and the sharing goes on, if there is one."""
    seen = outcome.seen
    is_as_read = all(pieces < TEN for tray in outcome.trays for pieces in tray.holds)
    if sharing.ribbons or not is_as_read or seen.sharers != sharing.sharers or seen.off_by(sharing.dividend):
        return None
    match by_what_is_seen(sharing, seen):
        case (Movement(source=At.TRAY, target=At.LEFT_OVER), ShareOn()) as back_and_on:
            return back_and_on
    return None


def by_what_is_seen(sharing: Sharing, seen: Observation) -> Repair:
    """The fewest movements that make the trays alike and the number whole again, whatever has happened.

    Every tray should then hold its share, or, where that is fewer movements, what most hold so far: then the sharing
    goes on. Where pieces of several places are too many or too few in all, or where it takes more than MOST_MOVEMENTS,
    it is shared out again, afresh if pieces are too many or too few.
    """
    off_by = seen.off_by(sharing.dividend)
    if off_by is not None and seen.sharers == sharing.sharers:
        values = [sharing.quotient, *_held_so_far(seen.trays, sharing.quotient)]
        for one in values:
            if off_by == 0 and (trays := _before_another_child(sharing, seen, one)):
                return ChangePlaces(trays), *_share_on(sharing, one)
        plans = [(plan, one) for one in values if (plan := _all_alike(sharing, seen, one, off_by))]
        if plans:
            plan, one = min(plans, key=lambda found: len(found[0]))
            return *plan, *_share_on(sharing, one)
    place = max(_highest_wrong(tray.value, sharing.quotient * tray.stands_for) for tray in seen.trays)
    again = _again(place, (tray.holds for tray in sharing.trays(sharing.end)))
    return (again._replace(everything=again.everything or bool(off_by)),)


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


def _all_alike(sharing: Sharing, seen: Observation, one: int, off_by: int) -> Repair | None:
    """The easiest movements after which a tray for one holds `one`, and the others accordingly.

    What differs is taken for as few beads as can be, or place by place (30 has a bar more than 21, and a bead less): of
    both the plan counts that moves fewer pieces. No more pieces are taken than lie there, as the digits say, and place
    by place the bank has no more to do than to change one for ten.
    """
    left = seen.left or 0
    due = sharing.dividend - one * sharing.divisor
    if len(Counts.of(abs(off_by)).places_held) > 1:
        return None
    size = len(Counts.of(max(sharing.dividend, left, abs(off_by), *(tray.value for tray in seen.trays))))
    digits = partial(_pieces_of, size=size)
    too_many = {tray: digits(tray.value - one * tray.stands_for) for tray in seen.trays}
    on_trays = Counts(sum(tray.sharers * pieces[place] for tray, pieces in too_many.items()) for place in range(size))
    by_place = {tray: _more(digits(tray.value), digits(one * tray.stands_for), size) for tray in seen.trays}
    plans: list[Repair] = []
    for off, off_in_the_middle in (
        (too_many, _more(digits(off_by), on_trays, size)),
        (by_place, _more(digits(left), digits(due), size)),
    ):
        trays = [(_pile(At.TRAY, digits(tray.value), off[tray], tray.stands_for), tray.sharers) for tray in seen.trays]
        room = _room(digits(0), _pile(At.LEFT_OVER, digits(left), off_in_the_middle), trays)
        of_each = (sum(many * pile.off[place] for pile, many in room) for place in range(size))
        if off is too_many or sum(map(abs, of_each)) <= TEN + 1:
            plans.append(shortest(room, MOST_MOVEMENTS) or ())
    return min(filter(None, plans), key=_pieces_moved, default=None)


def _pile(at: At, there: Counts, off: Counts, stands_for: int = 1) -> Pile:
    """Where so many pieces lie, and so many of them are too many: the others are right."""
    return Pile(at, _more(there, off, len(off)), off, stands_for)


def _pieces_moved(plan: Repair) -> int:
    """How many pieces change their place, at all trays together; an exchange is one for ten."""
    return sum(
        step.pieces * max(trays.sharers if trays else 1 for trays in (step.giving, step.taking))
        if isinstance(step, Movement)
        else TEN + 1
        for step in plan
    )


def _pieces_of(number: int, size: int) -> Counts:
    """A number as pieces of so many places; below zero, as many pieces fewer."""
    sign = 1 if number > 0 else -1
    return Counts(sign * Counts.of(abs(number)).at(place) for place in range(size))


def _more(pieces: Counts, than: Counts, size: int) -> Counts:
    """How many pieces more than others there are, of so many places."""
    return Counts(pieces.at(place) - than.at(place) for place in range(size))


def _held_so_far(trays: Iterable[Reading], share: int) -> list[int]:
    """What most trays hold, for one, of what is less than the share and at no place more; nothing if none does."""
    due = Counts.of(share)
    sharers: Counter[int] = Counter()
    for tray in trays:
        sharers[tray.value // tray.stands_for] += tray.sharers
    held = [
        one
        for one in sharers
        if one < share and all(due.at(place) >= pieces for place, pieces in enumerate(Counts.of(one)))
    ]
    return sorted(held, key=lambda one: (-sharers[one], one))[:1]


def _left_behind(sharing: Sharing, outcome: Outcome) -> Room:
    size = max(len(sharing.start), len(outcome.left), *(len(tray.holds) for tray in outcome.trays))

    def pile(at: At, right: Counts, there: Counts, stands_for: int = 1) -> Pile:
        return Pile(at, _more(right, Counts(), size), _more(there, right, size), stands_for)

    due = {tray.stands_for: tray.holds for tray in sharing.trays(sharing.end)}
    rolled = outcome.occasion.place if outcome.occasion.slip is Slip.ROLLED_AWAY else None
    floor = Counts(int(place == rolled) for place in range(size))
    trays = ((pile(At.TRAY, due[tray.stands_for], tray.holds, tray.stands_for), tray.sharers) for tray in outcome.trays)
    return _room(floor, pile(At.LEFT_OVER, sharing.end.middle, outcome.left), trays)


def _room(floor: Counts, left: Pile, trays: Iterable[tuple[Pile, int]]) -> Room:
    """What lies on the floor, what is left over, the trays, and a bank that has whatever is wanted."""
    nothing, plenty = Counts((0,) * len(floor)), Counts((_PLENTY,) * len(floor))
    return together([(Pile(At.FLOOR, nothing, floor), 1), (Pile(At.BANK, plenty, nothing), 1), (left, 1), *trays])


def _with_the_right_trays(sharing: Sharing, outcome: Outcome) -> Repair:
    """After a tray too many or too few: everything again from the largest piece that lies or should lie on a tray."""
    right = sharing.trays(sharing.end)
    held = {place for tray in {*right} ^ {*outcome.trays} for place in tray.holds.places_held}
    return (_again(max(held), (due.holds for due in right)),) if held else ()


def _from_one_place_down(room: Room, occasion: Occasion) -> Repair:
    """Put right what the slip brought or took, then everything again from the highest place not right on a tray."""
    told: list[Movement] = []
    too_many = _brought_by(occasion)
    for place in reversed(range(len(next(iter(room))[0].off))):
        pieces = too_many[place]
        if pieces < 0:
            source = At.FLOOR if occasion.slip is Slip.ROLLED_AWAY else At.BANK
            told.append(Movement(-pieces, place, source, At.LEFT_OVER))
        elif pieces > 0:
            there = sum(many * pile.holds(place) for pile, many in room if pile.at in (At.LEFT_OVER, At.TRAY))
            too_many[place - 1] += TEN * max(pieces - there, 0)
            for movement, after in _to_the_bank(room, place, min(pieces, there)):
                told.append(movement)
                room = after
    trays = [pile for pile, _ in room if pile.at is At.TRAY]
    wrong = {place for pile in trays for place, off in enumerate(pile.off) if off}
    return (*told, _again(max(wrong, default=UNITS), (pile.right for pile in trays)))


def _again(place: int, due: Iterable[Counts]) -> Again:
    """due: what should lie on each tray."""
    return Again(place, everything=not any(any(pieces[place + 1 :]) for pieces in due))


def _brought_by(occasion: Occasion) -> Counter[int]:
    """How many pieces of each place a slip has brought into the room; below zero: taken out of it."""
    place = occasion.place or UNITS
    match occasion.slip:
        case Slip.BANK_NINE | Slip.LAID_FEW | Slip.ROLLED_AWAY:
            return Counter({place: -1})
        case Slip.BANK_ELEVEN | Slip.LAID_MANY | Slip.NOT_BANKED:
            return Counter({place: 1})
        case Slip.WRONG_KIND:
            return Counter({place: -TEN, occasion.other or UNITS: TEN})
    return Counter()


def _to_the_bank(room: Room, place: int, pieces: int) -> Iterator[tuple[Movement, Room]]:
    """From what is left over; else from as few of the fullest trays as give alike; else by way of the middle."""
    (left,) = (pile for pile, _ in room if pile.at is At.LEFT_OVER)
    missing = pieces - left.holds(place)
    trays = sorted((one for one in room if one[0].at is At.TRAY), key=lambda one: (-one[0].reads, one[0]))
    if missing > 0:
        for pile, many in trays:
            for some in range(1, many + 1):
                if pieces % some == 0 and pieces // some <= pile.holds(place):
                    each = pieces // some
                    giving = Reading(pile.reads, some, pile.stands_for)
                    yield Movement(each, place, At.TRAY, At.BANK, giving), _lighter(room, pile, some, place, each)
                    return
    for pile, many in trays:
        each = min(pile.holds(place), -(-missing // many))
        if each > 0:
            missing -= each * many
            room = _lighter(room, pile, many, place, each)
            yield Movement(each, place, At.TRAY, At.LEFT_OVER, Reading(pile.reads, many, pile.stands_for)), room
    if pieces:
        yield Movement(pieces, place, At.LEFT_OVER, At.BANK), room


def _lighter(room: Room, pile: Pile, trays: int, place: int, pieces: int) -> Room:
    """The room when so many of some trays have given pieces; what is left over is not followed."""
    return together([*room, (pile, -trays), (pile.with_more(place, -pieces), trays)])
