"""What people are told where no single slip explains what is seen; a script in a page says the same."""

from collections.abc import Iterator

from generator.engine.movements import At, Movement, ShareOn
from generator.engine.observations import Observation
from generator.engine.places import UNITS, Counts
from generator.engine.repairs import by_what_is_seen
from generator.engine.sharing import Sharing
from generator.words.numbers import material
from generator.words.phrases import Phrases
from generator.words.repairs import repair_words


def unexplained(words: Phrases, sharing: Sharing, seen: Observation) -> list[str]:
    """Sentences: count once more, look for what is missing, then make it right whatever has happened."""
    repair = by_what_is_seen(sharing, seen)
    before_sharing_on = tuple(step for step in repair if not isinstance(step, ShareOn))
    takes_from_middle = any(
        isinstance(step, Movement) and step.source is At.LEFT_OVER and step.place > UNITS for step in repair
    )
    sentences = (
        repair_words(words, before_sharing_on, sharing),
        words.say("unexplained.not-there") if takes_from_middle else "",
        repair_words(words, repair[len(before_sharing_on) :], sharing),
    )
    mend = " ".join(filter(None, sentences))
    off_by = seen.off_by(sharing.dividend) or 0
    then = words.say("unexplained.none-missing" if off_by < 0 else "unexplained.still-so", mend=mend)
    return [words.say("unexplained.count-again"), *_search(words, off_by), then]


def _search(words: Phrases, off_by: int) -> Iterator[str]:
    """Look for pieces worth what is missing, the smallest of them first; or for what too many may hide."""
    if off_by > 0:
        yield words.say("unexplained.too-many")
    if off_by < 0:
        smallest = Counts.of(-off_by).places_held[-1]
        missing = -off_by // 10**smallest
        key = "slips.stop-larger" if smallest else "slips.stop"
        yield words.say(key, count=missing, several=material(words, smallest, 2))
        yield words.say("unexplained.found", count=missing)
