"""Lessons acted out piece by piece and child by child, with one mishap: nothing of the engine but the names."""

from collections import Counter
from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

from generator.engine.slips import Slip

FROM_A_TRAY = 0
NEEDS_RIBBONS = {Slip.BIG_TRAY_READ, Slip.SAME_KIND}


class Mishap(NamedTuple):
    """What goes wrong, at which place and in which round or exchange; what came instead; how many keep a piece.

    A piece rolls away from the middle at the beginning of a round, or from the last tray at the close. `lying`: what a
    tray passed over should have had lies in the middle until the end.
    """

    slip: Slip | None = None
    place: int | None = None
    turn: int = 0
    other: int = 0
    many: int = 1
    lying: bool = False


NOTHING = Mishap()


class Acted:
    """A lesson acted out: `values` on the trays, what is `left`, and every mishap there was a chance for."""

    def __init__(self, dividend: int, children: int, mishap: Mishap = NOTHING) -> None:
        self.mishap = mishap
        self.chances: list[Mishap] = []
        self.turns: Counter[tuple[str, int]] = Counter()
        self.middle = [int(digit) for digit in reversed(str(dividend))]
        self.lay_out()
        more = self.happens(Slip.TRAY_MANY, None) - (children > 1 and self.happens(Slip.TRAY_FEW, None))
        self.trays = [[0] * len(self.middle) for _ in range(children + more)]
        place = len(self.middle) - 1
        while place >= 0:
            place = self.deal_place(place)
        self.close()

    def happens(self, slip: Slip, place: int | None, turn: int = 0) -> bool:
        """Whether the mishap is this one; it is written down as a chance."""
        self.chances.append(Mishap(slip, place, turn))
        return self.mishap[:3] == (slip, place, turn) and not self.mishap.lying

    def lay_out(self) -> None:
        for place, laid in enumerate(self.middle):
            self.middle[place] += self.happens(Slip.LAID_MANY, place)
            self.middle[place] -= laid > 0 and self.happens(Slip.LAID_FEW, place)
        larger = len(self.middle)
        if larger < 4 and self.happens(Slip.LAID_MANY, larger):  # a cube is the largest piece in the room
            self.middle.append(1)

    def deal_place(self, place: int) -> int:
        """Deal one place and send the rest to the bank; the place to go on with, -1 at the close."""
        while self.middle[place] >= len(self.trays):
            self.deal_round(place)
        self.pass_over_last_tray(place)
        if self.middle[place]:
            self.begin_round(place)
        while place and self.middle[place]:
            self.exchange(place)
            largest = max(at for at, pieces in enumerate(self.middle) if pieces)
            if largest > place or self.middle[place] >= len(self.trays):
                return largest
        return place - 1

    def pass_over_last_tray(self, place: int) -> None:
        """In every round: what it should have goes round among the others, or on with what does not go round."""
        pieces, others = self.trays[-1][place], len(self.trays) - 1
        if others and pieces > 1 and (place or self.middle[place] + pieces >= others):
            if self.mishap == Mishap(Slip.NONE_OF_A_PLACE, place):
                self.give(others, place, -pieces)
                while self.middle[place] >= others:
                    for child in range(others):
                        self.give(child, place, 1)
            self.chances.append(Mishap(Slip.NONE_OF_A_PLACE, place))

    def leave_lying(self, place: int) -> None:
        held = self.trays[-1][place]
        rounds = [Mishap(Slip.SKIPPED, place, turn, lying=True) for turn in range(1, held + 1) if place]
        none = [Mishap(Slip.NONE_OF_A_PLACE, place, lying=True)] if held > 1 else []
        self.chances += rounds + none
        if self.mishap in rounds + none:
            self.give(len(self.trays) - 1, place, -1 if self.mishap in rounds else -held)

    def turn(self, what: str, place: int) -> int:
        self.turns[what, place] += 1
        return self.turns[what, place]

    def deal_round(self, place: int) -> None:
        turn = self.turn("round", place)
        if self.happens(Slip.ROLLED_AWAY, place, turn):
            self.middle[place] -= 1
            return
        gets = [1] * len(self.trays)
        gets[-1] -= self.happens(Slip.SKIPPED, place, turn)
        gets[0] += self.middle[place] > 1 and self.happens(Slip.DEALT_TWICE, place, turn)
        for child, pieces in enumerate(gets):
            self.give(child, place, pieces)

    def give(self, child: int, place: int, pieces: int) -> None:
        pieces = min(pieces, self.middle[place])
        self.trays[child][place] += pieces
        self.middle[place] -= pieces

    def begin_round(self, place: int) -> None:
        """A round that cannot be finished: each gives one back, but for those who keep theirs."""
        turn = self.turn("round", place)
        before = [tray[place] for tray in self.trays]
        twice = self.middle[place] > 1 and self.happens(Slip.DEALT_TWICE, place, turn)
        keeping = [Mishap(Slip.NOT_TAKEN_BACK, place, turn, many=many) for many in range(1, self.middle[place] + 1)]
        if place == 0:
            keeping += [Mishap(Slip.LEFT_OVER_DEALT, 0, many=many) for many in range(1, self.middle[place] + 1)]
        self.chances += keeping
        kept = self.mishap.many if self.mishap in keeping else 0
        for child in range(len(self.trays)):
            self.give(child, place, 1 + (twice and child == 0))
        for child, had in enumerate(before):
            if self.trays[child][place] > had and child >= kept:
                self.give(child, place, -1)

    def exchange(self, place: int) -> None:
        turn = self.turn("exchange", place)
        small = place - 1
        if not self.happens(Slip.NOT_BANKED, place, turn):
            self.middle[place] -= 1
        others = [other for other in range(len(self.middle)) if other != small]
        self.chances += [Mishap(Slip.WRONG_KIND, small, turn, other) for other in others]
        if self.mishap[:3] == (Slip.WRONG_KIND, small, turn):
            self.middle[self.mishap.other] += 10
            return
        self.middle[small] += 10
        self.middle[small] -= self.happens(Slip.BANK_NINE, small, turn)
        self.middle[small] += self.happens(Slip.BANK_ELEVEN, small, turn)

    def close(self) -> None:
        for place, held in enumerate(self.trays[-1]):
            self.leave_lying(place)
            self.trays[-1][place] -= held > 0 and self.happens(Slip.ROLLED_AWAY, place, FROM_A_TRAY)
        self.values = [sum(held * 10**place for place, held in enumerate(tray)) for tray in self.trays]
        self.left = sum(pieces * 10**place for place, pieces in enumerate(self.middle))
        for cards, value in misread(self.values[-1]):
            self.chances.append(cards)
            if cards == self.mishap:
                self.values[-1] = value
                break


def misread(share: int) -> Iterator[tuple[Mishap, int]]:
    """Cards that do not tell the share, two places changed or one zero dropped, and what they read."""
    text = str(share)
    size = len(text)
    for first, second in combinations(range(size), 2):
        if text[first] != text[second]:
            cards = list(text)
            cards[first], cards[second] = cards[second], cards[first]
            yield Mishap(Slip.SWAPPED, size - 1 - first, other=size - 1 - second), int("".join(cards))
    for zero in range(1, size):
        if text[zero] == "0":
            yield Mishap(Slip.ZERO_FORGOTTEN, size - 1 - zero), int(text[:zero] + text[zero + 1 :])
