"""Slips in words: what may have happened, where to look, and how to go on kindly."""

from __future__ import annotations

from typing import NamedTuple

from generator.engine.diagnosis import Cause
from generator.engine.places import UNITS, place_name
from generator.engine.sharing import Sharing
from generator.engine.slips import Slip, Spot

_STANDS_FOR = ("one", "ten", "a hundred", "a thousand")
_TIMES = ("once", "ten times", "a hundred times", "a thousand times")
_PIECES = ("unit bead", "ten-bar", "hundred-square", "thousand-cube")


class Words(NamedTuple):
    """What may have happened, where to look, and how to go on."""

    happened: str
    look: str
    go_on: str


def explain(cause: Cause) -> Words:
    """One cause in words; what is said of when it happened holds all its points together."""
    point = cause.points[0]
    place = UNITS if cause.place is None else cause.place
    one, several = _piece(place), _piece(place) + "s"
    exchange = f"{_numbered(cause, 'exchange')} from the {place_name(place + 1)}"
    this_round = f"{_numbered(cause, 'round')} of {place_name(place)}"
    kept = f"{point.many:,} children kept theirs" if point.many > 1 else "one child kept a piece"
    fullest = f"the fullest trays: there is one {one} more than on the others"
    deal_on = "into the middle, to what is left over. Then deal on"
    one_back = (
        f"One {one} goes back to the bank. If none is left over, everybody first lays one piece of this kind back "
        "into the middle, or a larger one to exchange. Then deal on."
    )
    whose = "everybody's cards" if point.spot is Spot.EVERY_TRAY else "one child's cards"
    match cause.slip:
        case Slip.LEFT_OVER_DEALT:
            return Words(
                f"What was left over was dealt all the same: {counted(point.many, one)} of it.",
                f"Look at {fullest}.",
                "Lay it apart again: what does not go round stays left over.",
            )
        case Slip.NOT_TAKEN_BACK:
            then = "and stays left over." if place == UNITS else "and to the bank; then deal on."
            return Words(
                f"A round of {place_name(place)} could not be finished, and was not taken back: {kept}.",
                f"Look at {fullest}.",
                f"What was kept goes back into the middle {then}",
            )
        case Slip.SKIPPED:
            return Words(
                f"A child was passed over in {this_round}.",
                f"Look at the tray with the least: there is one {one} less than on the others.",
                f"Everybody else lays one {one} back {deal_on}.",
            )
        case Slip.DEALT_TWICE:
            return Words(
                f"A child was dealt two {several} in {this_round}.",
                f"Look at {fullest}.",
                f"If another child has one too few, it goes there. Otherwise it goes back {deal_on}.",
            )
        case Slip.BANK_NINE:
            return Words(
                f"The bank counted out nine {several} instead of ten in {exchange}.",
                "Look at the bank: count its pieces, and count out every ten once more aloud.",
                f"Fetch the {one} that did not come and lay it {deal_on}.",
            )
        case Slip.BANK_ELEVEN:
            return Words(
                f"The bank counted out eleven {several} instead of ten in {exchange}.",
                "Look at the bank: count its pieces, and count out every ten once more aloud.",
                one_back,
            )
        case Slip.WRONG_KIND:
            other = _piece(point.other or UNITS)
            return Words(
                f"The bank handed out ten {other}s instead of ten {several} in {exchange}.",
                f"Look at the bank: ten {several} too many are there, and ten {other}s are gone.",
                "Lay everything back into the middle, change the ten at the bank, and share it once more.",
            )
        case Slip.NOT_BANKED:
            looks = {
                Spot.LEFT_OVER: "Look at what is left over: it lies there.",
                Spot.ONE_TRAY: "Look at the fullest tray: it lies there.",
            }
            return Words(
                f"A {one} was exchanged and did not stay at the bank, in {_numbered(cause, 'exchange')} from "
                f"the {place_name(place)}.",
                looks.get(
                    point.spot or Spot.MIDDLE, "Look at the bank: it came back with its ten, and went once more."
                ),
                "It goes to the bank, and all is well." if point.spot in looks else one_back,
            )
        case Slip.ROLLED_AWAY:
            care = " A bead on the floor is a danger to the little ones: find it first." if place == UNITS else ""
            back = "back on that tray" if point.spot is Spot.ONE_TRAY else f"back {deal_on}"
            where = "a tray" if point.spot is Spot.ONE_TRAY else "the middle"
            return Words(
                f"A {one} was lost from {where}.",
                f"Look under the mat and the trays, and on the way to the bank.{care}",
                f"Lay it {back}.",
            )
        case Slip.LAID_FEW:
            return Words(
                f"The number was laid out with one {one} too few.",
                "Look at the large cards, and at the bank: count what was fetched for the number.",
                f"Fetch the {one} and lay it {deal_on}.",
            )
        case Slip.LAID_MANY:
            return Words(
                f"The number was laid out with one {one} too many.",
                "Look at the large cards, and at the bank: count what was fetched for the number.",
                one_back,
            )
        case Slip.TRAY_FEW:
            return Words(
                "It was shared out to one tray too few.",
                "Look at who sits on the mat: is there a tray before every child?",
                "Set the tray that is not there, lay everything back into the middle, and share once more.",
            )
        case Slip.TRAY_MANY:
            return Words(
                "It was shared out to one tray too many.",
                "Look at who sits on the mat: is there a child behind every tray?",
                "Lay everything back into the middle, take the tray away, and share once more.",
            )
        case Slip.SWAPPED:
            return Words(
                f"The beads are right; on {whose} {place_name(place)} and {place_name(point.other or UNITS)} "
                "changed places.",
                "Look at the cards beside the beads, one place after the other.",
                "Count the beads aloud place by place, and lay the card of each place beside its beads.",
            )
        case Slip.ZERO_FORGOTTEN:
            empty = f"the empty place of the {place_name(place)} is"
            if point.many > 1:
                empty = f"the {place_name(place)} and every other empty place are"
            return Words(
                f"The beads are right; on {whose} {empty} forgotten.",
                "Look at the cards beside the beads, one place after the other, also where there is no bead.",
                "Count the beads aloud place by place, name the place with none, and slide the cards together again.",
            )


def explain_with_ribbons(cause: Cause, sharing: Sharing) -> Words:
    """The same where children stand for ten or a hundred: their trays and cards are not like those of the others."""
    words = explain(cause)
    point = cause.points[0]
    one = _piece(UNITS if cause.place is None else cause.place)
    look = _fair(sharing)
    match cause.slip:
        case Slip.LEFT_OVER_DEALT:
            happened = f"What was left over was dealt all the same: {counted(point.many, 'piece')} of it."
            return words._replace(happened=happened, look=look)
        case Slip.NOT_TAKEN_BACK:
            kept = f"{point.many:,} children kept their pieces" if point.many > 1 else "one child kept a piece"
            return Words(
                f"A round could not be finished, and was not taken back: {kept}.",
                look,
                "What was kept goes back into the middle. Exchange and deal on as this lesson says.",
            )
        case Slip.SKIPPED:
            return Words(
                f"A child was passed over in one round, and has a {one} too few.",
                look,
                "Each other child lays back the piece that this round gave, each of its own kind. Then deal on.",
            )
        case Slip.DEALT_TWICE:
            return Words(
                f"A child was dealt two {one}s in one round.",
                look,
                f"One {one} of that tray goes back into the middle. Then deal on.",
            )
        case Slip.NOT_BANKED if point.spot is Spot.ONE_TRAY:
            return words._replace(look=look)
        case Slip.SWAPPED | Slip.ZERO_FORGOTTEN:
            return words._replace(happened=_on_cards_of_ribbons(cause, sharing))
        case _:
            return words


def _fair(sharing: Sharing) -> str:
    """How trays compare of children who do not all stand for the same."""
    *larger, smallest = sharing.mat.widths
    if not larger:
        return "Compare the trays: all should have the same."
    fair = [f"{_TIMES[width - smallest]} as much for {_STANDS_FOR[width]}" for width in reversed(larger)]
    return f"Compare each tray with one that is for {_STANDS_FOR[smallest]}. Fair is {', '.join(fair)}."


def _on_cards_of_ribbons(cause: Cause, sharing: Sharing) -> str:
    """What is not right on cards: the share of one who stands for ten lies one place higher."""
    point = cause.points[0]
    swapped = cause.slip is Slip.SWAPPED
    if point.spot is Spot.EVERY_TRAY:
        wrong = "two places changed places" if swapped else "a zero is forgotten"
        return f"The beads are right; on everybody's cards {wrong}."
    smallest = sharing.mat.widths[-1]
    place = place_name((cause.place or UNITS) + smallest)
    other = place_name((point.other or UNITS) + smallest)
    whose = f"the cards of one who stands for {10**smallest:,}"
    wrong = f"{place} and {other} changed places" if swapped else f"the empty place of the {place} is forgotten"
    return f"The beads are right; on {whose} {wrong}."


def _numbered(cause: Cause, what: str) -> str:
    """'exchange 2', 'one of the rounds 1 to 8': the turns at which it can have happened."""
    turns = sorted({point.turn for point in cause.points})
    first, last = turns[0], turns[-1]
    if first == last:
        return f"{what} {first:,}"
    unbroken = last - first == len(turns) - 1
    which = f"{first:,} to {last:,}" if unbroken else ", ".join(f"{turn:,}" for turn in turns)
    return f"one of the {what}s {which}"


def _piece(place: int) -> str:
    return _PIECES[place] if place < len(_PIECES) else f"{10**place:,}-piece"


def counted(number: int, what: str) -> str:
    """'1 tray', '3 trays'."""
    return f"{number:,} {what}{'' if number == 1 else 's'}"
