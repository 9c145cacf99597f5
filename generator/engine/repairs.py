"""What puts a room right again after a slip: the fewest movements, or sharing out again from one place down.

A repair leads from what a slip left behind (`Outcome`) to the end of the right sharing: the right pieces on every
tray and left over, nothing on the floor, and so a whole bank.

Where more than MOST_MOVEMENTS are needed, first the pieces that are too many or too few are put right, and then the
highest place that is not right on the trays and all below it is shared out again. After a tray too many or too few
that is always so: the right trays are set down, and the largest pieces are where it begins.
"""

from collections import Counter
from collections.abc import Iterator

from generator.engine.dealing import State, deal_on
from generator.engine.observations import Reading
from generator.engine.places import UNITS, Counts
from generator.engine.repair_movements import TEN, Again, At, Movement, Pile, Repair, Room, ShareOn, room_of, together
from generator.engine.sharing import Sharing
from generator.engine.shortest import MOST_MOVEMENTS, shortest
from generator.engine.slips import Occasion, Outcome, Slip
from generator.engine.trays import Tray
from generator.engine.whatever_happened import trays_made_alike


def repair(sharing: Sharing, outcome: Outcome) -> Repair:
    """The movements that put right what a slip left behind; none where all pieces lie right, as with cards."""
    if outcome.occasion.slip in (Slip.TRAY_FEW, Slip.TRAY_MANY):
        return _with_the_right_trays(sharing, outcome)
    room = _left_behind(sharing, outcome)
    plan = shortest(room, MOST_MOVEMENTS)
    return _from_one_place_down(room, outcome.occasion) if plan is None else plan


def easier(sharing: Sharing, outcome: Outcome, fewest: Repair) -> Repair:
    """The fewest movements; or sharing out again from one place down, where children could not follow them.

    That is where pieces of several places change on trays and at the bank: eight bars for five unit beads are no
    exchange that they know. Where one movement is enough before they share on, that is easier than two.
    """
    movements = [step for step in fewest if isinstance(step, Movement)]
    on_trays = {step.place for step in movements if step.giving or step.taking}
    at_the_bank = {step.place for step in movements if At.BANK in (step.source, step.target)}
    advice = fewest
    if len(on_trays) > 1 and len(at_the_bank) > 1:
        advice = _from_one_place_down(_left_behind(sharing, outcome), outcome.occasion)
    if len(advice) > 1 or any(isinstance(step, Again) for step in advice):
        return _one_movement_and_on(sharing, outcome) or advice
    return advice


def _one_movement_and_on(sharing: Sharing, outcome: Outcome) -> Repair | None:
    """One movement between middle and trays after which the trays are alike and the sharing goes on; None if none is.

    None also after a tray too many: the tray without a child is not read.
    """
    if outcome.occasion.slip is Slip.TRAY_MANY:
        return None
    match trays_made_alike(sharing, outcome.seen, 1):
        case (Movement() as one, ShareOn() as on) if At.LEFT_OVER in (one.source, one.target):
            if outcome.occasion.slip is Slip.ROLLED_AWAY and one.source is At.BANK:
                one = one._replace(source=At.FLOOR)
            return (one, on) if _leads_to_the_end(sharing, one, outcome) else None
    return None


def _leads_to_the_end(sharing: Sharing, movement: Movement, outcome: Outcome) -> bool:
    """Whether the pieces to move are there, trays then hold fewer than ten of a kind, and dealing on ends right."""
    pieces, place, source, target, giving, taking = movement
    middle = outcome.left.plus(place, movement.in_all * ((target is At.LEFT_OVER) - (source is At.LEFT_OVER)))

    def is_of(ends: Reading | None, tray: Tray) -> bool:
        return ends is not None and (ends.value, ends.stands_for) == (tray.holds.value, tray.stands_for)

    trays = [
        tray._replace(holds=tray.holds.plus(place, pieces * (is_of(taking, tray) - is_of(giving, tray))))
        for tray in outcome.trays
    ]
    if min(middle) < 0 or not all(0 <= there < TEN for tray in trays for there in tray.holds):
        return False
    share = Counts.of(trays[0].holds.value // trays[0].stands_for)
    end = deal_on(State(middle, share.with_places(len(middle)), UNITS, 0), sharing.mat)
    size, right = len(end.middle), sharing.end
    return end.middle == right.middle.with_places(size) and end.share == right.share.with_places(size)


def _left_behind(sharing: Sharing, outcome: Outcome) -> Room:
    size = max(len(sharing.start), len(outcome.left), *(len(tray.holds) for tray in outcome.trays))

    def pile(at: At, right: Counts, there: Counts, stands_for: int = 1) -> Pile:
        right = right.with_places(size)
        return Pile(at, right, there.with_places(size).less(right), stands_for)

    due = {tray.stands_for: tray.holds for tray in sharing.trays(sharing.end)}
    rolled = outcome.occasion.place if outcome.occasion.slip is Slip.ROLLED_AWAY else None
    floor = Counts(int(place == rolled) for place in range(size))
    trays = ((pile(At.TRAY, due[tray.stands_for], tray.holds, tray.stands_for), tray.sharers) for tray in outcome.trays)
    return room_of(floor, pile(At.LEFT_OVER, sharing.end.middle, outcome.left), trays)


def _with_the_right_trays(sharing: Sharing, outcome: Outcome) -> Repair:
    """After a tray too many or too few: everything again from the largest piece that lies or should lie on a tray."""
    not_right = {*sharing.trays(sharing.end)} ^ {*outcome.trays}
    held = {place for tray in not_right for place in tray.holds.places_held}
    return (Again(max(held)),) if held else ()


def _from_one_place_down(room: Room, occasion: Occasion) -> Repair:
    """Put right what the slip brought or took, then everything again from the highest place not right on a tray."""
    plan: list[Movement] = []
    too_many = _brought_by(occasion)
    for place in reversed(range(len(next(iter(room))[0].off))):
        pieces = too_many[place]
        if pieces < 0:
            source = At.FLOOR if occasion.slip is Slip.ROLLED_AWAY else At.BANK
            plan.append(Movement(-pieces, place, source, At.LEFT_OVER))
        elif pieces > 0:
            there = sum(many * pile.holds(place) for pile, many in room if pile.at in (At.LEFT_OVER, At.TRAY))
            too_many[place - 1] += TEN * max(pieces - there, 0)
            for movement, after in _to_the_bank(room, place, min(pieces, there)):
                plan.append(movement)
                room = after
    wrong = {place for pile, _ in room if pile.at is At.TRAY for place, off in enumerate(pile.off) if off}
    return (*plan, Again(max(wrong, default=UNITS)))


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
    """Movements of pieces to the bank, each with the room after it.

    They come from the middle. If it has too few, as few of the fullest trays as can all give the same give them
    straight to the bank; failing that, trays give to the middle what it lacks.
    """
    (left,) = (pile for pile, _ in room if pile.at is At.LEFT_OVER)
    missing = pieces - left.holds(place)
    trays = sorted((one for one in room if one[0].at is At.TRAY), key=lambda one: (-one[0].reads, one[0]))
    if missing > 0:
        for pile, many in trays:
            for some in range(1, many + 1):
                if pieces % some == 0 and pieces // some <= pile.holds(place):
                    yield _given(room, pile, some, place, pieces // some, At.BANK)
                    return
    for pile, many in trays:
        each = min(pile.holds(place), -(-missing // many))
        if each > 0:
            missing -= each * many
            movement, room = _given(room, pile, many, place, each, At.LEFT_OVER)
            yield movement, room
    if pieces:
        yield Movement(pieces, place, At.LEFT_OVER, At.BANK), room


def _given(room: Room, pile: Pile, trays: int, place: int, pieces: int, target: At) -> tuple[Movement, Room]:
    """Each of `trays` trays gives pieces: the movement, and the room after it without what the target has gained."""
    movement = Movement(pieces, place, At.TRAY, target, pile.trays(trays))
    return movement, together([*room, (pile, -trays), (pile.with_more(place, -pieces), trays)])
