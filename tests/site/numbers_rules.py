"""What pages say about a division: patterns, and what is right for each part of them."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from math import ceil
from typing import NamedTuple

from generator.engine.places import Counts
from generator.engine.sharing import Sharing, Stage
from generator.engine.steps import Action
from generator.source.school import Time
from tests.site.numbers_words import (
    CARDS,
    HOLDS,
    ONE_FOR_EACH,
    PIECES,
    PLACE,
    PLACE_FORMS,
    PLACE_HEAD,
    SAID,
    SMALL,
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


def _dealt(on: On) -> set[int]:
    return {on.at.level}


def _sent_at_once(on: On) -> int:
    """How many pieces of a place go to the bank once no round is left."""
    rounds = [number for number, step in enumerate(on.at.steps) if step.action is Action.DEAL]
    end = rounds[-1] + 1 if rounds else 0
    return sum(step.action is Action.EXCHANGE and step.place == on.place("place") for step in on.at.steps[end:])


def _sent_before_rounds(on: On) -> bool:
    """Whether as many pieces of a place go to the bank before each of the rounds that are named."""
    rounds, sent = 0, Counter[int]()
    for step in on.at.steps:
        rounds += step.action is Action.DEAL
        sent[rounds + 1] += step.action is Action.EXCHANGE and step.place == on.place("place")
    named = [number_in(said) for said in re.findall(N, on.match["rounds"])]
    all_rounds = [number for number in sent if number <= rounds and sent[number] == on.number("n")]
    ten_back = on.number("back") == 10 and on.place("below") == on.place("place") - 1
    return ten_back and named == sorted(all_rounds)


def _sent_by(sharing: Sharing) -> set[int]:
    return {step.place for step in sharing.steps if step.action is Action.EXCHANGE}


def _to_come_out(sharing: Sharing) -> dict[int, int]:
    return pieces(Counts(most - laid for most, laid in zip(sharing.pieces_needed, sharing.start, strict=True)))


def _minutes(on: On) -> int:
    return ceil(on.sharing.handlings * on.time.seconds_per_handling / 60)


def _length(on: On) -> int:
    """Minutes of the whole lesson where they are said before those of handling."""
    return _whole_lesson(on) if on.match["handling"] else _minutes(on)


def _whole_lesson(on: On) -> int:
    """Minutes from setting out to putting away, up to the next five."""
    sharing, time = on.sharing, on.time
    small_cards = sum(sharing.mat[width] * len(cards(sharing.quotient)) for width in sharing.mat.widths)
    seconds = sharing.handlings * time.seconds_per_handling + len(sharing.stages) * time.seconds_of_words
    seconds += sharing.exchanges * time.seconds_per_walk
    seconds += (len(cards(sharing.dividend)) + small_cards) * time.seconds_per_card
    whole = time.minutes_to_set_out + time.minutes_to_check + time.minutes_to_put_away + seconds / 60
    return next(minutes for minutes in range(0, 1000, 5) if minutes >= whole)


def _sharers(on: On) -> int:
    """How many stand for the number that is spoken of."""
    return {10**width: on.sharing.mat[width] for width in on.sharing.mat.widths}.get(on.stands_for, 0)


def _tray(on: On) -> tuple[int, dict[int, int]]:
    trays = on.sharing.trays(on.at.steps[-1].after)
    return next(((tray.sharers, pieces(tray.holds)) for tray in trays if tray.stands_for == on.stands_for), (0, {}))


def _rounds_that_need(on: On) -> list[int]:
    """The rounds before which something of the place that is spoken of is exchanged."""
    rounds = [0]
    found: list[int] = []
    for step in on.at.steps:
        if step.action is Action.DEAL:
            rounds.append(rounds[-1] + 1)
        elif step.action is Action.EXCHANGE and step.place == on.place("place"):
            found.append(rounds[-1] + 1)
    return sorted({number for number in found if number <= rounds[-1]})


def _largest_card(on: On) -> int:
    shares = [on.sharing.quotient * 10**width for width in on.sharing.mat.widths]
    return max(
        card for number in ([on.sharing.dividend] if on.match["set"] == "large" else shares) for card in cards(number)
    )


def _on_trays(on: On) -> list[tuple[int, int, int]]:
    """What is seen on the trays: on how many, how much, and what their children stand for."""
    found = re.findall(rf"({N}) on (?:the tray|(?:each of )?({N}) trays?)(?: for ({N}))?", on.match["sight"])
    return [(number_in(trays or "1"), number_in(holds), number_in(stands or "1")) for holds, trays, stands in found]


def _adds_up(on: On) -> bool:
    """Whether trays and what is left make the number, or miss it by as much as the page says."""
    seen = _on_trays(on)
    lying = sum(count * 10**place for place, count in pieces_in(on.match["lying"] or "").items())
    total = sum(trays * holds for trays, holds, _ in seen) + lying + on.number("left")
    off = on.number("off") * (-1 if on.match["way"] == "few" else 1)
    known = {1, *(10**width for width in on.sharing.mat.widths)}
    return total == on.sharing.dividend + off and {stands for _, _, stands in seen} <= known


def _fewest_for(on: On) -> int:
    """What those stand for who stand for fewest."""
    return int(10 ** on.sharing.mat.widths[-1])


def _larger_shares(sharing: Sharing) -> list[int]:
    """What lies on the trays of those who stand for more than one."""
    return [sharing.quotient * 10**width for width in sharing.mat.widths if width]


def _is_right(on: On) -> bool:
    """Whether the trays hold what they should hold."""
    mat = on.sharing.mat
    right = {(mat[width], on.sharing.quotient * 10**width, 10**width) for width in mat.widths}
    seen = set(_on_trays(on))
    return seen == right or seen == {(trays, holds, 1) for trays, holds, _ in right}


def _is_like_today(on: On) -> bool:
    """Whether a number for another group asks the same of the bank and of the end as the page's own division."""
    today, other = on.block.of_page, divide(on.number("n"), on.sharing.divisor, False)
    return today is not None and (_sent_by(today), not today.remainder) == (_sent_by(other), not other.remainder)


def _is_quotient(match: re.Match[str]) -> bool:
    by, left = number_in(match["by"]), number_in(match["left"] or match["rest"] or "0")
    return by > 0 and divmod(number_in(match["whole"]), by) == (number_in(match["quotient"]), left)


def _is_product(match: re.Match[str]) -> bool:
    share_, sharers, left, total = (number_in(match[part] or "0") for part in ("share", "sharers", "left", "total"))
    return share_ * sharers + left == total


_ON = rf"{N} on (?:the tray|(?:each of )?{N} trays?)(?: for {N})?"
_NOT_ON_TRAYS = rf"(?:(?P<left>{SMALL}) left over)?(?:, )?(?:(?P<lying>{PIECES}) still in the middle)?"
_SIGHT = rf"(?P<sight>{_ON}(?:, {_ON})*), {_NOT_ON_TRAYS}"

RULES = (
    seen("seen", rf"{_SIGHT}(?:\. (?P<off>{N}) too (?P<way>few|many) in all)?", so=_adds_up),
    seen("seen", rf"(?P<n>{N}) is read as the answer", so=lambda on: on.number("n") in _larger_shares(on.sharing)),
    about("seen", rf"It should be {_SIGHT}", so=_is_right),
    whole("product", rf"(?P<share>{N}) \u00d7 (?P<sharers>{N})(?: \+ (?P<left>{N}))? = (?P<total>{N})", _is_product),
    whole(
        "quotient",
        rf"(?P<whole>{N}) [÷/] (?P<by>{N}) = (?P<quotient>{N})"
        rf"(?:,? (?:and )?(?:(?P<left>{SMALL}) left over|remainder (?P<rest>{SMALL})))?",
        _is_quotient,
    ),
    about("number", rf"We have (?!no\b)(?P<n>{SAID})", n=lambda on: on.sharing.dividend),
    about("number", rf"(?:[Ll]arge cards show|largest first:) (?P<n>{N})", n=lambda on: on.sharing.dividend),
    about(
        "number",
        rf"A number like (?P<n>{N}), for (?P<other>{N}) children",
        n=lambda on: on.sharing.dividend,
        other=lambda on: on.sharing.divisor,
    ),
    about("number", rf"(?P<n>{N}) then gives", n=lambda on: on.sharing.dividend),
    about("sharers", rf"fairly (?:among|between) (?P<n>{SMALL})", n=lambda on: on.sharing.divisor),
    about("children", rf"[Tt]here (?:is|are) (?P<n>{SMALL}) of us", n=lambda on: on.sharing.sharers),
    about(
        "sharers",
        rf"(?P<n>(?i:{SMALL})) (?:child is|children are) sharing, and (?:they stand|stands) for (?P<all>{SAID})",
        n=lambda on: on.sharing.sharers,
        all=lambda on: on.sharing.divisor,
    ),
    about(
        "sharers",
        rf"(?<!small )(?<!large )card (?:for|shows|for how many share:) (?P<n>{N})",
        n=lambda on: on.sharing.divisor,
    ),
    about("share", rf"(?<!Units: )(?P<n>{N}) each, {SMALL} left over", n=lambda on: on.sharing.quotient),
    about(
        "share",
        rf"(?:[Tt]he answer is|one share:|read the same:|A child for one has|unit bead for every [a-z-]+:)"
        rf" (?P<n>{N}|{SAID})(?! place)",
        n=lambda on: on.sharing.quotient,
    ),
    about("share", "too few to go round, all of it left over", so=lambda on: on.sharing.quotient == 0),
    about("left over", rf"(?P<n>{SMALL}) (?:is |are )?left over", n=lambda on: on.sharing.remainder),
    about("left over", rf"all (?P<n>{N}) lie apart", n=lambda on: on.sharing.remainder),
    about("exchanges", rf"(?P<n>{SMALL}) exchanges?\b(?! out)", n=lambda on: on.sharing.exchanges),
    about(
        "exchanges",
        rf"exchange out of (?P<at>{PLACE}(?:(?:, | and ){PLACE})*)",
        at=lambda on: _sent_by(on.sharing),
    ),
    about("exchanges", "shares out as it lies", so=lambda on: not on.sharing.exchanges + on.sharing.remainder),
    about("children", rf"(?P<n>{N}) (?:child|children) on the mat", n=lambda on: on.sharing.sharers),
    about("children", rf"^(?P<n>{N}) children$", n=lambda on: on.sharing.sharers),
    about("children", rf"(?P<n>{N}) (?:trays?, one for each child|empty trays?)", n=lambda on: on.sharing.sharers),
    about(
        "children",
        rf"Set out (?P<d>{N}) for (?P<n>{N}) child",
        d=lambda on: on.sharing.dividend,
        n=lambda on: on.sharing.sharers,
    ),
    about("children", rf"(?P<n>{N}) (?:child stands|children stand) for (?P<stands>{N})", n=_sharers),
    about(
        "children",
        rf"a child for (?P<stands>{N}) were shared out among (?P<n>{N})",
        stands=_fewest_for,
        n=_fewest_for,
    ),
    about("children", rf"(?<=[:,] )(?P<n>{N}) for (?P<stands>10{{0,2}})(?=[.,])", n=_sharers),
    about("children", rf"(?P<n>{N}) (?:child wears|children wear) none", n=lambda on: on.sharing.mat[0]),
    about("handlings", rf"(?P<n>{N}) (?:pieces? moved|pieces? to move)", n=lambda on: on.sharing.handlings),
    about(
        "minutes",
        rf"[Aa]bout (?P<n>{N}) minutes?(?: \((?P<handling>{N}) to move the pieces\))?",
        n=_length,
        handling=_minutes,
    ),
    about("cards", rf"[Ll]arge cards?:? (?:the card )?(?P<c>{CARDS})", c=lambda on: cards(on.sharing.dividend)),
    about("cards", rf"(?P<c>{CARDS}) in large cards", c=lambda on: cards(on.sharing.dividend)),
    about("pieces", rf"then lies in the middle: (?P<p>{PIECES})", p=lambda on: pieces(on.sharing.start)),
    about(
        "cards",
        rf"(?P<c>{CARDS}) for each of (?:the )?(?P<n>{N}) child(?:ren)?\b(?: who stand for (?P<stands>{N}))?",
        c=lambda on: cards(on.share),
        n=_sharers,
    ),
    about(
        "cards",
        rf"(?P<c>{CARDS}) for the child who stands for (?P<stands>{N})",
        c=lambda on: cards(on.share),
        so=lambda on: _sharers(on) == 1,
    ),
    about(
        "cards",
        rf"(?:tray and fetches|Cards to fetch:) (?:the card )?(?P<c>{CARDS})\.",
        c=lambda on: cards(on.sharing.quotient),
    ),
    about(
        "cards",
        rf"(?:who stands for (?P<stands>{N})|without a ribbon) fetches (?:the card )?(?P<c>{CARDS})\.",
        c=lambda on: cards(on.share),
    ),
    about(
        "cards", rf"(?P<c>{CARDS}) \((?:the|each) child who stands for (?P<stands>{N})\)", c=lambda on: cards(on.share)
    ),
    about("cards", rf"(?P<c>{CARDS}) for (?:the answer|it\.)", c=lambda on: cards(on.sharing.quotient)),
    about(
        "cards",
        rf"no (?P<set>large|small) card for (?P<n>{N}): write (?P<again>{N}) on",
        n=_largest_card,
        again=_largest_card,
    ),
    about("cards", rf"(?P<set>large|small) cards up to (?P<n>{N}) are needed", n=_largest_card),
    about("children", rf"(?P<n>{N}) (?:trays|sets of small cards) are needed", n=lambda on: on.sharing.sharers),
    about("children", rf"(?P<n>{N}) ribbons for ten are needed", n=lambda on: on.sharing.mat.at(1)),
    about("children", rf"(?P<n>{N}) ribbons for a hundred are needed", n=lambda on: on.sharing.mat.at(2)),
    about(
        "pieces",
        rf"(?P<n>{N}) (?P<place>{PLACE}) are needed",
        n=lambda on: on.sharing.pieces_needed.at(on.place("place")),
    ),
    about("pieces", rf"[Tt]he bank also needs: (?P<p>{PIECES})", p=lambda on: _to_come_out(on.sharing)),
    about("pieces", rf"[Ll]eft over: (?P<p>{PIECES})", p=lambda on: pieces(on.sharing.end.middle)),
    about("pieces", rf"[Ww]hat is left(?:: | over[:,] )(?P<p>{PIECES})", p=lambda on: pieces(on.sharing.end.middle)),
    about(
        "pieces",
        rf"In the middle: (?P<p>{PIECES})",
        p=lambda on: pieces(on.stage.start if on.stage else on.sharing.start),
    ),
    at_place(
        "pieces",
        rf"(?:In the middle then|(?:Then|Still) in the middle): (?P<p>{PIECES})",
        p=lambda on: pieces(on.at.end),
    ),
    at_place("pieces", "[Tt]he middle is empty", so=lambda on: on.at.end.pieces == 0),
    at_place("pieces", rf"(?P<n>{N}) trays? {HOLDS}", n=lambda on: _tray(on)[0], p=lambda on: _tray(on)[1]),
    at_place(
        "pieces",
        rf"(?P<n>{N}) trays? (?:is|are) empty",
        n=lambda on: _tray(on)[0],
        so=lambda on: not _tray(on)[1],
    ),
    at_place(
        "pieces",
        rf"(?:the tray|each of the (?P<n>{N}) trays) for (?P<stands>{N}) {HOLDS}",
        so=lambda on: _tray(on)[0] == (on.number("n") or 1),
        p=lambda on: _tray(on)[1],
    ),
    at_place(
        "rounds", rf"^{PLACE_HEAD}: (?P<n>{N}) (?:each|to (?:the|each) child for one)\b", n=lambda on: on.at.rounds
    ),
    at_place("rounds", rf"^{PLACE_HEAD}: (?P<n>{N}) in the answer", n=lambda on: on.at.rounds),
    at_place(
        "rounds",
        "too few to go round(?!,)|nothing here|: no round|: none in the answer|Nothing to give",
        so=lambda on: on.at.rounds == 0,
    ),
    at_place("rounds", rf"Give each tray (?P<n>{N}) (?P<place>{PLACE})", n=lambda on: on.at.rounds, place=_dealt),
    at_place(
        "rounds",
        rf"[Gg]ive {ONE_FOR_EACH}: (?P<n>{N}) rounds?",
        n=lambda on: on.at.rounds,
        so=lambda on: served(on) == dealt_at(on.sharing, on.at.level),
    ),
    at_place(
        "exchanges",
        rf"Before rounds? (?P<rounds>{N}(?:, {N})*(?: and {N})?), (?:each time )?take (?P<n>{N}) (?P<place>{PLACE})"
        rf" to the bank(?:, one at a time,)? and bring (?P<back>{N}) (?P<below>{PLACE}) back(?: for each)?",
        so=_sent_before_rounds,
    ),
    at_place(
        "exchanges",
        rf"Take (?P<n>{N}) (?P<place>{PLACE}) to the bank(?:, one at a time,)?"
        rf" and bring (?P<back>{N}) (?P<below>{PLACE}) back(?: for each)?",
        n=_sent_at_once,
        back=lambda _: 10,
        so=lambda on: on.place("below") == on.place("place") - 1,
    ),
    at_place(
        "exchanges", rf"(?<!ake )(?P<n>{N})(?: (?P<place>{PLACE}))? to the bank(?!,? (?:and|one))", n=lambda on: on.sent
    ),
    at_place(
        "exchanges",
        rf"{N} (?P<place>{PLACE}) to the bank, (?P<back>{N}) (?P<below>{PLACE}) back",
        back=lambda on: 10 * on.sent,
        so=lambda on: on.place("below") == on.place("place") - 1,
    ),
    at_place(
        "exchanges",
        rf"[Bb]efore rounds? (?P<rounds>{N}(?:, {N})*(?: and {N})?)(?: and after the last round)?: "
        rf"{N} (?P<place>{PLACE}) to the bank",
        so=lambda on: [number_in(said) for said in re.findall(N, on.match["rounds"])] == _rounds_that_need(on),
    ),
)

# Numbers that say nothing about a division.
NOT_ABOUT_IT = re.compile(
    rf"(?:we have|ours end at) {N}|Write {N} sets on paper|on {N} slips of paper"
    rf"|{N} more things that you may see|one table: {N} lines?"
)

_SENT = rf"(?P<n>{SMALL})(?:, out of (?P<at>.+))?"

# What stands beside a term or under the head of a column, by the last words of it; a number in a term is N.
VALUES = {
    "Number": about("number", rf"(?P<n>{N})", n=lambda on: on.sharing.dividend),
    "A number like N, for N children": about("name", rf"(?P<n>{N})(?:, the same number)?", so=_is_like_today),
    "Children": about("sharers", rf"(?P<n>{N})", n=lambda on: on.sharing.divisor),
    "Sharing for": about("sharers", rf"(?P<n>{N})(?: \(.*\))?", n=lambda on: on.sharing.divisor),
    "Each has": about("share", rf"(?P<n>{N})", n=lambda on: on.sharing.quotient),
    "Share": about("share", rf"(?P<n>{N})", n=lambda on: on.sharing.quotient),
    "Share of a child for one": about("share", rf"(?P<n>{N})", n=lambda on: on.sharing.quotient),
    "The answer": about("share", rf"(?P<n>{N})", n=lambda on: on.sharing.quotient),
    "Left over": about("left over", rf"(?P<n>{SMALL})", n=lambda on: on.sharing.remainder),
    "Exchanges": about("exchanges", _SENT, n=lambda on: on.sharing.exchanges, at=lambda on: _sent_by(on.sharing)),
    "Pieces to move": about("handlings", rf"(?P<n>{N})", n=lambda on: on.sharing.handlings),
    "Minutes of moving them": about("minutes", rf"(?P<n>{N})", n=_minutes),
    "Minutes of the lesson": about("minutes", rf"(?P<n>{N})", n=_whole_lesson),
    "Large cards": about("cards", rf"(?P<c>{CARDS})", c=lambda on: cards(on.sharing.dividend)),
    "Small cards of each child": about("cards", rf"(?P<c>{CARDS})", c=lambda on: cards(on.sharing.quotient)),
    "Out of the bank at most": about("pieces", rf"(?P<p>{PIECES})", p=lambda on: pieces(on.sharing.pieces_needed)),
    "Most pieces out of the bank at one time": about(
        "pieces", rf"(?P<p>{PIECES})", p=lambda on: pieces(on.sharing.pieces_needed)
    ),
}
