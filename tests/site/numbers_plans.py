"""What only the plans say about a division: movements told together, trays after a place, and the check."""

from itertools import groupby

from generator.engine.dealing import Action
from generator.engine.sharing import Sharing, Stage
from tests.site.numbers_facts import On, about, at_place, dealt_at, pieces, served
from tests.site.numbers_words import ONE_FOR_EACH, PIECES, PLACE, SMALL, N


def _rounds_together(stage: Stage) -> set[tuple[int, int]]:
    """The first and the last round of every run of rounds between which nothing else happens."""
    found: set[tuple[int, int]] = set()
    number = stage.before.share[stage.level]
    for is_round, run in groupby(step.action is Action.DEAL for step in stage.steps):
        if is_round:
            last = number + len(list(run))
            found.add((number + 1, last))
            number = last
    return found


def _exchanges_together(stage: Stage) -> set[tuple[int, int]]:
    """How many pieces of which place go to the bank one after the other."""
    runs = groupby((step.action is Action.EXCHANGE, step.place) for step in stage.steps)
    return {(len(list(run)), place) for (is_exchange, place), run in runs if is_exchange}


def _rounds_are_so(on: On) -> bool:
    run = on.number("first"), on.number("last") or on.number("first")
    if on.match["like"]:
        return run in _rounds_together(on.at) and on.number("like") == 1 < on.number("first")
    given = served(on) if on.sharing.ribbons else {(on.place("place"), 1)}
    return run in _rounds_together(on.at) and given == dealt_at(on.sharing, on.at.level)


def _exchange_is_so(on: On) -> bool:
    ten_back = on.number("back") == 10 and on.place("below") == on.place("place") - 1
    return ten_back and (on.number("n"), on.place("place")) in _exchanges_together(on.at)


def _reached(on: On) -> int:
    return next(step.after.ahead for step in on.at.steps if step.action is Action.START)


def _on_tray(on: On) -> dict[int, int]:
    trays = on.sharing.trays(on.at.steps[-1].after)
    return next((pieces(tray.holds) for tray in trays if tray.stands_for == on.stands_for), {})


def _changed_up(sharing: Sharing, place: int) -> int:
    """How many pieces of a place ten each of the next smaller make when the shares are put together again."""
    smaller = [number * 10**below for below, number in enumerate(sharing.out_of_the_bank(sharing.end)) if below < place]
    return int(sum(smaller) // 10**place)


PLAN_RULES = (
    about("share", rf"Each has (?P<n>{N}), and {SMALL} (?:is|are)", n=lambda on: on.sharing.quotient),
    about("left over", rf"(?P<n>{SMALL}) (?:is|are) left over", n=lambda on: on.sharing.remainder),
    at_place(
        "rounds",
        rf"Rounds? (?P<first>{N})(?: (?:to|and) (?P<last>{N}))?: "
        rf"(?:{ONE_FOR_EACH}|one (?P<place>{PLACE}) to each\.|as in round (?P<like>{N}))",
        so=_rounds_are_so,
    ),
    at_place(
        "rounds",
        rf"Start (?:a|the next) round: it reaches only (?P<n>{N}) of the (?P<all>{N}) trays",
        n=_reached,
        all=lambda on: on.sharing.sharers,
    ),
    at_place(
        "exchanges",
        rf"Change (?P<n>{N}) (?P<place>{PLACE})(?:, one at a time, each)? for (?P<back>{N}) (?P<below>{PLACE})",
        so=_exchange_is_so,
    ),
    at_place("pieces", rf"(?:Each tray|Tray for (?P<stands>{N})): (?P<p>{PIECES})", p=_on_tray),
    about(
        "back together",
        rf"(?P<n>{N}) (?P<place>{PLACE}) make (?P<up>{N}) (?P<above>{PLACE})",
        n=lambda on: 10 * _changed_up(on.sharing, on.place("above")),
        up=lambda on: _changed_up(on.sharing, on.place("above")),
        so=lambda on: on.place("place") == on.place("above") - 1,
    ),
)
