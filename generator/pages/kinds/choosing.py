"""Choosing numbers -> one page for each size of group, and a page that leads to them."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import Any

from generator.engine.choosing_numbers import (
    NUMBER_KINDS,
    Choice,
    Offer,
    best_first,
    digits_must_repeat,
    numbers,
    numbers_of_kind,
    offer,
)
from generator.engine.places import TENS
from generator.engine.sharing import share
from generator.engine.shelf import Shelf, needs, shortages
from generator.pages.writing.links import LessonLink
from generator.pages.writing.page import Page
from generator.pages.writing.writer import Writer
from generator.words.numbers import capital, in_clauses, number_words, small_number
from generator.words.phrases import Phrases

INDEX = "choosing/index.md"
_OF_FOUR_DIGITS = 9000
_MORE_BARS = 10
_READY = 5
_ONLY = {
    **{kind: "exact-without-zero" for kind in NUMBER_KINDS if kind.startswith("exchange-")},
    "remainder": "without-zero",
    "zero-in-number": "exact",
    "zero-in-share": "exact",
}
"""The phrase `group.only.*` for what the name of a kind does not say about its numbers."""


def write_choosing(writer: Writer, reviewed: date) -> Page:
    """The page that asks how many share, with what the shelf allows for each, as it is and with more bars."""
    words, shelf = writer.phrases, writer.school.shelf.owned
    more = shelf.with_more(TENS, _MORE_BARS)
    found = [
        (size, len(numbers(size, Choice(shelf=shelf))), len(numbers(size, Choice(shelf=more))))
        for size in writer.school.groups.sizes
    ]
    called = {size: number_words(words, size) for size in writer.school.groups.sizes}
    allowed = [
        words.say("alternative.allowed", size=called[size], allowed=allowed, all=_OF_FOUR_DIGITS)
        for size, allowed, _ in found
    ]
    data = {
        "groups": [
            {"size": size, "path": _path(size), "allowed": allowed, "allowed_with_more": with_more}
            for size, allowed, with_more in found
        ],
        "four_digits": _OF_FOUR_DIGITS,
        "more_bars": _MORE_BARS,
        "rows": [(size, allowed / _OF_FOUR_DIGITS, with_more / _OF_FOUR_DIGITS) for size, allowed, with_more in found],
        "allowed_alternative": in_clauses(words, allowed),
        "unseated": _unseated(words, shelf, called),
    }
    return writer.page("choosing", INDEX, data, reviewed)


def _unseated(words: Phrases, shelf: Shelf, called: Mapping[int, str]) -> dict[str, list[str]] | None:
    """Of sizes for which there are too few trays or sets of small cards: names, what there is, what will do."""
    sizes = [size for size in called if not shelf.seats(size)]
    if not sizes:
        return None
    short, will_do = [], []
    if shelf.trays < max(sizes):
        short.append(words.say("shortage.more.trays", count=shelf.trays))
        will_do.append(words.say("shortage.mats-for-trays", count=max(sizes) - shelf.trays))
    if shelf.small_sets < max(sizes):
        short.append(words.say("shortage.more.small_sets", count=shelf.small_sets))
        will_do.append(words.say("shortage.sets-on-paper", count=max(sizes) - shelf.small_sets))
    return {"sizes": [called[size] for size in sizes], "short": short, "will_do": will_do}


def write_group(given: tuple[Writer, date], group: tuple[int, list[LessonLink]]) -> Page:
    """Ready numbers for one size of group, which has lessons of its own; the date is when they were last reviewed."""
    writer, reviewed = given
    size, lessons = group
    words, shelf = writer.phrases, writer.school.shelf.owned
    none_fits = not numbers(size, Choice(shelf=shelf))
    own = {link.dividend: link for link in lessons}
    kinds = [_kind(name, size, own, writer) for name in NUMBER_KINDS]
    name = number_words(words, size)
    data = {
        "size": size,
        "unseated": _unseated(words, shelf, {size: name}),
        "none_fits": none_fits,
        "of_three_digits": len(numbers(size, Choice(shelf=shelf, digits=3))) if none_fits else 0,
        "kinds": kinds,
        "any_short": any(row["shortages"] for kind in kinds for row in kind["ready"]),
        "own": lessons,
    }
    return writer.page("group", _path(size), data, reviewed, size=str(size), name=name, capital_name=capital(name))


def _path(size: int) -> str:
    return f"choosing/group-{size}.md"


def _kind(name: str, size: int, own: Mapping[int, LessonLink], writer: Writer) -> dict[str, Any]:
    """One kind of number: sentences on how many there are and how many the shelf allows, and the best few of them."""
    offered = offer(size, name)
    shelf = writer.school.shelf.owned
    of_four_digits = offered.digits == 4 and not offered.only_near
    allowed = numbers_of_kind(size, name, shelf) if of_four_digits else ()
    with_the_beads = numbers_of_kind(size, name, shelf.with_seats(size)) if of_four_digits else ()
    candidates = allowed or with_the_beads or offered.numbers
    best = _with_own(best_first(size, candidates, _READY), candidates, own)
    worked = [share(number, size, look_first=writer.school.look_first) for number in best]
    worked.sort(key=lambda sharing: sharing.exchanges)
    ready = [
        {"sharing": sharing, "lesson": own.get(sharing.dividend), "shortages": shortages(needs(sharing), shelf)}
        for sharing in worked
    ]
    told = " ".join(_sentences_about(writer.phrases, name, size, offered, len(allowed)))
    return {"name": name, "told": told, "ready": ready}


def _with_own(best: Sequence[int], candidates: Sequence[int], own: Iterable[int]) -> list[int]:
    """The best numbers, among them the first that is a lesson of this handbook."""
    first = [number for number in own if number in candidates][:1]
    return [*first, *(number for number in best if number not in first)][:_READY]


def _sentences_about(words: Phrases, name: str, size: int, offered: Offer, allowed: int) -> Iterator[str]:
    """What is said of the numbers of a kind. `allowed`: how many of four digits the shelf allows."""
    count, digits = len(offered.numbers), small_number(words, offered.digits)
    only = words.say(f"group.only.{_ONLY[name]}") if name in _ONLY else ""
    if not count:
        yield words.say("group.no-number", only=only, size=size)
        if name == "static" and size >= 10:
            yield words.say("group.first-digit", size=size)
    elif offered.only_near:
        yield words.say("group.nearest", digits=digits)
    elif offered.digits < 4:
        yield words.say("group.shorter", only=only, digits=digits)
    else:
        yield words.say("group.numbers", count=count, only=only)
        allows = "group.allows-all" if allowed == count else "group.allows" if allowed else "group.allows-none"
        yield words.say(allows, count=count, allowed=allowed)
    if count and not offered.only_near and digits_must_repeat(offered.numbers):
        yield words.say("group.digits-repeat", count=count)
