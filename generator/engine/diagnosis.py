"""Reading back from what the room sees at the close to the single slips that explain it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.engine.observations import Observation, Reading, beads_on, readings
from generator.engine.sharing import Sharing, refuse_unless_whole, share
from generator.engine.slips import Occasion, Slip, simulate

_SLIPS = tuple(Slip)


@dataclass(frozen=True)
class Cause:
    """One slip at one place, and every occasion at which it leads to what is seen, in the order of the lesson."""

    slip: Slip
    place: int | None
    occasions: tuple[Occasion, ...]


@dataclass(frozen=True)
class Diagnosis:
    """`consistent`: what is seen is the right result. `causes`: every single slip that leads to it, likeliest first."""

    dividend: int
    divisor: int
    seen: Observation
    consistent: bool
    causes: tuple[Cause, ...]


@dataclass(frozen=True)
class Symptom:
    """One thing the room may see after a lesson, by how much the total is off, and the slips behind it."""

    seen: Observation
    off_by: int
    causes: tuple[Cause, ...]


def diagnose(dividend: int, divisor: int, seen: Sequence[int], left: int | None = None) -> Diagnosis:
    """Which single slips of a plain sharing lead to exactly what is seen.

    seen    the value on every tray, in any order: who reads the trays need not know where the dealing began,
            so they are matched as a collection; there may be more or fewer of them than sharers
    left    the value left over; None: not counted, so that only the trays have to agree

    Likeliest first means the order of Slip and, for one slip, smaller places first (there are more small
    pieces, and they are handled more often): common practice, no source.
    Raises SharingError for anything but whole numbers >= 0 (divisor >= 1, at least one tray seen).
    """
    refuse_unless_whole("dividend", dividend, least=0)
    refuse_unless_whole("divisor", divisor, least=1)
    refuse_unless_whole("number of trays seen", len(seen), least=1)
    for value in seen:
        refuse_unless_whole("value of a tray", value, least=0)
    if left is not None:
        refuse_unless_whole("value left over", left, least=0)
    quotient, remainder = divmod(dividend, divisor)
    observation = Observation(readings(Reading(value, 1) for value in seen), left)
    consistent = _agree(observation, Observation((Reading(quotient, divisor),), remainder))
    explained = not consistent and abs(len(seen) - divisor) <= 1
    outcomes = simulate(share(dividend, divisor)) if explained else iter(())
    causes = _causes(outcome.occasion for outcome in outcomes if _agree(observation, outcome.seen))
    return Diagnosis(dividend, divisor, observation, consistent, causes)


def telling_slips(sharing: Sharing, most: int = 8) -> tuple[Symptom, ...]:
    """The symptoms most worth knowing for one division, plain or with ribbons; what leaves no trace is left out.

    One symptom for each slip, the likeliest slip first, until `most`: the one that the fewest other slips leave too
    and, among those, the one on most trays and of the smallest pieces. A slip that an earlier symptom names already
    gets a symptom of its own only when there is room to spare.
    """
    occasions: dict[Observation, list[Occasion]] = {}
    for outcome in simulate(sharing):
        occasions.setdefault(outcome.seen, []).append(outcome.occasion)
    occasions.pop(_right(sharing), None)
    causes = {seen: _causes(found) for seen, found in occasions.items()}
    named: dict[Observation, set[Slip]] = {seen: {cause.slip for cause in found} for seen, found in causes.items()}
    best: dict[Slip, Observation] = {}
    for slip in _SLIPS:
        observations = [seen for seen, slips in named.items() if slip in slips]
        if observations:
            best[slip] = min(observations, key=lambda seen: _how_telling(slip, causes[seen]))
    chosen: list[Observation] = []
    told: set[Slip] = set()
    for slip, seen in best.items():
        if slip not in told:
            chosen.append(seen)
            told |= named[seen]
    spare = [seen for seen in best.values() if seen not in chosen]
    return tuple(Symptom(seen, seen.off_by(sharing.dividend) or 0, causes[seen]) for seen in (*chosen, *spare)[:most])


def _how_telling(slip: Slip, causes: tuple[Cause, ...]) -> tuple[int, int, int]:
    """The smaller, the more telling a symptom is for a slip."""
    cause = next(cause for cause in causes if cause.slip is slip)
    return len({cause.slip for cause in causes}), -max(occasion.many for occasion in cause.occasions), cause.place or 0


def _causes(occasions: Iterable[Occasion]) -> tuple[Cause, ...]:
    """One cause for each slip at each place, likeliest first."""
    together: dict[tuple[Slip, int | None], dict[Occasion, None]] = {}
    for occasion in occasions:
        together.setdefault((occasion.slip, occasion.place), {})[occasion] = None
    causes = (Cause(slip, place, tuple(found)) for (slip, place), found in together.items())
    return tuple(sorted(causes, key=lambda cause: (_SLIPS.index(cause.slip), cause.place or 0)))


def _right(sharing: Sharing) -> Observation:
    return Observation(beads_on(sharing.trays(sharing.end)), sharing.remainder)


def _agree(seen: Observation, room: Observation) -> bool:
    return seen.trays == room.trays and seen.left in (None, room.left)
