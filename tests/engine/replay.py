"""A second pair of hands: lays out the number again, follows every step, and compares the whole room.

It knows the rules of sharing from their description only and uses nothing of the engine but the
recorded steps, so that whatever it asserts is said twice, in two ways.
"""

from functools import lru_cache
from itertools import groupby
from operator import mul
from typing import NamedTuple

from generator.engine.dealing import Action
from generator.engine.sharing import Sharing, Stage

POWERS = [10**place for place in range(40)]


class Ledger(NamedTuple):
    """What the replay counted: by place, units first."""

    exchanged: tuple[int, ...]
    most_out_of_the_bank: tuple[int, ...]
    pieces_moved: int


def replay(sharing: Sharing) -> Ledger:
    """Follow every step of a sharing; AssertionError where it breaks a rule or states a wrong room."""
    dividend = sharing.dividend
    digits = str(dividend)[::-1]
    size = len(digits)
    groups = _groups(sharing)
    sharers = sum(number for _, number in groups)
    divisor = sum(number * POWERS[width] for width, number in groups)
    widest = groups[0][0]
    assert (sharing.divisor, sharing.sharers) == (divisor, sharers)

    middle = [int(digit) for digit in digits]
    start = tuple(middle)
    share = [0] * size
    bank = [0] * size
    exchanged = [0] * size
    most_out = list(start)
    moved = sum(start)
    level = max(size - 1 - widest, 0)
    to_share = dividend
    open_round: list[int] | None = None
    filled_for_a_round: set[int] = set()

    for action, place, pieces, (after_middle, after_share, after_level, after_ahead) in sharing.steps:
        ahead = 0
        assert open_round is None or action is Action.TAKE_BACK, "an unfinished round stays on the trays"
        if action is Action.DEAL:
            assert place == level
            for width, number in groups:
                middle[level + width] -= number
            share[level] += 1
            to_share -= divisor * POWERS[level]
            assert pieces == sharers
            assert all(middle[filled] < 10 for filled in filled_for_a_round), "more was exchanged than the round took"
            filled_for_a_round.clear()
        elif action is Action.EXCHANGE:
            assert pieces == 11
            middle[place] -= 1
            middle[place - 1] += 10
            bank[place] += 1
            bank[place - 1] -= 10
            exchanged[place] += 1
            most_out[place - 1] = max(most_out[place - 1], start[place - 1] - bank[place - 1])
            filled_for_a_round.add(place - 1)
        elif action is Action.START:
            assert place == level
            open_round = list(middle)
            for width, number in groups:
                have = middle[level + width] if level + width < size else 0
                served = min(have, number)
                if served:
                    middle[level + width] -= served
                ahead += served
                if served < number:
                    break
            assert pieces == ahead
            assert 0 < ahead < sharers, "a round that could be finished was called unfinished"
            assert to_share < divisor * POWERS[level], "what is in the middle was worth another round"
        elif action is Action.TAKE_BACK:
            assert open_round is not None
            assert place == level
            assert pieces == sum(open_round) - sum(middle)
            middle, open_round = open_round, None
        elif action is Action.GO_ON:
            assert pieces == 0
            assert to_share < divisor * POWERS[level], "another round could have been dealt"
            assert not any(middle[level + widest :]), "pieces too large for anybody were left in the middle"
            level -= 1
            assert place == level
            filled_for_a_round.clear()
        elif action is Action.NOTHING:
            assert (place, pieces) == (level, 0)
            assert not any(middle[level + widest :]), "a round could have been begun"
            assert to_share < divisor * POWERS[level], "a round could have been dealt"
        else:
            assert action is Action.SET_ASIDE
            assert (place, level, pieces) == (0, 0, sum(middle))
            assert 0 < to_share < divisor
        moved += pieces

        assert min(middle) >= 0
        assert (after_middle, after_share, after_level, after_ahead) == (tuple(middle), tuple(share), level, ahead)
        lent = worth(tuple(open_round)) - worth(after_middle) if open_round else 0
        assert worth(after_middle) + divisor * worth(after_share) + lent == dividend

    assert open_round is None
    assert level == 0
    assert to_share < divisor
    return Ledger(tuple(exchanged), tuple(most_out), moved)


def check_rooms(sharing: Sharing) -> None:
    """After every step: the value is all there, trays are equal after whole rounds, no piece appears or vanishes."""
    dividend = sharing.dividend
    groups = _groups(sharing)
    bank = [0] * len(str(dividend))
    to_share = dividend
    for action, place, _, after in sharing.steps:
        trays = sharing.trays(after)
        on_trays = [(sharers, stands_for, worth(holds)) for sharers, stands_for, holds in trays]
        assert worth(after.middle) + sum(sharers * value for sharers, _, value in on_trays) == dividend
        if action is Action.START:
            assert sum(sharers for sharers, _, _ in on_trays) == sharing.sharers
        else:
            one = worth(after.share)
            assert on_trays == [(number, POWERS[width], one * POWERS[width]) for width, number in groups]
        if action is Action.EXCHANGE:
            bank[place] += 1
            bank[place - 1] -= 10
        assert list(sharing.bank(after)) == bank
        still = sharing.to_share(after)
        assert still < to_share if action is Action.DEAL else still == to_share
        to_share = still


@lru_cache(maxsize=100_000)
def worth(counts: tuple[int, ...]) -> int:
    """What pieces are worth, units first."""
    return sum(map(mul, counts, POWERS))


def check_stages(sharing: Sharing) -> None:
    """One stage a level, each where the one before ended, and the equation of every place in each.

    The parts of a stage are the same one after another.
    """
    groups = dict(_groups(sharing))
    stages = sharing.stages
    size = len(str(sharing.dividend))
    top = max(size - 1 - max(groups), 0)
    assert [stage.level for stage in stages] == list(range(top, -1, -1))
    assert sum(map(len, (stage.steps for stage in stages))) == len(sharing.steps)
    before = tuple(int(digit) for digit in reversed(str(sharing.dividend)))
    for stage in stages:
        assert stage.start == before
        assert stage.rounds == sum(step.action is Action.DEAL for step in stage.steps)
        for place in range(size):
            from_above = 10 * stage.exchanged[place + 1] if place + 1 < size else 0
            dealt = stage.rounds * groups.get(place - stage.level, 0)
            assert stage.end[place] == stage.start[place] - dealt - stage.exchanged[place] + from_above
        check_parts(stage)
        before = stage.end
    assert worth(before) == sharing.remainder
    assert sum(stage.rounds * POWERS[stage.level] for stage in stages) == sharing.quotient


def check_parts(stage: Stage) -> None:
    """All that is done at a stage, in order; up to three trips for rounds, and the one after them, are parts."""
    parts = stage.parts
    done_here = tuple(step for step in stage.steps if step.action is not Action.GO_ON)
    assert sum((part.steps for part in parts), ()) == done_here
    assert sum(part.rounds for part in parts) == stage.rounds
    assert [part.before for part in parts] == [stage.before, *(part.after for part in parts[:-1])]
    actions = [step.action for step in done_here]
    assert actions, "at every level something is done, if only to see that there is nothing to give"
    trips_and_others = [action for action, _ in groupby(actions, key=lambda action: action is Action.EXCHANGE)]
    later = actions[-1] is Action.EXCHANGE
    for_rounds = sum(trips_and_others) - later
    if not stage.rounds and later:
        assert [part.at_the_bank for part in parts] == [False, True]
    elif for_rounds <= 3:
        assert [part.at_the_bank for part in parts] == trips_and_others
    else:
        assert [part.at_the_bank for part in parts] == [False, True][: 1 + later]
    to_come = stage.rounds
    for part in parts:
        assert part.at_the_bank == ({step.action for step in part.steps} == {Action.EXCHANGE})
        to_come -= part.rounds
        assert part.goes_on == (to_come > 0)


def _groups(sharing: Sharing) -> list[tuple[int, int]]:
    """(width, sharers) of those who stand for 10^width, largest first: the order of dealing."""
    return [(width, number) for width, number in reversed(list(enumerate(sharing.mat))) if number]
