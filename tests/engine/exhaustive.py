"""Every way to put a room right in so few movements, tried without any thought of what is useful."""

from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from functools import cache
from itertools import product
from typing import NamedTuple

MOST_AT_ONCE = 12

Pieces = tuple[int, ...]


class Heap(NamedTuple):
    """Pieces that lie somewhere, and those that should; trays of one name are for the same."""

    name: str
    there: Pieces
    right: Pieces

    @property
    def is_tray(self) -> bool:
        return self.name.startswith("tray")

    @property
    def reads(self) -> int:
        return sum(pieces * 10**place for place, pieces in enumerate(self.there))


class Wrong(NamedTuple):
    """What is wrong at one place of heaps of one name: how many pieces too many."""

    name: str
    place: int
    pieces: int


# How many of each heap there are; the bank is not among them: it has enough, and is right when all others are.
Heaps = frozenset[tuple[Heap, int]]


@cache
def can_be_put_right(heaps: Heaps, movements: int) -> bool:
    """Whether so many movements can be enough.

    A movement changes what lies at one place in two heaps (or in those that are the same), an exchange two places of
    one heap: so what is wrong can be halved at best. Where it must become less, only amounts count that are right
    for a heap or make it like others of its name.
    """
    still_wrong = wrong(heaps)
    if not still_wrong or len(still_wrong) > 2 * movements:
        return not still_wrong
    anything: Collection[int] = range(1, MOST_AT_ONCE + 1)
    amounts = [anything] * len(next(iter(heaps))[0].there)
    if len(still_wrong) > 2 * (movements - 1):
        trays = max(many for _, many in heaps)
        amounts = [amounts_that_count(still_wrong, place, trays) for place in range(len(amounts))]
    return any(can_be_put_right(after, movements - 1) for after in dict.fromkeys(steps(heaps, amounts)))


def wrong(heaps: Heaps) -> frozenset[Wrong]:
    return frozenset(
        Wrong(heap.name, place, there - right)
        for heap, _ in heaps
        for place, (there, right) in enumerate(zip(heap.there, heap.right, strict=True))
        if there != right
    )


def amounts_that_count(still_wrong: frozenset[Wrong], place: int, most: int) -> Collection[int]:
    here = [one for one in still_wrong if one.place == place]
    totals = {abs(one.pieces - other.pieces) for one in here for other in here if one.name == other.name}
    totals |= {abs(one.pieces) for one in here}
    return {total // many for total in totals for many in range(1, most + 1) if total >= many}


def steps(heaps: Heaps, amounts: Sequence[Collection[int]]) -> Iterator[Heaps]:
    """Every movement of such amounts at a place and every exchange, with any number of trays that are the same.

    Trays for the same that read alike and do not hold the same are not told apart: nothing can be done with them.
    """
    read = Counter((heap.name, heap.reads) for heap, _ in heaps)
    named = [(heap, many) for heap, many in heaps if not heap.is_tray or read[heap.name, heap.reads] == 1]
    some = [(heap, many) for heap, all_of_them in named for many in range(1, all_of_them + 1)]
    moved = [(place, pieces) for place, counts in enumerate(amounts) for pieces in counts]
    for (heap, many), (place, pieces) in product(some, moved):
        yield from changed(heaps, [(heap, many, {place: pieces})])
        yield from changed(heaps, [(heap, many, {place: -pieces})])
        for other, so_many in some:
            if not heap.is_tray or not other.is_tray or many == so_many:
                gives = pieces if heap.is_tray else pieces * so_many
                takes = pieces if other.is_tray else pieces * many
                yield from changed(heaps, [(heap, many, {place: -gives}), (other, so_many, {place: takes})])
    for (heap, many), place in product(some, range(1, len(amounts))):
        yield from changed(heaps, [(heap, many, {place: -1, place - 1: 10})])
        yield from changed(heaps, [(heap, many, {place: 1, place - 1: -10})])


def changed(heaps: Heaps, changes: Sequence[tuple[Heap, int, dict[int, int]]]) -> Iterator[Heaps]:
    """The heaps with more or fewer pieces in some; nothing where that cannot be."""
    after = Counter(dict(heaps))
    for heap, many, _ in changes:
        after[heap] -= many
        if after[heap] < 0:
            return
    for heap, many, more in changes:
        there = tuple(pieces + more.get(place, 0) for place, pieces in enumerate(heap.there))
        if min(there) < 0:
            return
        after[heap._replace(there=there)] += many
    yield frozenset((heap, many) for heap, many in after.items() if many)
