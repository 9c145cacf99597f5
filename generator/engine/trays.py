"""What lies on the trays: the share of each, and what some have more or less than the others."""

from collections.abc import Iterator
from typing import NamedTuple

from generator.engine.places import Counts, Mat


class Tray(NamedTuple):
    """Trays that hold the same: how many sharers, what each stands for, what each has."""

    sharers: int
    stands_for: int
    holds: Counts


class Difference(NamedTuple):
    """So many sharers who stand for 10^width have `pieces` more of a place than the others; below zero: fewer.

    instead: a place of which they have as many fewer (or more) in return
    """

    width: int
    sharers: int
    place: int
    pieces: int
    instead: int | None = None

    def on(self, tray: Counts) -> Counts:
        """What lies on their trays where the others have `tray`."""
        tray = tray.plus(self.place, self.pieces)
        return tray if self.instead is None else tray.plus(self.instead, -self.pieces)


def first_served(mat: Mat, level: int, many: int) -> Iterator[Difference]:
    """The first so many sharers in the order of dealing (largest ribbon first), each with one piece more."""
    for width in mat.widths:
        sharers = min(many, mat[width])
        many -= sharers
        if sharers:
            yield Difference(width, sharers, level + width, 1)


def every_tray(mat: Mat, share: Counts, *differences: Difference) -> tuple[Tray, ...]:
    """Equal trays together, the largest ribbon first, then the fullest; `share` is that of one who stands for one."""
    trays: list[Tray] = []
    for width in mat.widths:
        holds = share.raised(width)
        mine = [one for one in differences if one.width == width]
        equal = mat[width] - sum(one.sharers for one in mine)
        groups = [(one.sharers, one.on(holds)) for one in mine] + [(equal, holds)]
        groups.sort(key=lambda group: group[1].value, reverse=True)
        trays += [Tray(sharers, 10**width, what) for sharers, what in groups if sharers]
    return tuple(trays)
