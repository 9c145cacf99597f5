"""A repair in words: what the hands do, one movement after the other."""

from collections.abc import Sequence
from typing import NamedTuple

from generator.engine.observations import Reading
from generator.engine.places import UNITS, Counts
from generator.engine.repair_movements import (
    Again,
    At,
    ChangePlaces,
    Exchange,
    Movement,
    Refill,
    Repair,
    RepairStep,
    ShareOn,
)
from generator.engine.sharing import Sharing
from generator.words.material import whose_tray
from generator.words.numbers import capital, listing, material, place_word, small_number
from generator.words.phrases import Phrases

_VERBS = {At.LEFT_OVER: "give", At.TRAY: "take"}
"""What is done with a piece, by where it comes from; any other is brought, and to the bank every piece is taken."""

_MIDDLE = "middle"


def repair_words(words: Phrases, repair: Repair, sharing: Sharing, besides: Sequence[str] = ()) -> str:
    """What to do, in one line; "" where no piece has to be moved.

    besides    sentences that follow the movements, before those about sharing on or again
    """
    sentences = _sentences(words, repair, sharing)
    if len(sentences) == len(repair):
        moved = sum(not isinstance(step, Again | ShareOn) for step in repair)
        sentences[moved:moved] = besides
    return " ".join(sentences)


def _sentences(words: Phrases, repair: Repair, sharing: Sharing) -> list[str]:
    """A sentence for every step, or one for all of them where everything goes back to the bank.

    Trays are told by what they read, and where a movement has changed that, by what they read now; with ribbons also
    by whom they are for, because trays for different numbers may read alike. Where everything goes back to the bank,
    no other movement is needed before it.
    """
    if any(isinstance(step, Again) and _takes_everything(step, sharing) for step in repair):
        return [words.say("repair.everything-again")]
    sentences: list[str] = []
    changed: frozenset[tuple[int, int]] = frozenset()
    heap = _MIDDLE if any(_is_of_the_middle(step, sharing) for step in repair) else At.LEFT_OVER
    tray = "a-tray" if any(isinstance(step, Again) for step in repair) else "tray"
    for step in repair:
        sentences.append(_step(words, step, _SoFar(sharing.ribbons, changed, heap, tray)))
        changed = changed | _read_after(step)
    return sentences


def _takes_everything(again: Again, sharing: Sharing) -> bool:
    """Whether all pieces on trays go back; with ribbons always, because a round gives pieces of several places."""
    return sharing.ribbons or sharing.quotient < 10 ** (again.place + 1)


def _is_of_the_middle(step: RepairStep, sharing: Sharing) -> bool:
    """Whether what lies apart is called the middle: a larger piece comes or goes that is not left over, or ShareOn."""
    if isinstance(step, ShareOn):
        return True
    if not isinstance(step, Movement | Exchange) or step.place == UNITS:
        return False
    if isinstance(step, Exchange):
        return step.at is At.LEFT_OVER
    return step.source is At.LEFT_OVER or (step.target is At.LEFT_OVER and not sharing.end.middle.at(step.place))


class _SoFar(NamedTuple):
    """How the next movement names piles.

    ribbons    whether the name of a tray says whom it is for
    changed    the trays that earlier movements have changed: what each stands for and what it reads now
    heap       the key of the pieces that are not on trays: left over, or still in the middle
    tray       the key of trays: "a-tray" where more trays may read the same than are taken from
    """

    ribbons: bool
    changed: frozenset[tuple[int, int]]
    heap: str
    tray: str

    def spot(self, at: At) -> str:
        """The key of where pieces lie."""
        return self.heap if at is At.LEFT_OVER else at

    def pile(self, words: Phrases, at: At, trays: Reading | None) -> str:
        """'the middle', 'the tray that reads 1,306', 'each of the 3 trays that now read 1,307'."""
        if not trays:
            return words.say(f"repair.{self.spot(at)}")
        whose = whose_tray(words, trays.stands_for, self.ribbons)
        now = words.say("repair.now") if (trays.stands_for, trays.value) in self.changed else ""
        return words.say(f"repair.{self.tray}", count=trays.sharers, reads=trays.value, whose=whose, now=now)


def _read_after(step: RepairStep) -> frozenset[tuple[int, int]]:
    """The trays that a movement changes: what each stands for and what it reads then."""
    if not isinstance(step, Movement):
        return frozenset()
    worth = step.pieces * 10**step.place
    ends = ((step.giving, -worth), (step.taking, worth))
    return frozenset((trays.stands_for, trays.value + more) for trays, more in ends if trays)


def _step(words: Phrases, step: RepairStep, so_far: _SoFar) -> str:
    match step:
        case ChangePlaces():
            return words.say("repair.change-places", number=capital(small_number(words, step.trays)))
        case Refill():
            due = Counts.of(step.due)
            given = listing(words, [_pieces(words, due[place], place) for place in due.places_held])
            target = so_far.pile(words, At.TRAY, step.trays)
            return words.say("repair.refill", count=step.trays.sharers, target=target, pieces=given)
        case ShareOn():
            return words.say("repair.share-on")
        case Again():
            return words.say(
                "repair.again" if step.place else "repair.again-units", place=place_word(words, step.place)
            )
        case Exchange():
            down = step.pieces == 1
            large = step.place if down else step.place + 1
            return words.say(
                "repair.down" if down else "repair.up",
                large=_pieces(words, 1, large),
                small=_pieces(words, 10, large - 1),
                source=so_far.pile(words, step.at, step.trays),
            )
        case Movement(source=At.FLOOR):
            return _found(words, step, so_far)
        case Movement():
            trays = step.giving, step.taking
            from_each_for_each = all(each and each.sharers > 1 for each in trays)
            target = so_far.pile(words, step.target, step.taking)
            return words.say(
                "repair.take-for-each" if from_each_for_each else f"repair.{_verb(step, so_far.spot(step.target))}",
                count=step.in_all,
                pieces=_pieces(words, step.pieces, step.place),
                source=so_far.pile(words, step.source, step.giving),
                number=small_number(words, step.pieces),
                target=target,
            )


def _found(words: Phrases, step: Movement, so_far: _SoFar) -> str:
    """A piece that was lost; where none is missing after all, one comes from the bank."""
    one = material(words, step.place, 1)
    if step.target is At.BANK:
        return words.say("repair.found-of-bank", one=one)
    where = words.say(f"repair.where.{so_far.spot(step.target)}", target=so_far.pile(words, step.target, step.taking))
    return words.say("repair.found", one=one, where=where)


def _verb(step: Movement, target: str) -> str:
    if target == At.LEFT_OVER:
        return "to-left-over"
    return "take" if step.target is At.BANK else _VERBS.get(step.source, "bring")


def _pieces(words: Phrases, number: int, place: int) -> str:
    """'one bar', 'three unit beads'."""
    return words.say("repair.pieces", number=small_number(words, number), material=material(words, place, number))
