"""What the room sees at the close: what is read on the trays, and what is left over."""

from collections import Counter
from collections.abc import Iterable
from typing import NamedTuple

from generator.engine.trays import Tray


class Reading(NamedTuple):
    """Trays that read the same: the value read, how many sharers, what each of them stands for."""

    value: int
    sharers: int
    stands_for: int = 1


class Observation(NamedTuple):
    """The trays as `readings` puts them together, and the value left over (None: nobody counted it)."""

    trays: tuple[Reading, ...]
    left: int | None

    @property
    def sharers(self) -> int:
        """How many trays are seen."""
        return sum(tray.sharers for tray in self.trays)

    @property
    def equal(self) -> bool:
        """Whether all trays of one kind read the same."""
        return len({tray.stands_for for tray in self.trays}) == len(self.trays)

    @property
    def fair(self) -> bool:
        """Whether every tray reads `stands_for` times the same whole number."""
        first = self.trays[0]
        one, rest = divmod(first.value, first.stands_for)
        return not rest and all(tray.value == one * tray.stands_for for tray in self.trays)

    def off_by(self, dividend: int) -> int | None:
        """The value of all trays and of what is left, minus the dividend; None if nobody counted what is left."""
        if self.left is None:
            return None
        return sum(tray.value * tray.sharers for tray in self.trays) + self.left - dividend


def readings(trays: Iterable[Reading]) -> tuple[Reading, ...]:
    """Equal readings merged into one, the largest ribbon first, then the largest value."""
    sharers: Counter[tuple[int, int]] = Counter()
    for tray in trays:
        sharers[tray.stands_for, tray.value] += tray.sharers
    return tuple(Reading(key[1], sharers[key], key[0]) for key in sorted(sharers, reverse=True) if sharers[key])


def beads_on(trays: Iterable[Tray]) -> tuple[Reading, ...]:
    """What is read where the beads themselves are counted."""
    return readings(Reading(tray.holds.value, tray.sharers, tray.stands_for) for tray in trays)
