"""What people are told where no single slip explains what is seen; a script in a page says the same."""

from collections.abc import Iterator

from generator.engine.observations import Observation
from generator.engine.places import Counts
from generator.engine.repair_movements import TEN, At, Movement, Repair, ShareOn
from generator.engine.sharing import Sharing
from generator.engine.whatever_happened import by_what_is_seen, surely_there
from generator.words.numbers import material
from generator.words.phrases import Phrases
from generator.words.repairs import repair_words


def unexplained(words: Phrases, sharing: Sharing, seen: Observation) -> list[str]:
    """Sentences: count once more, look for what is missing, then make it right whatever has happened."""
    repair = by_what_is_seen(sharing, seen)
    shares_on = any(isinstance(step, ShareOn) for step in repair)
    besides = {
        "repair.not-there": not surely_there(repair, seen) or (shares_on and sharing.ribbons),
        "repair.ten-of-a-kind": _makes_ten(repair),
    }
    mend = repair_words(words, repair, sharing, [words.say(key) for key, is_said in besides.items() if is_said])
    off_by = seen.off_by(sharing.dividend) or 0
    then = words.say("unexplained.none-missing" if off_by < 0 else "unexplained.still-so", mend=mend)
    return [words.say("unexplained.count-again"), *_search(words, repair, off_by), then]


def _makes_ten(repair: Repair) -> bool:
    """Whether a tray is brought so many pieces that it may hold ten or more of a kind."""
    return any(
        Counts.of(step.taking.value).at(step.place) + step.in_all // step.taking.sharers >= TEN
        for step in repair
        if isinstance(step, Movement) and step.taking
    )


def _search(words: Phrases, repair: Repair, off_by: int) -> Iterator[str]:
    """Look for what is missing, the smallest pieces first, or for what too many may hide.

    Larger pieces than beads are those that would come from the bank: 90 too little is a square less and a bar more.
    """
    if off_by > 0:
        yield words.say("unexplained.too-many")
    if off_by < 0:
        smallest = Counts.of(-off_by).places_held[-1]
        missing = -off_by // 10**smallest
        brought = [step for step in repair if isinstance(step, Movement) and step.source is At.BANK]
        if smallest and brought:
            smallest = min(step.place for step in brought)
            missing = sum(step.in_all for step in brought if step.place == smallest)
        key = "slips.stop-larger" if smallest else "slips.stop"
        yield words.say(key, count=missing, several=material(words, smallest, 2))
        yield words.say("unexplained.found", count=missing)
