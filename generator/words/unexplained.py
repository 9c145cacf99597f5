"""What people are told where no single slip explains what is seen; a script in a page says the same."""

from collections.abc import Iterator

from generator.engine.movements import At, Movement
from generator.engine.observations import Observation
from generator.engine.places import UNITS, Counts
from generator.engine.repairs import by_what_is_seen
from generator.engine.sharing import Sharing
from generator.words.numbers import capital, material, small_number
from generator.words.phrases import Phrases
from generator.words.repairs import repair_words


def unexplained(words: Phrases, sharing: Sharing, seen: Observation) -> list[str]:
    """Sentences: count once more, look for what is missing, then make it right whatever has happened."""
    repair, goes_on, changed_places = by_what_is_seen(sharing, seen)
    takes_from_middle = any(
        isinstance(step, Movement) and step.source is At.LEFT_OVER and step.place > UNITS for step in repair
    )
    mend = [
        words.say("unexplained.changed-places", number=capital(small_number(words, changed_places)))
        if changed_places
        else repair_words(words, repair, sharing),
        *([words.say("unexplained.not-there")] if takes_from_middle else []),
        *([words.say("unexplained.then-share-on")] if goes_on else []),
    ]
    off_by = seen.off_by(sharing.dividend) or 0
    then = words.say("unexplained.none-missing" if off_by < 0 else "unexplained.still-so", mend=" ".join(mend))
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
