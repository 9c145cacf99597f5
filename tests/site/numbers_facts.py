"""What is right in a statement about a division: the facts that the rules of the audit of numbers ask for."""

import re
from collections import Counter
from collections.abc import Callable
from math import ceil
from typing import NamedTuple

from generator.engine.dealing import Action
from generator.engine.places import Counts
from generator.engine.sharing import Sharing, Stage
from generator.source.school import Time
from tests.site.numbers_words import (
    PLACE,
    PLACE_FORMS,
    N,
    Right,
    number_in,
    pieces_in,
)
from tests.site.page_text import Block, divide


class On(NamedTuple):
    """A statement that was found: where, about which division, and at which place of it, if it is about one."""

    match: re.Match[str]
    block: Block
    sharing: Sharing
    stage: Stage | None
    time: Time

    def number(self, group: str) -> int:
        return number_in(self.match[group] or "0")

    def place(self, group: str) -> int:
        return PLACE_FORMS[self.match[group]]

    @property
    def at(self) -> Stage:
        assert self.stage
        return self.stage

    @property
    def stands_for(self) -> int:
        return number_in(self.match.groupdict().get("stands") or "1")

    @property
    def share(self) -> int:
        """What a sharer with the ribbon that is spoken of has in the end."""
        return self.sharing.quotient * self.stands_for

    @property
    def sent(self) -> int:
        """How many pieces of the place that is spoken of go to the bank at this place."""
        return self.at.exchanged.at(self.place("place") if self.match["place"] else self.at.level)


Parts = dict[str, Callable[[On], Right]]


class Rule(NamedTuple):
    """A pattern and what is right for each of its groups; `so` is about the whole match.

    `needs` is what there must be: nothing, a "division", a "stage" of it, or, for what may be "seen" after a slip as
    well, a division of which only the number counts.
    """

    kind: str
    pattern: re.Pattern[str]
    needs: str
    right: Parts


def whole(kind: str, pattern: str, so: Callable[[re.Match[str]], bool]) -> Rule:
    return Rule(kind, re.compile(pattern), "", {"so": lambda on: so(on.match)})


def about(kind: str, pattern: str, **right: Callable[[On], Right]) -> Rule:
    return Rule(kind, re.compile(pattern), "division", right)


def seen(kind: str, pattern: str, **right: Callable[[On], Right]) -> Rule:
    return Rule(kind, re.compile(pattern), "seen", right)


def at_place(kind: str, pattern: str, **right: Callable[[On], Right]) -> Rule:
    return Rule(kind, re.compile(pattern), "stage", right)


def pieces(counts: Counts) -> dict[int, int]:
    return {place: counts[place] for place in counts.places_held}


def cards(number: int) -> list[int]:
    digits = Counts.of(number)
    return [digits[place] * 10**place for place in digits.places_held]


def served(on: On) -> set[tuple[int, int]]:
    """Which piece goes to whom, as a page says it: places, and what those who get them stand for."""
    found = re.findall(rf"one ({PLACE}) to (?:each who stands|(?:the|each) child) for ({N})", on.match[0])
    return {(PLACE_FORMS[place], number_in(stands)) for place, stands in found}


def dealt_at(sharing: Sharing, level: int) -> set[tuple[int, int]]:
    """The same as it is."""
    return {(level + width, 10**width) for width in sharing.mat.widths}


def dealt(on: On) -> set[int]:
    return {on.at.level}


def sent_at_once(on: On) -> int:
    """How many pieces of a place go to the bank once no round is left."""
    rounds = [number for number, step in enumerate(on.at.steps) if step.action is Action.DEAL]
    end = rounds[-1] + 1 if rounds else 0
    return sum(step.action is Action.EXCHANGE and step.place == on.place("place") for step in on.at.steps[end:])


def sent_before_rounds(on: On) -> bool:
    """Whether as many pieces of a place go to the bank before each of the rounds that are named, or before some one."""
    rounds, sent = on.at.before.share[on.at.level], Counter[int]()
    for step in on.at.steps:
        rounds += step.action is Action.DEAL
        sent[rounds + 1] += step.action is Action.EXCHANGE and step.place == on.place("place")
    last = rounds + on.at.goes_on
    all_rounds = [number for number in sent if number <= last and sent[number] == on.number("n")]
    ten_back = on.number("back") == 10 and on.place("below") == on.place("place") - 1
    if on.match["rounds"] is None:
        return ten_back and bool(all_rounds)
    named = [number_in(said) for said in re.findall(N, on.match["rounds"])]
    return ten_back and named == sorted(all_rounds)


def sent_by(sharing: Sharing) -> set[int]:
    return {step.place for step in sharing.steps if step.action is Action.EXCHANGE}


def to_come_out(sharing: Sharing) -> dict[int, int]:
    return pieces(Counts(most - laid for most, laid in zip(sharing.pieces_needed, sharing.start, strict=True)))


def minutes(on: On) -> int:
    return ceil(on.sharing.handlings * on.time.seconds_per_handling / 60)


def length(on: On) -> int:
    """Minutes of the whole lesson where they are said before those of handling."""
    return whole_lesson(on) if on.match["handling"] else minutes(on)


def whole_lesson(on: On) -> int:
    """Minutes from setting out to putting away, up to the next five."""
    sharing, time = on.sharing, on.time
    small_cards = sum(sharing.mat[width] * len(cards(sharing.quotient)) for width in sharing.mat.widths)
    seconds = sharing.handlings * time.seconds_per_handling + len(sharing.stages) * time.seconds_of_words
    seconds += sharing.exchanges * time.seconds_per_walk
    seconds += (len(cards(sharing.dividend)) + small_cards) * time.seconds_per_card
    whole = time.minutes_to_set_out + time.minutes_to_check + time.minutes_to_put_away + seconds / 60
    return next(minutes for minutes in range(0, 1000, 5) if minutes >= whole)


def sharers(on: On) -> int:
    """How many stand for the number that is spoken of."""
    return {10**width: on.sharing.mat[width] for width in on.sharing.mat.widths}.get(on.stands_for, 0)


def tray(on: On) -> tuple[int, dict[int, int]]:
    trays = on.sharing.trays(on.at.after)
    return next(((tray.sharers, pieces(tray.holds)) for tray in trays if tray.stands_for == on.stands_for), (0, {}))


def rounds_that_need(on: On) -> list[int]:
    """The rounds before which something of the place that is spoken of is exchanged."""
    rounds = [0]
    found: list[int] = []
    for step in on.at.steps:
        if step.action is Action.DEAL:
            rounds.append(rounds[-1] + 1)
        elif step.action is Action.EXCHANGE and step.place == on.place("place"):
            found.append(rounds[-1] + 1)
    return sorted({number for number in found if number <= rounds[-1]})


def is_wanted(on: On) -> bool:
    """Whether a card is one of the number, or of what lies on a tray."""
    shares = [on.sharing.quotient * 10**width for width in on.sharing.mat.widths]
    return any(on.number("n") in cards(number) for number in (on.sharing.dividend, *shares))


def on_trays(on: On) -> list[tuple[int, int, int]]:
    """What is seen on the trays: on how many, how much, and what their children stand for."""
    found = re.findall(rf"({N}) on (?:the tray|(?:each of (?:the )?)?({N}) trays?)(?: for ({N}))?", on.match["sight"])
    return [(number_in(trays or "1"), number_in(holds), number_in(stands or "1")) for holds, trays, stands in found]


def adds_up(on: On) -> bool:
    """Whether trays and what is left make the number, or miss it by as much as the page says; cards show its digits."""
    if on.match["cards"]:
        return is_shown_wrongly(on)
    seen = on_trays(on)
    lying = sum(count * 10**place for place, count in pieces_in(on.match["lying"] or "").items())
    total = sum(trays * holds for trays, holds, _ in seen) + lying + on.number("left")
    off = on.number("off") * (-1 if on.match["way"] == "few" else 1)
    known = {1, *(10**width for width in on.sharing.mat.widths)}
    return total == on.sharing.dividend + off and {stands for _, _, stands in seen} <= known


def is_shown_wrongly(on: On) -> bool:
    """Whether on every tray the right digits are shown, in any order and without zeros, and the right is left over."""
    seen = on_trays(on)
    digits = sorted(str(on.sharing.quotient).replace("0", ""))
    known = {10**width for width in on.sharing.mat.widths}
    return (
        all(sorted(str(shown).replace("0", "")) == digits for _, shown, _ in seen)
        and sum(trays for trays, _, _ in seen) == on.sharing.sharers
        and on.number("left") == on.sharing.remainder
        and {stands for _, _, stands in seen} <= known | {1}
    )


def fewest_for(on: On) -> int:
    """What those stand for who stand for fewest."""
    return int(10 ** on.sharing.mat.widths[-1])


def larger_shares(sharing: Sharing) -> list[int]:
    """What lies on the trays of those who stand for more than one."""
    return [sharing.quotient * 10**width for width in sharing.mat.widths if width]


def is_right(on: On) -> bool:
    """Whether the trays hold what they should hold."""
    mat = on.sharing.mat
    right = {(mat[width], on.sharing.quotient * 10**width, 10**width) for width in mat.widths}
    seen = set(on_trays(on))
    return seen == right or seen == {(trays, holds, 1) for trays, holds, _ in right}


def is_like_today(on: On) -> bool:
    """Whether a number for another group asks the same of the bank and of the end as the page's own division."""
    today, other = on.block.of_page, divide(on.number("n"), on.sharing.divisor, False)
    return today is not None and (sent_by(today), not today.remainder) == (sent_by(other), not other.remainder)


def is_quotient(match: re.Match[str]) -> bool:
    by, left = number_in(match["by"]), number_in(match["left"] or match["rest"] or "0")
    return by > 0 and divmod(number_in(match["whole"]), by) == (number_in(match["quotient"]), left)


def is_product(match: re.Match[str]) -> bool:
    share_, sharers, left, total = (number_in(match[part] or "0") for part in ("share", "sharers", "left", "total"))
    return share_ * sharers + left == total
