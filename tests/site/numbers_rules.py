"""What pages say about a division: patterns, and what is right for each part of them."""

import re

from tests.site.numbers_facts import (
    about,
    adds_up,
    at_place,
    cards,
    dealt,
    dealt_at,
    fewest_for,
    is_like_today,
    is_product,
    is_quotient,
    is_right,
    is_wanted,
    larger_shares,
    length,
    minutes,
    pieces,
    rounds_that_need,
    seen,
    sent_at_once,
    sent_before_rounds,
    sent_by,
    served,
    sharers,
    to_come_out,
    tray,
    whole,
    whole_lesson,
)
from tests.site.numbers_words import (
    CARDS,
    HOLDS,
    ONE_FOR_EACH,
    PIECES,
    PLACE,
    PLACE_HEAD,
    SAID,
    SMALL,
    N,
    number_in,
)

_ON = rf"{N} on (?:the tray|(?:each of (?:the )?)?{N} trays?)(?: for {N})?"
_NOT_ON_TRAYS = rf"(?:(?P<left>{SMALL}) left over)?(?:, )?(?:(?P<lying>{PIECES}) still in the middle)?"
_SIGHT = rf"(?P<sight>{_ON}(?:, {_ON})*), {_NOT_ON_TRAYS}"

RULES = (
    seen("seen", rf"(?P<cards>On the cards: )?{_SIGHT}(?:\. (?P<off>{N}) too (?P<way>few|many) in all)?", so=adds_up),
    seen("seen", rf"(?P<n>{N}) is read as the answer", so=lambda on: on.number("n") in larger_shares(on.sharing)),
    about("seen", rf"It should be {_SIGHT}", so=is_right),
    whole("product", rf"(?P<share>{N}) \u00d7 (?P<sharers>{N})(?: \+ (?P<left>{N}))? = (?P<total>{N})", is_product),
    whole(
        "quotient",
        rf"(?P<whole>{N}) [÷/] (?P<by>{N}) = (?P<quotient>{N})"
        rf"(?:,? (?:and )?(?:(?P<left>{SMALL}) left over|remainder (?P<rest>{SMALL})))?",
        is_quotient,
    ),
    about("number", rf"We have (?!no\b)(?P<n>{SAID})", n=lambda on: on.sharing.dividend),
    about("number", rf"(?:[Ll]arge cards show|Read the number:) (?P<n>{N})", n=lambda on: on.sharing.dividend),
    about(
        "number",
        rf"A number like (?P<n>{N}), for (?P<other>{N}) children",
        n=lambda on: on.sharing.dividend,
        other=lambda on: on.sharing.divisor,
    ),
    about("number", rf"(?P<n>{N}) then gives", n=lambda on: on.sharing.dividend),
    about("sharers", rf"our shelf has enough for: numbers for (?P<n>{N}) children", n=lambda on: on.sharing.divisor),
    about("sharers", rf"fairly (?:among|between) (?P<n>{SMALL})", n=lambda on: on.sharing.divisor),
    about("children", rf"[Tt]here (?:is|are) (?P<n>{SMALL}) of you", n=lambda on: on.sharing.sharers),
    about(
        "sharers",
        rf"(?P<n>(?i:{SMALL})) (?:child is|children are) sharing, and (?:they stand|stands) for (?P<all>{SAID})",
        n=lambda on: on.sharing.sharers,
        all=lambda on: on.sharing.divisor,
    ),
    about(
        "sharers",
        rf"(?<!small )(?<!large )card (?:for|shows|that says how many (?:share|they stand for):) (?P<n>{N})",
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
    about("left over", rf"all (?P<n>{N}) are kept apart", n=lambda on: on.sharing.remainder),
    about("exchanges", rf"(?P<n>{SMALL}) exchanges?\b(?! out)", n=lambda on: on.sharing.exchanges),
    about(
        "exchanges",
        rf"exchange out of (?P<at>{PLACE}(?:(?:, | and ){PLACE})*)",
        at=lambda on: sent_by(on.sharing),
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
    about("children", rf"(?P<n>{N}) (?:child stands|children stand) for (?P<stands>{N})", n=sharers),
    about(
        "children",
        rf"a child for (?P<stands>{N}) were shared out among (?P<n>{N})",
        stands=fewest_for,
        n=fewest_for,
    ),
    about("children", rf"(?<=[:,] )(?P<n>{N}) for (?P<stands>10{{0,2}})(?=[.,])", n=sharers),
    about("children", rf"(?P<n>{N}) (?:child wears|children wear) none", n=lambda on: on.sharing.mat[0]),
    about("handlings", rf"(?P<n>{N}) (?:pieces? moved|pieces? to move)", n=lambda on: on.sharing.handlings),
    about(
        "minutes",
        rf"[Aa]bout (?P<n>{N}) minutes?(?:, (?P<handling>{N}) of them moving pieces)?",
        n=length,
        handling=minutes,
    ),
    about("cards", rf"[Ll]arge cards?:? (?:the card )?(?P<c>{CARDS})", c=lambda on: cards(on.sharing.dividend)),
    about("cards", rf"(?P<c>{CARDS}) in large cards", c=lambda on: cards(on.sharing.dividend)),
    about("pieces", rf"Counts the middle with them: (?P<p>{PIECES})", p=lambda on: pieces(on.sharing.start)),
    about(
        "cards",
        rf"(?P<c>{CARDS}) for each of (?:the )?(?P<n>{N}) child(?:ren)?\b(?: who stand for (?P<stands>{N}))?",
        c=lambda on: cards(on.share),
        n=sharers,
    ),
    about(
        "cards",
        rf"(?P<c>{CARDS}) for the child who stands for (?P<stands>{N})",
        c=lambda on: cards(on.share),
        so=lambda on: sharers(on) == 1,
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
    about("cards", rf"Write (?P<n>{N}) on (?:a slip|{N} slips)", so=is_wanted),
    about("children", rf"(?:trays|sets of small cards) \((?P<n>{N}) needed", n=lambda on: on.sharing.sharers),
    about("children", rf"ribbons for ten \((?P<n>{N}) needed", n=lambda on: on.sharing.mat.at(1)),
    about("children", rf"ribbons for a hundred \((?P<n>{N}) needed", n=lambda on: on.sharing.mat.at(2)),
    about(
        "pieces",
        rf"(?P<place>{PLACE}) \((?P<n>{N}) needed",
        n=lambda on: on.sharing.pieces_needed.at(on.place("place")),
    ),
    about("pieces", rf"[Tt]he bank also needs: (?P<p>{PIECES})", p=lambda on: to_come_out(on.sharing)),
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
    at_place("pieces", rf"(?P<n>{N}) trays? {HOLDS}", n=lambda on: tray(on)[0], p=lambda on: tray(on)[1]),
    at_place(
        "pieces",
        rf"(?P<n>{N}) trays? (?:is|are) empty",
        n=lambda on: tray(on)[0],
        so=lambda on: not tray(on)[1],
    ),
    at_place(
        "pieces",
        rf"(?:the tray|each of the (?P<n>{N}) trays) for (?P<stands>{N}) {HOLDS}",
        so=lambda on: tray(on)[0] == (on.number("n") or 1),
        p=lambda on: tray(on)[1],
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
    at_place("rounds", rf"Give each tray (?P<n>{N}) (?P<place>{PLACE})", n=lambda on: on.at.rounds, place=dealt),
    at_place(
        "rounds",
        rf"[Gg]ive {ONE_FOR_EACH}: (?P<n>{N}) rounds?",
        n=lambda on: on.at.rounds,
        so=lambda on: served(on) == dealt_at(on.sharing, on.at.level),
    ),
    at_place(
        "exchanges",
        rf"(?:Before rounds? (?P<rounds>{N}(?:, {N})*(?: and {N})?), (?:each time )?|Then )"
        rf"take (?P<n>{N}) (?P<place>{PLACE}) to the bank(?:, one at a time,)?"
        rf" and bring (?P<back>{N}) (?P<below>{PLACE}) back(?: for each)?",
        so=sent_before_rounds,
    ),
    at_place(
        "exchanges",
        rf"Take (?P<n>{N}) (?P<place>{PLACE}) to the bank(?:, one at a time,)?"
        rf" and bring (?P<back>{N}) (?P<below>{PLACE}) back(?: for each)?",
        n=sent_at_once,
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
        so=lambda on: [number_in(said) for said in re.findall(N, on.match["rounds"])] == rounds_that_need(on),
    ),
)

# Numbers that say nothing about a division.
NOT_ABOUT_IT = re.compile(
    rf"(?:we have|cards only go up to) {N}|Write {N} sets on paper|on {N} slips of paper"
    rf"|for the {N} missing trays"
    rf"|{N} more things that you may see|one table: {N} lines?"
    r"|version \d+\.\d+\.\d+, \d{4}-\d\d-\d\d|(?<=[.:] )[1-9]\. (?=[A-Z])"
)

_SENT = rf"(?P<n>{SMALL})(?:, out of (?P<at>.+))?"

# What stands beside a term or under the head of a column, by the last words of it; a number in a term is N.
VALUES = {
    "Number": about("number", rf"(?P<n>{N})(?: lesson)?", n=lambda on: on.sharing.dividend),
    "A number like N, for N children": about(
        "name", rf"(?:none of exactly this kind; )?(?P<n>{N})(?:, the same number| comes nearest)?", so=is_like_today
    ),
    "Children": about("sharers", rf"(?P<n>{N})", n=lambda on: on.sharing.divisor),
    "Sharing for": about("sharers", rf"(?P<n>{N})(?: \(.*\))?", n=lambda on: on.sharing.divisor),
    "Each has": about("share", rf"(?P<n>{N})", n=lambda on: on.sharing.quotient),
    "Share": about("share", rf"(?P<n>{N})", n=lambda on: on.sharing.quotient),
    "A child for one has": about("share", rf"(?P<n>{N})", n=lambda on: on.sharing.quotient),
    "The answer": about("share", rf"(?P<n>{N})", n=lambda on: on.sharing.quotient),
    "Left over": about("left over", rf"(?P<n>{SMALL})", n=lambda on: on.sharing.remainder),
    "Exchanges": about("exchanges", _SENT, n=lambda on: on.sharing.exchanges, at=lambda on: sent_by(on.sharing)),
    "Pieces to move": about("handlings", rf"(?P<n>{N})", n=lambda on: on.sharing.handlings),
    "Minutes to move them": about("minutes", rf"(?P<n>{N})", n=minutes),
    "Lesson, in minutes": about("minutes", rf"(?P<n>{N})", n=whole_lesson),
    "Large cards": about("cards", rf"(?P<c>{CARDS})", c=lambda on: cards(on.sharing.dividend)),
    "Small cards of each child": about("cards", rf"(?P<c>{CARDS})", c=lambda on: cards(on.sharing.quotient)),
    "Out of the bank at most": about("pieces", rf"(?P<p>{PIECES})", p=lambda on: pieces(on.sharing.pieces_needed)),
    "Most pieces out of the bank at one time": about(
        "pieces", rf"(?P<p>{PIECES})", p=lambda on: pieces(on.sharing.pieces_needed)
    ),
}
