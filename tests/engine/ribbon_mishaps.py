"""Lessons with ribbons acted out tray by tray, with one mishap: nothing of the engine but the names."""

from collections import Counter
from typing import NamedTuple

from generator.engine.slips import Slip


class Mishap(NamedTuple):
    """What goes wrong with the last tray of those for 10^width, at which level and in which round; 0: in every one.

    `lying`: what it should have had lies in the middle until the end.
    """

    slip: Slip | None = None
    width: int = 0
    level: int = 0
    turn: int = 0
    lying: bool = False


class Lesson:
    """A lesson acted out: what is read at the close, by what a tray stands for, and the value left over."""

    def __init__(self, dividend: int, divisor: int, mishap: Mishap) -> None:
        self.mishap = mishap
        self.middle = [int(digit) for digit in reversed(str(dividend))]
        groups = list(enumerate(map(int, reversed(str(divisor)))))
        self.widths = [width for width, sharers in reversed(groups) for _ in range(sharers)]
        self.trays = [[0] * len(self.middle) for _ in self.widths]
        self.chosen = len(self.widths) - 1 - self.widths[::-1].index(mishap.width) if mishap.slip else 0
        self.given = [0 if self.ribbons_are_forgotten() else width for width in self.widths]
        if mishap == Mishap(Slip.SAME_KIND, mishap.width) and mishap.width:
            self.given[self.chosen] = min(self.widths)
        widest = max(self.given)
        for level in range(max(len(self.middle) - 1 - widest, 0), -1, -1):
            turn = 1
            while self.goes_round(level):
                self.deal_round(level, turn)
                turn += 1
            while level and level + widest < len(self.middle) and self.middle[level + widest]:
                self.exchange(self.middle, level + widest)
        self.left_lying()
        self.left = worth(self.middle)
        self.read = self.read_at_the_close()

    def ribbons_are_forgotten(self) -> bool:
        return self.mishap == Mishap(Slip.SAME_KIND)

    def due(self, tray: int, level: int) -> int:
        return level + self.given[tray]

    def goes_round(self, level: int) -> bool:
        middle = list(self.middle)
        return all(self.take(middle, self.due(tray, level)) for tray in range(len(self.trays)))

    def deal_round(self, level: int, turn: int) -> None:
        for tray, held in enumerate(self.trays):
            place = self.due(tray, level)
            now = self.mishap == Mishap(Slip.SAME_KIND, self.mishap.width, level, turn)
            if now and tray == self.chosen and self.mishap.width:
                place = level + min(self.widths)
            assert self.take(self.middle, place)
            held[place] += 1

    def take(self, middle: list[int], place: int) -> bool:
        """One piece out of the middle, if need be from the bank for the nearest larger one."""
        if place >= len(middle):
            return False
        if not middle[place]:
            larger = next((at for at in range(place + 1, len(middle)) if middle[at]), 0)
            if not larger:
                return False
            for at in range(larger, place, -1):
                self.exchange(middle, at)
        middle[place] -= 1
        return True

    def exchange(self, middle: list[int], place: int) -> None:
        middle[place] -= 1
        middle[place - 1] += 10

    def left_lying(self) -> None:
        if self.mishap.lying:
            place = self.mishap.level + self.mishap.width
            pieces = 1 if self.mishap.turn else self.trays[self.chosen][place]
            self.trays[self.chosen][place] -= pieces
            self.middle[place] += pieces

    def read_at_the_close(self) -> Counter[tuple[int, int]]:
        read = Counter((10**width, worth(tray)) for width, tray in zip(self.widths, self.trays, strict=True))
        if self.mishap.slip is Slip.BIG_TRAY_READ:
            for_one = sum(many for (stands_for, _), many in read.items() if stands_for == 1)
            read = Counter({tray: many for tray, many in read.items() if tray[0] > 1})
            read[1, worth(self.trays[self.chosen])] += max(for_one, 1)
        return read


def worth(pieces: list[int]) -> int:
    return sum(count * 10**place for place, count in enumerate(pieces))
