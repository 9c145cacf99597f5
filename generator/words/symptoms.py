"""One line of what may be seen at the close of a lesson: what may have happened, where to look, what puts it right."""

from __future__ import annotations

from typing import NamedTuple

from generator.engine.diagnosis import Cause, Symptom
from generator.engine.places import UNITS
from generator.engine.sharing import Sharing
from generator.engine.slips import Slip
from generator.words.phrases import Phrases
from generator.words.slips import explain, symptom_words

_MOST_CAUSES = 3


class ToldSymptom(NamedTuple):
    """What is seen, and for the likeliest causes what happened and how it is put right, each repair once."""

    seen: str
    happened: tuple[str, ...]
    look: str
    mends: tuple[str, ...]


def told_symptom(words: Phrases, symptom: Symptom, sharing: Sharing) -> ToldSymptom:
    """A symptom in words; at most _MOST_CAUSES of its causes are told, the first with where to look for it."""
    causes = _told_once(symptom.causes)[:_MOST_CAUSES]
    explained = [explain(words, cause, sharing) for cause in causes]
    happened, look, mends = explained[0].happened, explained[0].look, dict.fromkeys(told.mend for told in explained)
    if _may_be_lost(symptom.causes):
        look = words.say("slips.count-the-beads", look=look)
    first, *others = mends
    return ToldSymptom(
        symptom_words(words, symptom, sharing.ribbons),
        (happened, *(words.say("slips.or", happened=told.happened) for told in explained[1:])),
        look,
        (first, *(words.say("slips.or-mend", mend=mend) for mend in others)),
    )


def _told_once(causes: tuple[Cause, ...]) -> list[Cause]:
    """What is left over and given out all the same is a last round not taken back: one event, told once."""
    first, *others = causes
    if first.slip is Slip.LEFT_OVER_DEALT:
        others = [cause for cause in others if cause.slip is not Slip.NOT_TAKEN_BACK]
    return [first, *others]


def _may_be_lost(causes: tuple[Cause, ...]) -> bool:
    """Where one bead too few may have been lost, all beads are counted before anything comes from the bank."""
    first, *others = causes
    lost = any(cause.slip is Slip.ROLLED_AWAY and cause.place == UNITS for cause in others)
    return lost and first.slip in (Slip.BANK_NINE, Slip.LAID_FEW)
