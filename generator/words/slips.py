"""Slips in words: what may have happened, where to look, and what puts it right."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from generator.engine.diagnosis import Cause, Symptom
from generator.engine.places import UNITS, place_name
from generator.engine.sharing import Sharing
from generator.engine.slips import Slip, Spot
from generator.engine.steps import Action
from generator.words.material import Lying, what_is_seen, whose_tray
from generator.words.numbers import capital, choice_of, listing, material, place_word, stands_for_word
from generator.words.phrases import Phrases
from generator.words.repairs import repair_words

OF_CARDS = {Slip.SWAPPED, Slip.ZERO_FORGOTTEN}


class Explanation(NamedTuple):
    """What may have happened, where to look, and what puts it right."""

    happened: str
    look: str
    mend: str


def explain(words: Phrases, cause: Cause, sharing: Sharing) -> Explanation:
    """One cause in words; what is said of when it happened holds all its occasions together."""
    filled = _filled(words, cause, sharing)
    if sharing.ribbons:
        filled |= _filled_with_ribbons(words, cause, sharing)
    if cause.slip in OF_CARDS:
        filled["whose_cards"] = _whose_cards(words, cause, filled, sharing)
    filled["repair"] = repair_words(words, cause.repair, sharing)
    tables = (f"slip.{cause.slip}.{cause.occasions[0].spot}", f"slip.{cause.slip}", "slip")
    special = {
        "nobody-for-one": sharing.ribbons and not sharing.mat[UNITS],
        "with-ribbons": sharing.ribbons,
        "of-units": cause.place == UNITS,
        "of-two": sharing.sharers == 2,
    }
    ends = [*(f"-{name}" for name, holds in special.items() if holds), ""]

    def sentence(part: str) -> str:
        """The most special sentence that there is."""
        keys = (f"{table}.{part}{end}" for table in tables for end in ends)
        return words.say(next(filter(words.has, keys)), **filled).strip()

    return Explanation(sentence("happened"), sentence("look"), sentence("mend"))


class Row(NamedTuple):
    """What is seen, what may have happened, where to look, what puts it right: several causes, each repair once."""

    seen: str
    happened: tuple[str, ...]
    look: str
    mends: tuple[str, ...]


_MOST_CAUSES = 3
_MOST_TURNS_LISTED = 2
ONE_BEAD_SHORT = -1


def symptom_row(words: Phrases, symptom: Symptom, sharing: Sharing) -> Row:
    """One symptom in words, with its likeliest causes.

    What is left over and dealt all the same is a last round not taken back: one event, told once.
    """
    first, *others = symptom.causes
    if first.slip is Slip.LEFT_OVER_DEALT:
        others = [cause for cause in others if cause.slip is not Slip.NOT_TAKEN_BACK]
    told = [explain(words, cause, sharing) for cause in (first, *others[: _MOST_CAUSES - 1])]
    happened, *or_happened = dict.fromkeys(cause.happened for cause in told)
    mend, *or_mends = dict.fromkeys(cause.mend for cause in told)
    return Row(
        _symptom_words(words, symptom, sharing),
        (happened, *(words.say("slips.or", told=one) for one in or_happened)),
        told[0].look,
        (mend, *(words.say("slips.or", told=one) for one in or_mends)),
    )


def row_on_paper(words: Phrases, symptom: Symptom, sharing: Sharing) -> Row:
    """The row of a sheet: the likeliest cause alone; where a unit bead may be lost, counting first and every cause."""
    row = symptom_row(words, symptom, sharing)
    if symptom.off_by != ONE_BEAD_SHORT:
        return row._replace(happened=row.happened[:1], mends=row.mends[:1])
    return row._replace(mends=(words.say("slips.stop-in-short"), *_after_counting(words, symptom, sharing)))


def _after_counting(words: Phrases, symptom: Symptom, sharing: Sharing) -> Iterator[str]:
    """What puts it right once the unit beads are counted: first where one was lost, then where none is missing."""
    causes = symptom.causes[:_MOST_CAUSES]
    lost = [repair_words(words, cause.repair, sharing) for cause in causes if cause.slip is Slip.ROLLED_AWAY]
    none_missing = [explain(words, cause, sharing).mend for cause in causes if cause.slip is not Slip.ROLLED_AWAY]
    for key, told in (("slips.found", lost), ("slips.none-missing", none_missing)):
        mends = list(dict.fromkeys(told))
        yield from (words.say(key if mend == mends[0] else "slips.or", told=mend) for mend in mends)
    if not none_missing:
        yield words.say("slips.from-bank")


def _symptom_words(words: Phrases, symptom: Symptom, sharing: Sharing) -> str:
    """What the room sees at the close, and by how much it is too much or too little in all."""
    slips = {cause.slip for cause in symptom.causes}
    if slips == {Slip.BIG_TRAY_READ}:
        return words.say("slips.answer-read", value=symptom.seen.trays[-1].value)
    lying = Lying(symptom.left, sharing.end.middle)
    seen = capital(what_is_seen(words, symptom.seen, sharing.ribbons, lying))
    if slips <= OF_CARDS:
        seen = words.say("slips.on-the-cards", seen=seen)
    if not symptom.off_by:
        return seen
    return words.say(
        "slips.too-much" if symptom.off_by > 0 else "slips.too-little", seen=seen, off_by=abs(symptom.off_by)
    )


def _filled(words: Phrases, cause: Cause, sharing: Sharing) -> dict[str, str | int]:
    """Everything that a sentence about a slip may name."""
    occasion = cause.occasions[0]
    place = cause.place or UNITS
    other = occasion.other or UNITS
    turns = sorted({occasion.turn for occasion in cause.occasions})
    return {
        "count": occasion.many,
        "one": material(words, place, 1),
        "several": material(words, place, 2),
        "place": place_word(words, place),
        "other_place": place_word(words, other),
        "other_one": material(words, other, 1),
        "other_several": material(words, other, 2),
        "other_stands_for": 10**other,
        "round": _in_turns(words, "rounds", turns, _rounds(sharing, place), place_word(words, place)),
        "exchange": _at_exchanges(words, turns, place + 1, sharing),
        "stop": words.say("slips.stop", dish=words.say("slips.dish") if sharing.remainder else ""),
        "or_laid": words.say("slips.or-laid") if sharing.start[UNITS] else "",
        "afresh": words.say("repair.everything-again"),
        "fair": "",
        "whose": whose_tray(words, 10**other, sharing.ribbons),
    }


def _whose_cards(words: Phrases, cause: Cause, filled: dict[str, str | int], sharing: Sharing) -> str:
    spot = cause.occasions[0].spot
    of_one = sharing.ribbons and spot is Spot.ONE_TRAY
    return words.say(f"slip.whose-cards.{spot}{'-with-ribbons' if of_one else ''}", **filled)


def _filled_with_ribbons(words: Phrases, cause: Cause, sharing: Sharing) -> dict[str, str | int]:
    """What a sentence says otherwise, or says besides, where a child stands for ten or a hundred."""
    smallest = sharing.mat.widths[-1]
    filled: dict[str, str | int] = {
        "fair": _fair(words, sharing),
        "stands_for": 10**smallest,
    }
    if cause.slip in OF_CARDS:  # the share of one who stands for ten lies one place higher
        filled["place"] = place_word(words, (cause.place or UNITS) + smallest)
        filled["other_place"] = place_word(words, (cause.occasions[0].other or UNITS) + smallest)
    if cause.slip is Slip.SAME_KIND:
        filled["larger"] = 10 ** (smallest + (cause.place or UNITS) - (cause.occasions[0].other or UNITS))
    return filled


def _fair(words: Phrases, sharing: Sharing) -> str:
    """How trays compare of children who do not all stand for the same."""
    *larger, smallest = sharing.mat.widths
    if not larger:
        return words.say("fair.all-the-same")
    fair = [
        words.say(f"fair.times-{place_name(width - smallest)}", stands_for=stands_for_word(words, width))
        for width in reversed(larger)
    ]
    return words.say("fair.compare", stands_for=stands_for_word(words, smallest), fair=listing(words, fair))


def _rounds(sharing: Sharing, place: int) -> int:
    """How many rounds are begun at a place, also those that are taken back."""
    return sum(step.action in (Action.DEAL, Action.TAKE_BACK) and step.place == place for step in sharing.steps)


def _at_exchanges(words: Phrases, turns: list[int], place: int, sharing: Sharing) -> str:
    """'when the hundred-square was exchanged', 'in one of the 3 exchanges of tens'."""
    in_all = sum(step.action is Action.EXCHANGE and step.place == place for step in sharing.steps)
    if turns[-1] == 1:
        key = "turn.exchange-only" if in_all == 1 else "turn.exchange-first"
        return words.say(key, one=material(words, place, 1), place=place_word(words, place))
    if len(turns) == in_all:
        return words.say("turn.exchanges-all", last=in_all, place=place_word(words, place))
    return _in_turns(words, "exchanges", turns, in_all, place_word(words, place))


def _in_turns(words: Phrases, what: str, turns: list[int], in_all: int, place: str) -> str:
    """'in round 2 or 3 of the units', 'in one of the first 8 rounds of the units': where it can have happened."""
    first, last = turns[0], turns[-1]
    if len(turns) > _MOST_TURNS_LISTED and last - first == len(turns) - 1:
        which = "from-to" if first > 1 else "first" if last < in_all else "all"
        return words.say(f"turn.{what}-{which}", first=first, last=last, place=place)
    listed = [words.grouping.written(turn) for turn in turns]
    return words.say(f"turn.{what}", turns=choice_of(words, listed), place=place)
