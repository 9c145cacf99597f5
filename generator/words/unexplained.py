"""What people are told where no single slip explains what is seen; a script in a page says the same."""

from generator.engine.movements import At, Movement
from generator.engine.observations import Observation
from generator.engine.places import UNITS, Counts
from generator.engine.repairs import by_what_is_seen
from generator.engine.sharing import Sharing
from generator.words.numbers import material
from generator.words.phrases import Phrases
from generator.words.repairs import repair_words


def unexplained(words: Phrases, sharing: Sharing, seen: Observation) -> list[str]:
    """Sentences: count once more, look for what is missing, then make it right whatever has happened."""
    repair, goes_on = by_what_is_seen(sharing, seen)
    takes_from_middle = any(
        isinstance(step, Movement) and step.source is At.LEFT_OVER and step.place > UNITS for step in repair
    )
    mend = [
        repair_words(words, repair, sharing),
        *([words.say("unexplained.not-there")] if takes_from_middle else []),
        *([words.say("unexplained.then-share-on")] if goes_on else []),
    ]
    missing = -(seen.off_by(sharing.dividend) or 0)
    then = words.say("unexplained.none-missing" if missing > 0 else "unexplained.still-so", mend=" ".join(mend))
    return [words.say("unexplained.count-again"), *([_search(words, missing)] if missing > 0 else []), then]


def _search(words: Phrases, missing: int) -> str:
    """Look for pieces worth so much, the smallest of them first."""
    smallest = Counts.of(missing).places_held[-1]
    key = "slips.stop-larger" if smallest else "slips.stop"
    return words.say(key, count=missing // 10**smallest, several=material(words, smallest, 2))
