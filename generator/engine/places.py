"""Places, and how many pieces there are of each.

A place is a power of ten: 0 is units, 1 tens, 2 hundreds, 3 thousands, and so on upwards.
"""

from typing import Self

UNITS = 0
TENS = 1
HUNDREDS = 2
THOUSANDS = 3

_NAMES = ("units", "tens", "hundreds", "thousands", "ten-thousands", "hundred-thousands", "millions")


def place_name(place: int) -> str:
    """The name of a place: 'units' for 0 up to 'millions' for 6, then '10^7' and so on."""
    return _NAMES[place] if place < len(_NAMES) else f"10^{place}"


class Counts(tuple[int, ...]):
    """How many of each place, units first: Counts((0, 3, 2, 5)) is 5 thousands, 2 hundreds, 3 tens.

    The pieces in the middle, on a tray and in the bank are all such counts.
    """

    __slots__ = ()

    @classmethod
    def of(cls, number: int) -> Self:
        """The digits of a number >= 0; zero has one place, the units."""
        return cls(map(int, reversed(str(number))))

    @property
    def value(self) -> int:
        """What the pieces are worth together."""
        worth = 0
        for count in reversed(self):
            worth = 10 * worth + count
        return worth

    @property
    def pieces(self) -> int:
        """How many pieces there are, whatever their place."""
        return sum(self)

    @property
    def places_held(self) -> tuple[int, ...]:
        """The places of which there is at least one piece, largest first."""
        return tuple([place for place in range(len(self) - 1, -1, -1) if self[place]])

    def at(self, place: int) -> int:
        """How many there are of a place; 0 beyond the places counted."""
        return self[place] if place < len(self) else 0

    def plus(self, place: int, pieces: int) -> Self:
        """A copy with `pieces` more of a place that is counted already; fewer if `pieces` is below zero."""
        return type(self)((*self[:place], self[place] + pieces, *self[place + 1 :]))

    def less(self, other: Self) -> Self:
        """This minus another of the same length, place by place; results may be below zero."""
        return type(self)(pieces - others for pieces, others in zip(self, other, strict=True))

    def with_places(self, size: int) -> Self:
        """A copy of `size` places: cut off, or with zeros added at the larger end."""
        return type(self)((self + (0,) * size)[:size])

    def raised(self, width: int) -> Self:
        """A copy of the same length with every piece `width` places larger."""
        return type(self)(((0,) * width + self)[: len(self)])

    def named(self) -> dict[str, int]:
        """Every place by its name, largest first."""
        return {place_name(place): self[place] for place in reversed(range(len(self)))}


class Mat(Counts):
    """Who shares: how many sharers stand for 1, for 10, for 100; its value is the divisor."""

    __slots__ = ()

    @classmethod
    def of_group(cls, divisor: int, *, ribbons: bool) -> Self:
        """With ribbons every digit of the divisor is a group of sharers; else all stand for one."""
        return cls.of(divisor) if ribbons else cls((divisor,))

    @property
    def widths(self) -> tuple[int, ...]:
        """The powers of ten for which somebody stands, largest first: 1 for a ribbon that says ten."""
        return self.places_held

    @property
    def ribbons(self) -> bool:
        """Whether somebody stands for ten or more."""
        return len(self) > 1
