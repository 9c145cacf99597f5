"""What each single slip leaves behind, worked out at every occasion of a sharing where it can happen.

A slip disturbs the room at one moment. From there on everybody does as the rules say with what lies in
the middle, so the same dealing rule carries the lesson to its end; nobody notices before the close.

What people do after each slip
    bank counts nine, eleven    one piece too few or too many comes to the middle; dealing goes on with it
    piece not banked            the piece comes back with its ten: it is exchanged again with the others (middle),
                                or lies there until the end (left over), or ends up with one child (one tray)
    bank wrong kind             ten of another kind come to the middle and are dealt as they are, the largest first
    child skipped               the piece stays in the middle, and dealing goes on with one more, or it lies there
                                until the end (left over)
    none of a place             a tray is passed over in every round of a place. Its pieces are dealt to the others
                                (plain sharing) as far as they go round, else they go on with the rest (middle); or
                                they lie there until the end (left over)
    child dealt twice           dealing goes on with one less; if it was the last piece, the last child goes without.
                                In a round that is taken back, everybody gives back one
    ribbon given the same kind  in one round a child for ten gets the piece that the others get (one tray): the larger
                                one stays, and is changed if the last child finds none; or one child for ten, beside
                                others with ribbons, gets it in every round; or everybody gets the same in every round,
                                as if there were no ribbons (every tray)
    round not taken back        the first children keep what they have, the others give theirs back (a round
                                begun again at the units is the same as dealing what is left over)
    left over dealt             the first children get one piece each of what should be kept apart
    laid out too many, too few  the lesson is a right sharing of another number
    piece rolled away           from the middle: dealing goes on without it; from a tray: nobody notices
    tray too many, too few      the lesson is a right sharing among another number of trays; at the close either all
                                trays are read, or one for each child (a tray of nobody's is not read, a child
                                without a tray has 0)
    cards, big tray             in `misreadings`

With ribbons every slip is followed in the same way; what is too much for the sharers it could still go to
stays in the middle, because exchanges never go upwards.
"""

from collections import Counter
from collections.abc import Iterator
from itertools import chain

from generator.engine.dealing import Action, State, beginning, deal_on
from generator.engine.misreadings import with_a_big_tray, with_cards
from generator.engine.observations import Reading, beads_on, readings
from generator.engine.places import THOUSANDS, UNITS, Counts
from generator.engine.sharing import Sharing, share
from generator.engine.slips import Occasion, Outcome, Slip, Spot
from generator.engine.trays import Difference, Tray, every_tray, first_served


def simulate(sharing: Sharing) -> Iterator[Outcome]:
    """Every slip at every occasion, also where it leaves no trace; with look_first too, as people may forget it."""
    if sharing.look_first:
        sharing = share(sharing.dividend, sharing.divisor, ribbons=sharing.ribbons)
    return chain(
        _laying_out(sharing),
        _counting_trays(sharing),
        _at_the_bank(sharing),
        _in_whole_rounds(sharing),
        _in_rounds_taken_back(sharing),
        _with_the_same_kind(sharing),
        _rolled_away(sharing),
        with_a_big_tray(sharing),
        with_cards(sharing),
    )


def _laying_out(sharing: Sharing) -> Iterator[Outcome]:
    before = sharing.beginning
    for place, laid in enumerate(sharing.start):
        yield _go_on(sharing, Occasion(Slip.LAID_MANY, place), before, before.middle.plus(place, 1))
        if laid:
            yield _go_on(sharing, Occasion(Slip.LAID_FEW, place), before, before.middle.plus(place, -1))
    larger = len(sharing.start)
    if larger <= THOUSANDS:  # the bank has pieces larger than those of the number
        start = Counts((*sharing.start, 1))
        yield _go_on(sharing, Occasion(Slip.LAID_MANY, larger), beginning(start, sharing.mat), start)


def _counting_trays(sharing: Sharing) -> Iterator[Outcome]:
    """Either every tray is read, or one for each child: then a tray too many is not read, and a missing one is 0."""
    for width in sharing.mat.widths:
        for slip, change in ((Slip.TRAY_FEW, -1), (Slip.TRAY_MANY, 1)):
            mat = sharing.mat.plus(width, change)
            if mat.pieces:
                end = deal_on(sharing.beginning, mat)
                trays = every_tray(mat, end.share)
                yield Outcome(Occasion(slip, None, spot=Spot.EVERY_TRAY), trays, end.middle)
                held = end.share.value * 10**width if change > 0 else 0
                read = readings((*beads_on(trays), Reading(held, -change, 10**width)))
                yield Outcome(Occasion(slip, None, spot=Spot.EVERY_CHILD), trays, end.middle, read)


def _at_the_bank(sharing: Sharing) -> Iterator[Outcome]:
    end = sharing.end
    turns: Counter[int] = Counter()
    for step in sharing.steps_of(Action.EXCHANGE):
        room = step.after
        large, small = step.place, step.place - 1
        turns[large] += 1
        turn = turns[large]
        yield _go_on(sharing, Occasion(Slip.BANK_NINE, small, turn), room, room.middle.plus(small, -1))
        yield _go_on(sharing, Occasion(Slip.BANK_ELEVEN, small, turn), room, room.middle.plus(small, 1))
        without = room.middle.plus(small, -10)
        for other in range(len(sharing.start)):
            if other != small:
                occasion = Occasion(Slip.WRONG_KIND, small, turn, other)
                yield _go_on(sharing, occasion, room, without.plus(other, 10))
        kept = Occasion(Slip.NOT_BANKED, large, turn)
        yield _go_on(sharing, kept._replace(spot=Spot.MIDDLE), room, room.middle.plus(large, 1))
        yield Outcome(kept._replace(spot=Spot.LEFT_OVER), sharing.trays(end), end.middle.plus(large, 1))
        for width in sharing.mat.widths:
            trays = every_tray(sharing.mat, end.share, Difference(width, 1, large, 1))
            yield Outcome(kept._replace(spot=Spot.ONE_TRAY), trays, end.middle)


def _in_whole_rounds(sharing: Sharing) -> Iterator[Outcome]:
    for room in (step.after for step in sharing.steps_of(Action.DEAL)):
        turn = room.share[room.level]
        for width in sharing.mat.widths:
            place = room.level + width
            more, less = Difference(width, 1, place, 1), Difference(width, 1, place, -1)
            skipped = Occasion(Slip.SKIPPED, place, turn)
            yield _misdealt(sharing, skipped, room, less)
            if room.level > UNITS:
                yield _left_lying(sharing, skipped._replace(spot=Spot.LEFT_OVER), less)
            if 1 < turn == sharing.end.share[room.level]:
                yield from _without_a_place(sharing, room, width)
            twice = Occasion(Slip.DEALT_TWICE, place, turn)
            if room.middle[place]:
                yield _misdealt(sharing, twice, room, more)
            elif sharing.mat[width] > 1:
                yield _misdealt(sharing, twice, room, more, less)


def _without_a_place(sharing: Sharing, room: State, width: int) -> Iterator[Outcome]:
    """One tray is passed over in every round of a level; the room is the one after the last of them."""
    place, pieces = room.level + width, room.share[room.level]
    lacks = Difference(width, 1, place, -pieces)
    none = Occasion(Slip.NONE_OF_A_PLACE, place, other=width, many=pieces)
    yield _left_lying(sharing, none._replace(spot=Spot.LEFT_OVER), lacks)
    middle, others = room.middle.plus(place, pieces), sharing.sharers - 1
    rounds = middle[place] // others if others and not sharing.mat.ribbons else 0
    if rounds:
        share_of_others = room.share.plus(room.level, rounds)
        end = deal_on(room._replace(middle=middle.plus(place, -rounds * others), share=share_of_others), sharing.mat)
        yield Outcome(none, every_tray(sharing.mat, end.share, lacks._replace(pieces=-pieces - rounds)), end.middle)
    elif room.level > UNITS:
        end = deal_on(room._replace(middle=middle), sharing.mat)
        if end.share[room.level] == pieces:
            yield Outcome(none._replace(spot=Spot.MIDDLE), every_tray(sharing.mat, end.share, lacks), end.middle)


def _left_lying(sharing: Sharing, occasion: Occasion, lacks: Difference) -> Outcome:
    """What a tray did not get lies in the middle until the end."""
    end = sharing.end
    left = end.middle.plus(lacks.place, -lacks.pieces)
    return Outcome(occasion, every_tray(sharing.mat, end.share, lacks), left)


def _in_rounds_taken_back(sharing: Sharing) -> Iterator[Outcome]:
    for step in sharing.steps_of(Action.TAKE_BACK):
        room = step.after
        level = room.level
        turn = room.share[level] + 1
        for many in range(1, step.pieces + 1):
            occasion = Occasion(Slip.NOT_TAKEN_BACK, level, turn, many=many)
            outcome = _misdealt(sharing, occasion, room, *first_served(sharing.mat, level, many))
            yield outcome
            if level == UNITS:
                yield outcome._replace(occasion=Occasion(Slip.LEFT_OVER_DEALT, UNITS, many=many))
        for served in first_served(sharing.mat, level, step.pieces):
            if room.middle[served.place] > 1:
                occasion = Occasion(Slip.DEALT_TWICE, served.place, turn)
                yield _misdealt(sharing, occasion, room, served._replace(sharers=1))


def _with_the_same_kind(sharing: Sharing) -> Iterator[Outcome]:
    *larger, smallest = sharing.mat.widths
    if not larger:
        return
    end = share(sharing.dividend, sharing.sharers).end
    trays = tuple(Tray(sharing.mat[width], 10**width, end.share) for width in sharing.mat.widths)
    yield Outcome(Occasion(Slip.SAME_KIND, None, spot=Spot.EVERY_TRAY), trays, end.middle)
    for width in larger:
        others = sharing.mat.plus(width, -1)
        mat = others.plus(smallest, 1)
        if len(mat.widths) > 1:  # else everybody is given the same
            end = deal_on(sharing.beginning, mat)
            alike = (*every_tray(others, end.share), Tray(1, 10**width, end.share.raised(smallest)))
            trays = tuple(sorted(alike, key=lambda tray: -tray.stands_for))
            yield Outcome(Occasion(Slip.SAME_KIND, None, other=width), trays, end.middle)
    for room in (step.after for step in sharing.steps_of(Action.DEAL)):
        for width in larger:
            due, given = room.level + width, room.level + smallest
            occasion = Occasion(Slip.SAME_KIND, due, room.share[room.level], given, spot=Spot.ONE_TRAY)
            middle = room.middle.plus(due, 1)
            for place in range(due, given, -1):
                if not any(middle[given:place]):
                    middle = middle.plus(place, -1).plus(place - 1, 10)
            yield _go_on(sharing, occasion, room, middle.plus(given, -1), Difference(width, 1, due, -1, given))


def _rolled_away(sharing: Sharing) -> Iterator[Outcome]:
    rooms = (step.after for step in sharing.steps if step.action is not Action.START)
    for room in dict.fromkeys((sharing.beginning, *rooms)):
        for place in room.middle.places_held:
            occasion = Occasion(Slip.ROLLED_AWAY, place, spot=Spot.MIDDLE)
            yield _go_on(sharing, occasion, room, room.middle.plus(place, -1))
    end = sharing.end
    for width in sharing.mat.widths:
        for held in end.share.places_held:
            place = held + width
            occasion = Occasion(Slip.ROLLED_AWAY, place, spot=Spot.ONE_TRAY)
            yield Outcome(occasion, every_tray(sharing.mat, end.share, Difference(width, 1, place, -1)), end.middle)


def _misdealt(sharing: Sharing, occasion: Occasion, room: State, *differences: Difference) -> Outcome:
    """Deal on after some have more or less than the others: what they have lies no longer in the middle."""
    middle = room.middle
    for one in differences:
        middle = middle.plus(one.place, -one.pieces * one.sharers)
    return _go_on(sharing, occasion, room, middle, *differences)


def _go_on(sharing: Sharing, occasion: Occasion, room: State, middle: Counts, *differences: Difference) -> Outcome:
    """Deal on from a disturbed middle."""
    end = deal_on(room._replace(middle=middle), sharing.mat)
    return Outcome(occasion, every_tray(sharing.mat, end.share, *differences), end.middle)
