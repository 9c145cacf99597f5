"""Reading back from what the room sees at the close to the single slips that explain it."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from generator.engine.observations import Observation, Reading, beads_on, readings
from generator.engine.outcomes import simulate
from generator.engine.places import UNITS, Counts
from generator.engine.repair_movements import Repair
from generator.engine.repairs import easier, repair
from generator.engine.sharing import Sharing, refuse_unless_whole, share
from generator.engine.slips import Occasion, Outcome, Slip, Spot
from generator.engine.whatever_happened import places_not_shown

_SLIPS = tuple(Slip)


class Cause(NamedTuple):
    """One slip at one place that needs one repair, and every occasion at which it leads to what is seen, in order.

    advice    the repair, or an easier one where children could not follow it (`easier` in repairs.py)
    """

    slip: Slip
    place: int | None
    occasions: tuple[Occasion, ...]
    advice: Repair = ()
    repair: Repair = ()


class Diagnosis(NamedTuple):
    """`consistent`: what is seen is the right result. `causes`: every single slip that leads to it, likeliest first.

    ribbons    whether they were asked for, also where nobody stands for ten
    """

    sharing: Sharing
    ribbons: bool
    seen: Observation
    consistent: bool
    causes: tuple[Cause, ...]

    @property
    def to_share_on(self) -> bool:
        """Whether nothing is wrong yet: all is there, the trays are fair, and what is left can still go round."""
        sharing, seen = self.sharing, self.seen
        is_whole = seen.sharers == sharing.sharers and seen.off_by(sharing.dividend) == 0
        return is_whole and seen.fair and seen.left is not None and seen.left >= sharing.divisor


class Symptom(NamedTuple):
    """One thing the room may see after a lesson, by how much the total is off, and the slips behind it.

    left    the pieces that are not on a tray, as one of these slips leaves them
    """

    seen: Observation
    off_by: int
    causes: tuple[Cause, ...]
    left: Counts


def diagnose(
    dividend: int, divisor: int, seen: Iterable[int | Reading], left: int | None = None, *, ribbons: bool = False
) -> Diagnosis:
    """Which single slips of a sharing lead to exactly what is seen, and what puts each right.

    seen    the trays (a number is read on one that stands for one), in any order: who reads them need not know
            where the dealing began, so they are matched as a collection; there may be more or fewer of them than
            sharers
    left    the value left over; None: not counted, so that only the trays have to agree

    Likeliest first means the order of Slip and, for one slip, smaller places first (there are more small
    pieces, and they are handled more often): common practice, no source. Causes that suppose ten of a kind on a tray
    (`places_not_shown`) come last, because people would have noticed these.
    Raises SharingError for anything but whole numbers >= 0 (divisor >= 1, at least one tray seen).
    """
    sharing = share(dividend, divisor, ribbons=ribbons)
    trays = [tray if isinstance(tray, Reading) else Reading(tray, 1) for tray in seen]
    number = sum(tray.sharers for tray in trays)
    refuse_unless_whole("number of trays seen", number, least=1)
    for tray in trays:
        refuse_unless_whole("value of a tray", tray.value, least=0)
        refuse_unless_whole("number a tray stands for", tray.stands_for, least=1)
    if left is not None:
        refuse_unless_whole("value left over", left, least=0)
    observation = Observation(readings(trays), left)
    consistent = _agree(observation, right_observation(sharing))
    causes: tuple[Cause, ...] = ()
    if not consistent and abs(number - sharing.sharers) <= 1:  # a slip lays out one tray too few or too many at most
        causes = _causes(sharing, (outcome for outcome in simulate(sharing) if _agree(observation, outcome.seen)))
    return Diagnosis(sharing, ribbons, observation, consistent, causes)


def telling_slips(sharing: Sharing, most: int = 8, owned: Counts | None = None) -> tuple[Symptom, ...]:
    """The symptoms most worth knowing for one division, at most `most`; slips that leave no trace are left out.

    Every slip has the symptom that shows it best (`_how_telling`), the likeliest slip first. If an earlier symptom has
    that slip among its causes already, it comes after all others.

    owned    the pieces of the shelf: symptoms that it cannot show are left out, unless the sharing itself needs more
    """
    outcomes = _by_observation(sharing, owned)
    slips = {seen: {outcome.occasion.slip for outcome in found} for seen, found in outcomes.items()}
    best = _most_telling(outcomes, slips, sharing)
    chosen: list[Observation] = []
    covered: set[Slip] = set()
    for slip, seen in best.items():
        if slip not in covered:
            chosen.append(seen)
            covered |= slips[seen]
    spare = [seen for seen in dict.fromkeys(best.values()) if seen not in chosen]
    return tuple(
        Symptom(seen, seen.off_by(sharing.dividend) or 0, _causes(sharing, outcomes[seen]), outcomes[seen][0].left)
        for seen in (*chosen, *spare)[:most]
    )


def _by_observation(sharing: Sharing, owned: Counts | None) -> dict[Observation, list[Outcome]]:
    """The outcomes of single slips by what is seen, without those that look right or that the shelf cannot show."""
    outcomes: defaultdict[Observation, list[Outcome]] = defaultdict(list)
    for outcome in simulate(sharing):
        can_be_shown = owned is None or _can_be_shown(outcome, owned, sharing.pieces_needed)
        if can_be_shown and not _is_for_diagnosis_alone(outcome.occasion):
            outcomes[outcome.seen].append(outcome)
    outcomes.pop(right_observation(sharing), None)
    return outcomes


def _most_telling(
    outcomes: Mapping[Observation, list[Outcome]], slips: Mapping[Observation, set[Slip]], sharing: Sharing
) -> dict[Slip, Observation]:
    """The observation that shows each slip best, the likeliest slip first; `slips` are those behind an observation."""
    in_full: Counter[tuple[Slip, int | None]] = Counter()
    for occasion in (outcome.occasion for found in outcomes.values() for outcome in found):
        kind = occasion.slip, occasion.place
        in_full[kind] = max(occasion.many, in_full[kind])
    best: dict[Slip, Observation] = {}
    for slip in _SLIPS:
        observations = [seen for seen, behind in slips.items() if slip in behind]
        if observations:
            best[slip] = min(observations, key=lambda seen: _how_telling(slip, outcomes[seen], in_full, sharing))
    return best


def _how_telling(
    slip: Slip, outcomes: list[Outcome], in_full: Mapping[tuple[Slip, int | None], int], sharing: Sharing
) -> tuple[bool, int, int, int]:
    """A sort key: the smaller, the better an observation shows a slip.

    First come those to which people get by the rules after the slip: all pieces dealt stay (`in_full` says how many
    that are), and pieces passed over end as expected. Then the fewest other slips, most trays, smallest pieces.
    """
    occasions = [outcome.occasion for outcome in outcomes if outcome.occasion.slip is slip]
    goes_on = any(
        occasion.many == in_full[slip, occasion.place] and _ends_as_expected(occasion, sharing)
        for occasion in occasions
    )
    place, less = min((occasion.place or 0, -occasion.many) for occasion in occasions)
    return not goes_on, len({outcome.occasion.slip for outcome in outcomes}), less, place


def _is_for_diagnosis_alone(occasion: Occasion) -> bool:
    """Not for symptoms: a child without a tray has nothing to read, and a wrong kind in every round is noticed."""
    return (occasion.slip, occasion.spot) in ((Slip.TRAY_FEW, Spot.EVERY_CHILD), (Slip.SAME_KIND, None))


def _ends_as_expected(occasion: Occasion, sharing: Sharing) -> bool:
    """Whether pieces passed over end as people would leave them.

    Enough of them for a round are dealt to the others. Fewer go to the bank if the sharing has exchanges, and
    otherwise lie in the middle to the end.
    """
    if occasion.slip is Slip.NONE_OF_A_PLACE and (occasion.spot is None or occasion.many >= sharing.sharers):
        return occasion.spot is None
    if occasion.slip not in (Slip.SKIPPED, Slip.NONE_OF_A_PLACE) or occasion.place == UNITS:
        return True
    return (occasion.spot is Spot.LEFT_OVER) == (not sharing.exchanges)


def _can_be_shown(outcome: Outcome, owned: Counts, needed: Counts) -> bool:
    """Whether trays and middle hold no more pieces of a place than the shelf has, or than the sharing itself needs."""
    held = [(tray.holds, tray.sharers) for tray in outcome.trays] + [(outcome.left, 1)]
    places = range(max(len(pieces) for pieces, _ in held))
    return all(
        sum(many * pieces.at(place) for pieces, many in held) <= max(owned.at(place), needed.at(place))
        for place in places
    )


def _causes(sharing: Sharing, outcomes: Iterable[Outcome]) -> tuple[Cause, ...]:
    """One cause for each combination of slip, place and repair, likeliest first."""
    together: dict[tuple[Slip, int | None, Repair], dict[Occasion, Outcome]] = {}
    for outcome in outcomes:
        occasion = outcome.occasion
        together.setdefault((occasion.slip, occasion.place, repair(sharing, outcome)), {})[occasion] = outcome
    causes = (
        Cause(slip, place, tuple(found), easier(sharing, next(iter(found.values())), mends), mends)
        for (slip, place, mends), found in together.items()
    )
    return tuple(sorted(causes, key=_how_likely))


def _how_likely(cause: Cause) -> tuple[bool, int, int]:
    return bool(places_not_shown(cause.advice)), _SLIPS.index(cause.slip), cause.place or 0


def right_observation(sharing: Sharing) -> Observation:
    """What is seen at the close where nothing went wrong."""
    return Observation(beads_on(sharing.trays(sharing.end)), sharing.remainder)


def _agree(seen: Observation, room: Observation) -> bool:
    return seen.trays == room.trays and seen.left in (None, room.left)
