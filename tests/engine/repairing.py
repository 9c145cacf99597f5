"""A room put right by hands that know only the written repair: every tray for itself, nothing of the engine."""

from collections.abc import Iterable
from operator import mul
from typing import Any, NamedTuple

PLACES = ("units", "tens", "hundreds", "thousands", "ten-thousands", "hundred-thousands")
PLENTY = 10_000
POWERS: list[int] = [10**place for place in range(20)]


class Tray(NamedTuple):
    """One tray: what its child stands for, 10^width, and the pieces on it, units first."""

    width: int
    pieces: list[int]


class Room:
    """Trays, what is left over, the floor and the bank, each a list of pieces; a movement changes them.

    may_change    whether others are changed for pieces that are to be taken and do not lie there
    """

    def __init__(
        self, size: int, trays: Iterable[tuple[int, Iterable[int]]], left: Iterable[int], may_change: bool = False
    ) -> None:
        self.size = size
        self.trays = [Tray(width, self.filled(pieces)) for width, pieces in trays]
        self.spots = {"left-over": self.filled(left), "floor": self.filled(()), "bank": [PLENTY] * size}
        self.may_change = may_change
        self.has_changed = False

    def filled(self, pieces: Iterable[int]) -> list[int]:
        return [*pieces, *[0] * self.size][: self.size]

    def everything(self) -> list[int]:
        """All pieces of the school, by place."""
        heaps = [*self.spots.values(), *(tray.pieces for tray in self.trays)]
        return [sum(heap[place] for heap in heaps) for place in range(self.size)]

    def put_right(self, repair: list[dict[str, Any]], sharers: dict[int, int]) -> None:
        """Carry out a repair as the command writes it; `sharers`: how many trays there should be, by width."""
        for step in repair:
            if "again_from" in step:
                self.set_down_trays(sharers)
                self.share_again(PLACES.index(step["again_from"]))
            elif "share_on_from" in step:
                self.set_down_trays(sharers)
                self.share_on(PLACES.index(step["share_on_from"]))
            elif "exchange" in step:
                place = PLACES.index(step["place"])
                for heap in self.that_read(step, "") if step["at"] == "tray" else [self.spots[step["at"]]]:
                    if self.may_change:
                        self.change_for(heap, place, step["exchange"])
                    self.exchange(heap, place, step["exchange"])
            else:
                self.move(step)
        self.set_down_trays(sharers)

    def move(self, step: dict[str, Any]) -> None:
        place = PLACES.index(step["place"])
        givers = self.that_read(step, "") if step["from"] == "tray" else [self.spots[step["from"]]]
        if step["to"] != "tray":
            takers = [self.spots[step["to"]]]
        else:
            takers = self.that_read(step, "to_" if step["from"] == "tray" else "")
        hands = max(len(givers), len(takers))
        assert {len(givers), len(takers)} <= {1, hands}
        assert step["pieces"] > 0
        for hand in range(hands):
            giver, taker = givers[hand % len(givers)], takers[hand % len(takers)]
            if self.may_change:
                self.change_for(giver, place, step["pieces"])
            giver[place] -= step["pieces"]
            taker[place] += step["pieces"]
            assert giver[place] >= 0, "pieces are taken where there are none"

    def that_read(self, step: dict[str, Any], which: str) -> list[list[int]]:
        """The trays that a step speaks of; where only some of those that read so are meant, they are all the same."""
        width = len(str(step.get(f"{which}stands_for", 1))) - 1
        reads = step[f"{which}reads"]
        found = [tray.pieces for tray in self.trays if tray.width == width and worth(tray.pieces) == reads]
        trays: int = step.get(f"{which}trays", step["trays"])
        assert len(found) >= trays > 0
        assert self.may_change or all(pieces == found[0] for pieces in found), (
            "trays that read the same are not the same"
        )
        return found[:trays]

    def change_for(self, heap: list[int], place: int, pieces: int) -> None:
        """Others for what does not lie there, at the bank: the next larger piece that does, or ten smaller ones."""
        while heap[place] < pieces:
            self.has_changed = True
            larger = next((at for at in range(place + 1, self.size) if heap[at]), None)
            self.exchange(heap, *((place - 1, 10) if larger is None else (larger, 1)))

    def exchange(self, heap: list[int], place: int, pieces: int) -> None:
        """One piece becomes ten of the next smaller kind, or ten become one of the next larger."""
        other, come = (place - 1, 10) if pieces == 1 else (place + 1, 1)
        assert pieces in (1, 10)
        assert heap[place] >= pieces
        heap[place] -= pieces
        heap[other] += come
        self.spots["bank"][place] += pieces
        self.spots["bank"][other] -= come

    def set_down_trays(self, sharers: dict[int, int]) -> None:
        """As many trays as there should be: a new one is empty, what lies on one too many goes to the middle."""
        middle = self.spots["left-over"]
        for width, wanted in sharers.items():
            there = [tray for tray in self.trays if tray.width == width]
            self.trays += [Tray(width, self.filled(())) for _ in range(wanted - len(there))]
            for tray in there[wanted:]:
                middle[:] = map(sum, zip(middle, tray.pieces, strict=True))
                self.trays.remove(tray)
        self.trays.sort(key=lambda tray: -tray.width)

    def share_again(self, top: int) -> None:
        """All of a place and below goes back, is put in order at the bank, and goes out again in turn.

        Who has the larger pieces of a round already waits until the others have theirs.
        """
        middle = self.spots["left-over"]
        for tray in self.trays:
            for place in range(top + 1):
                middle[place] += tray.pieces[place]
                tray.pieces[place] = 0
        self.share_out(top)

    def share_on(self, top: int) -> None:
        """What is in the middle goes round, from a place of a tray for one down."""
        self.share_out(top + max(tray.width for tray in self.trays))

    def share_out(self, top: int) -> None:
        """What is in the middle is put in order at the bank, and goes out in turn: pieces of a place and below."""
        middle = self.spots["left-over"]
        widest = max(tray.width for tray in self.trays)
        for place in range(self.size - 1, top + widest, -1):
            while middle[place]:
                self.exchange(middle, place, 1)
        for place in range(min(top + widest, self.size - 1)):
            while middle[place] >= 10:
                self.exchange(middle, place, 10)
        for level in range(top, -1, -1):
            served = [tray for tray in self.trays if level + tray.width <= top]
            waiting = [tray for tray in self.trays if level + tray.width > top]
            while served and self.another_round(level, served, waiting):
                for tray in served:
                    self.give(tray, level + tray.width)
            too_large = level + widest
            while level and too_large < self.size and middle[too_large]:
                self.exchange(middle, too_large, 1)

    def another_round(self, level: int, served: list[Tray], waiting: list[Tray]) -> bool:
        for tray in waiting:
            has = tray.pieces[level + tray.width] if level + tray.width < self.size else 0
            return served[0].pieces[level + served[0].width] < has
        round_of_all = sum(POWERS[level + tray.width] for tray in served)
        return worth(self.spots["left-over"]) >= round_of_all

    def give(self, tray: Tray, place: int) -> None:
        middle = self.spots["left-over"]
        while not middle[place]:
            larger = next(at for at in range(place + 1, self.size) if middle[at])
            self.exchange(middle, larger, 1)
        middle[place] -= 1
        tray.pieces[place] += 1


def worth(pieces: Iterable[int]) -> int:
    return sum(map(mul, pieces, POWERS))
