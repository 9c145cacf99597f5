"""Slips of reading: the beads are right, and what is read is not.

cards       one child's cards, or everybody's, do not show what lies on the trays
big tray    with ribbons the answer is read from the tray of a child who stands for ten or more; where nobody
            stands for one, it is read beside the trays
"""

from collections.abc import Iterator
from itertools import combinations

from generator.engine.observations import Reading, beads_on, readings
from generator.engine.places import UNITS, Counts
from generator.engine.sharing import Sharing
from generator.engine.slips import Occasion, Outcome, Slip, Spot


def with_a_big_tray(sharing: Sharing) -> Iterator[Outcome]:
    """The answer is read from a larger tray in place of one for a child who stands for one."""
    end = sharing.end
    trays = sharing.trays(end)
    larger = [tray for tray in beads_on(trays) if tray.stands_for > 1]
    for width, tray in zip(sharing.mat.widths, larger, strict=False):
        if tray.value:
            answer = Reading(tray.value, sharing.mat[UNITS] or 1)
            read = readings((*larger, answer))
            yield Outcome(Occasion(Slip.BIG_TRAY_READ, None, other=width), trays, end.middle, read)


def with_cards(sharing: Sharing) -> Iterator[Outcome]:
    """The share is read from cards that are not right: one child's, or everybody's."""
    end = sharing.end
    trays = sharing.trays(end)
    beads = beads_on(trays)
    smallest = beads[-1].stands_for
    for occasion, value in _misread(Counts.of(sharing.quotient)):
        one = Reading(value * smallest, 1, smallest)
        read = readings((*beads, beads[-1]._replace(sharers=-1), one))
        yield Outcome(occasion._replace(spot=Spot.ONE_TRAY), trays, end.middle, read)
        if sharing.sharers > 1:
            read = readings(tray._replace(value=value * tray.stands_for) for tray in beads)
            yield Outcome(occasion._replace(spot=Spot.EVERY_TRAY), trays, end.middle, read)


def _misread(digits: Counts) -> Iterator[tuple[Occasion, int]]:
    """Every way to lay cards wrong (two places swapped, one zero forgotten, all of them), and what they then read."""
    places = range(len(digits))
    for low, high in combinations(places, 2):
        if digits[low] != digits[high]:
            swapped = list(digits)
            swapped[low], swapped[high] = swapped[high], swapped[low]
            yield Occasion(Slip.SWAPPED, high, other=low), Counts(swapped).value
    zeros = [place for place in places if not digits[place]]
    if digits.value and zeros:
        for zero in zeros:
            yield Occasion(Slip.ZERO_FORGOTTEN, zero), Counts(digits[:zero] + digits[zero + 1 :]).value
        if len(zeros) > 1:
            occasion = Occasion(Slip.ZERO_FORGOTTEN, zeros[-1], many=len(zeros))
            yield occasion, Counts(digit for digit in digits if digit).value
