"""What the hands do: in one movement, in rounds that follow each other, and at a whole place in one line."""

from collections.abc import Iterable, Iterator

from generator.engine.dealing import Action, Step
from generator.engine.sharing import Sharing, Stage, Trip
from generator.words.numbers import capital, listing, one_piece, piece, pieces, place_word
from generator.words.phrases import Phrases


def hands(words: Phrases, step: Step, sharing: Sharing) -> str:
    """What the hands do in one step; "" where they only go on to the next place."""
    level = step.after.level
    match step.action:
        case Action.DEAL if sharing.ribbons:
            return words.say(
                "hands.deal-with-ribbons", pieces=served(words, "hands.piece-with-ribbons", level, sharing)
            )
        case Action.DEAL:
            return words.say("hands.deal", piece=one_piece(words, level))
        case Action.START:
            return words.say("hands.start", reached=step.after.ahead, sharers=sharing.sharers)
        case Action.TAKE_BACK:
            return words.say("hands.take-back")
        case Action.EXCHANGE:
            one, smaller = one_piece(words, step.place), place_word(words, step.place - 1)
            return words.say("hands.exchange", one=one, smaller=smaller)
        case Action.SET_ASIDE:
            return words.say("hands.set-aside", pieces=pieces(words, step.after.middle))
        case Action.NOTHING:
            key = "hands.nothing-with-ribbons" if sharing.ribbons else "hands.nothing"
            return words.say(key, place=place_word(words, level))
        case Action.GO_ON:
            return ""


def served(words: Phrases, key: str, level: int, sharing: Sharing) -> str:
    """What each kind of sharer is given in a round at a level, each by the phrase of a key."""
    each = [
        words.say(key, piece=one_piece(words, level + width), stands_for=10**width, count=sharing.mat[width])
        for width in sharing.mat.widths
    ]
    return listing(words, each)


def rounds_given(words: Phrases, sharing: Sharing, level: int, first: int, last: int) -> str:
    """'Rounds 1 to 3: one hundred to each tray.', and of later ones 'Round 4: as in round 1.'"""
    piece_for = "hands.piece-with-ribbons" if sharing.ribbons else "plan.given"
    given = words.say("at-place.as-in-the-first") if first > 1 else served(words, piece_for, level, sharing)
    key = {0: "plan.round", 1: "plan.two-rounds"}.get(last - first, "plan.rounds")
    return words.say(key, first=first, last=last, given=given)


def hands_at(words: Phrases, sharing: Sharing, stage: Stage) -> tuple[str, ...]:
    """A line for each part of a stage: rounds, what is taken back, trips to the bank, what then lies in the middle."""
    are_several = any(part.goes_on and part.rounds for part in stage.parts)
    told: list[str] = []
    for part in stage.parts:
        done = [*(_at_the_bank(words, part) if part.at_the_bank else _given_out(words, sharing, part, are_several))]
        told.append(" ".join([*(done or [words.say("at-place.nothing")]), _then(words, part, nothing_moved=not done)]))
    return tuple(told)


def _at_the_bank(words: Phrases, part: Stage) -> Iterator[str]:
    return _for_a_round(words, part.trips) if part.goes_on else _to_the_bank(words, part.trips)


def _given_out(words: Phrases, sharing: Sharing, part: Stage, is_one_of_several: bool) -> Iterator[str]:
    """The rounds of a part, with the trips to the bank that are too many to be parts of their own."""
    if is_one_of_several:
        first, last = part.before.share[part.level] + 1, part.after.share[part.level]
        yield rounds_given(words, sharing, part.level, first, last)
    else:
        yield from _for_a_round(words, (trip for trip in part.trips if not trip.rounds))
        yield from _rounds(words, sharing, part)
        yield from _for_a_round(words, (trip for trip in part.trips if trip.rounds))
    yield from _taken_back(words, sharing, part)


def _rounds(words: Phrases, sharing: Sharing, part: Stage) -> Iterator[str]:
    if not part.rounds:
        return
    if not sharing.ribbons:
        yield words.say("at-place.rounds", count=part.rounds, pieces=piece(words, part.rounds, part.level))
        return
    key = "at-place.rounds-with-ribbons"
    if part.trips:
        key = "at-place.rounds-with-trips" if part.trips[0].rounds else "at-place.then-rounds-with-trips"
    each = served(words, "hands.piece-with-ribbons", part.level, sharing)
    yield words.say(key, count=part.rounds, pieces=each)


def _taken_back(words: Phrases, sharing: Sharing, stage: Stage) -> Iterator[str]:
    key = "at-place.start-next" if stage.rounds else "at-place.start"
    for step in stage.steps:
        if step.action is Action.START:
            yield words.say(key, reached=step.after.ahead, sharers=sharing.sharers)
            yield words.say("at-place.take-back")


def _for_a_round(words: Phrases, trips: Iterable[Trip]) -> Iterator[str]:
    """Exchanges that rounds need; one sentence for equal exchanges before several rounds."""
    alike: dict[tuple[int, int], list[str]] = {}
    for place, times, rounds in trips:
        alike.setdefault((place, times), []).append(words.grouping.written(rounds + 1))
    former: list[str] = []
    for (place, times), before in alike.items():
        goes_on = before == former and len(before) == 1
        key = "at-place.to-bank-then" if goes_on else "at-place.to-bank-before-rounds"
        told = {"rounds": listing(words, before), "exchange": _exchange(words, place, times)}
        yield words.say(key, count=len(before), **told)
        former = before


def _to_the_bank(words: Phrases, trips: Iterable[Trip]) -> Iterator[str]:
    for place, times, _ in trips:
        yield words.say("at-place.to-bank", exchange=capital(_exchange(words, place, times)))


def _exchange(words: Phrases, place: int, times: int) -> str:
    """'take 2 hundreds to the bank, one at a time, and bring 10 tens back for each'."""
    gone, smaller = piece(words, times, place), piece(words, 10, place - 1)
    return words.say("at-place.exchange", count=times, pieces=gone, smaller=smaller)


def _then(words: Phrases, stage: Stage, *, nothing_moved: bool) -> str:
    if not stage.end.pieces:
        return words.say("at-place.still-empty" if nothing_moved else "at-place.empty")
    middle = "at-place.still-middle" if nothing_moved else "at-place.middle"
    return words.say("at-place.left-over" if stage.ends_the_sharing else middle, pieces=pieces(words, stage.end))
