"""Slips in words: what may have happened, where to look, and what puts it right."""

from collections.abc import Collection, Iterable
from typing import NamedTuple

from generator.engine.dealing import Action
from generator.engine.diagnosis import Cause, Symptom
from generator.engine.places import UNITS
from generator.engine.repair_movements import At, Movement, Repair
from generator.engine.sharing import Sharing
from generator.engine.slips import Slip, Spot
from generator.engine.whatever_happened import places_not_shown
from generator.words.material import what_is_seen, whose_tray
from generator.words.numbers import capital, listing, material, place_word
from generator.words.phrases import Phrases
from generator.words.repairs import repair_words

OF_CARDS = {Slip.SWAPPED, Slip.ZERO_FORGOTTEN}
ONE_BEAD_SHORT = -1
_MOST_CAUSES = 3
_MOST_TURNS_LISTED = 2
_ROUNDS = (Action.DEAL, Action.TAKE_BACK)


class Explanation(NamedTuple):
    """What may have happened, where to look, and what puts it right."""

    happened: str
    look: str
    mend: str


def explain(words: Phrases, cause: Cause, sharing: Sharing, causes: Collection[Cause] = ()) -> Explanation:
    """One cause in words; one phrase says when it may have happened, for all its occasions together."""
    filled = _filled(words, cause, sharing)
    too_few_laid = any(one.slip is Slip.LAID_FEW for one in causes)
    filled["or_laid"] = words.say("slips.or-laid") if too_few_laid else ""
    filled["laid"] = words.say("slips.laid") if too_few_laid else ""
    tables = (f"slip.{cause.slip}.{cause.occasions[0].spot}", f"slip.{cause.slip}", "slip")
    special = {
        "-nobody-for-one": sharing.ribbons and not sharing.mat[UNITS],
        "-with-ribbons": sharing.ribbons,
        "-of-units": cause.place == UNITS,
        "": True,
    }
    ends = [end for end, holds in special.items() if holds]

    def sentence(part: str) -> str:
        """The most special sentence that the phrases have."""
        keys = (f"{table}.{part}{end}" for table in tables for end in ends)
        return words.say(next(filter(words.has, keys), f"slip.{cause.slip}.{part}"), **filled).strip()

    return Explanation(sentence("happened"), sentence("look"), sentence("mend"))


class Row(NamedTuple):
    """What is seen, what may have happened, where to look, what puts it right: several causes, each repair once."""

    seen: str
    happened: tuple[str, ...]
    look: str
    mends: tuple[str, ...]


def symptom_row(words: Phrases, symptom: Symptom, sharing: Sharing) -> Row:
    """One symptom in words, with its likeliest causes."""
    first, *others = each_event_once(symptom.causes)
    told = {cause: explain(words, cause, sharing, symptom.causes) for cause in (first, *others[: _MOST_CAUSES - 1])}
    ordered = sorted(told, key=lambda cause: symptom.off_by == ONE_BEAD_SHORT and cause.slip is not Slip.ROLLED_AWAY)
    return Row(
        _symptom_words(words, symptom, sharing),
        _or_else(words, (one.happened for one in told.values())),
        told[first].look,
        _or_else(words, (told[cause].mend for cause in _each_repair_once(ordered))),
    )


def each_event_once(causes: Iterable[Cause]) -> list[Cause]:
    """The causes without a last round not taken back: "left over dealt" among them is the same event."""
    return [cause for cause in causes if (cause.slip, cause.place) != (Slip.NOT_TAKEN_BACK, UNITS)]


def _or_else(words: Phrases, sentences: Iterable[str]) -> tuple[str, ...]:
    """Different sentences, each once; all but the first begin with "Or"."""
    first, *others = dict.fromkeys(sentences)
    return first, *(words.say("slips.or", told=one) for one in others)


def row_on_paper(words: Phrases, symptom: Symptom, sharing: Sharing) -> Row:
    """The row of a sheet: the likeliest cause alone, or every cause where just one unit bead is missing in all.

    Where a piece may be lost, its repairs begin with the search (`first_on_paper`).
    """
    row = symptom_row(words, symptom, sharing)
    if symptom.off_by != ONE_BEAD_SHORT:
        row = row._replace(happened=row.happened[:1], mends=row.mends[:1])
    first = first_on_paper(words, symptom)
    return row._replace(mends=(first, *row.mends)) if first else row


def first_on_paper(words: Phrases, symptom: Symptom) -> str:
    """What is done first on a sheet where a piece may be lost; "" where none can be."""
    if symptom.off_by == ONE_BEAD_SHORT:
        return words.say("slips.stop-in-short")
    lost = (cause.place for cause in symptom.causes if cause.slip is Slip.ROLLED_AWAY)
    return next((words.say("slips.may-be-lost", several=material(words, place or UNITS, 2)) for place in lost), "")


def _each_repair_once(causes: Iterable[Cause]) -> Iterable[Cause]:
    """One cause for each repair; a lost piece that was found counts like one from the bank, and its cause is kept."""
    kept: dict[Repair, Cause] = {}
    for cause in causes:
        repair = _from_the_bank(cause.advice)
        if repair not in kept or cause.slip is Slip.ROLLED_AWAY:
            kept[repair] = cause
    return kept.values()


def _from_the_bank(repair: Repair) -> Repair:
    """The repair with the bank in place of the floor, without a movement from there to the bank itself."""
    steps = (
        step._replace(source=At.BANK) if isinstance(step, Movement) and step.source is At.FLOOR else step
        for step in repair
    )
    return tuple(step for step in steps if not (isinstance(step, Movement) and step.source is step.target))


def _symptom_words(words: Phrases, symptom: Symptom, sharing: Sharing) -> str:
    """What the room sees at the close, and by how much it is too much or too little in all."""
    slips = {cause.slip for cause in symptom.causes}
    if slips == {Slip.BIG_TRAY_READ}:
        return words.say("slips.answer-read", value=symptom.seen.trays[-1].value)
    seen = capital(what_is_seen(words, symptom.seen, sharing.ribbons, lying=symptom.left, rightly=sharing.end.middle))
    if slips <= OF_CARDS:
        return words.say("slips.on-the-cards", seen=seen)
    if not symptom.off_by:
        return seen
    return words.say(
        "slips.too-much" if symptom.off_by > 0 else "slips.too-little", seen=seen, off_by=abs(symptom.off_by)
    )


def _filled(words: Phrases, cause: Cause, sharing: Sharing) -> dict[str, str | int]:
    """Everything that a sentence about a slip may name."""
    occasion, smallest = cause.occasions[0], sharing.mat.widths[-1]
    place = cause.place or UNITS
    other = occasion.other or UNITS
    of_cards = cause.slip in OF_CARDS
    higher = smallest if of_cards else 0  # the share of one who stands for ten lies one place higher
    several = material(words, place, 2)
    turns = sorted({occasion.turn for occasion in cause.occasions})
    changed_first = [words.say("repair.not-there")] if places_not_shown(cause.advice) else []
    filled = {
        "count": occasion.many,
        "one": material(words, place, 1),
        "several": several,
        "smaller": material(words, max(place - 1, UNITS), 2),
        "place": place_word(words, place + higher),
        "other_place": place_word(words, other + higher),
        "other_one": material(words, other, 1),
        "other_several": material(words, other, 2),
        "stands_for": 10**smallest,
        "other_stands_for": 10**other,
        "round": _at_rounds(words, turns, place, sharing),
        "exchange": _at_exchanges(words, turns, place + 1, sharing),
        "stop": words.say("slips.stop" if place == UNITS else "slips.stop-larger", count=1, several=several),
        "afresh": words.say("repair.everything-again"),
        "whose": whose_tray(words, 10**other, sharing.ribbons),
        "repair": repair_words(words, cause.advice, sharing, changed_first),
    }
    if of_cards:
        of_one = sharing.ribbons and occasion.spot is Spot.ONE_TRAY
        key = f"slip.whose-cards.{occasion.spot}{'-with-ribbons' if of_one else ''}"
        filled["whose_cards"] = words.say(key, stands_for=10**smallest)
    if cause.slip is Slip.SAME_KIND and cause.place:
        filled["larger"] = 10 ** (smallest + place - other)
    return filled


def _at_rounds(words: Phrases, turns: list[int], place: int, sharing: Sharing) -> str:
    """'in round 2 of the tens', 'in the only round of the tens', which may be one that is taken back.

    Who looks first begins none of those; a slip can happen in one all the same.
    """
    begun = [step.action for step in sharing.steps if step.place == place and step.action in _ROUNDS]
    named = place_word(words, place)
    if sharing.look_first:
        turns = [turn for turn in turns if turn <= len(begun)]
        if not turns:
            return words.say("turn.rounds-begun", place=named)
    if turns[-1] == len(begun) == 1:
        return words.say("turn.rounds-unfinished" if Action.TAKE_BACK in begun else "turn.rounds-only", place=named)
    return _in_turns(words, "rounds", turns, len(begun), named)


def _at_exchanges(words: Phrases, turns: list[int], place: int, sharing: Sharing) -> str:
    """'when the square was exchanged', 'in one of the 3 exchanges of tens'."""
    in_all = sharing.exchanged.at(place)
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
    return words.say(f"turn.{what}", turns=listing(words, listed, "list.or"), place=place)
