"""Every number that the built pages state about a division, checked against the division itself.

Reads the finished HTML, not the templates. What it can read is listed in RULES (anywhere in a text) and VALUES (beside
a term or under the head of a column) of numbers_rules.py, in numbers_plans.py and in numbers_tables.py. What is said is
checked
    by itself, where the statement is whole: "5,230 ÷ 4 = 1,307, 2 left over"
    by the division named before it in the same text: "5,230 among four: ... two left over"
    by the division of its row or block (data-dividend, data-divisor, data-ribbons), or of its page.
A name that is a link must name the division of the page it leads to. A block with `data-what-if` tells what would be
seen after a slip; only whole statements are checked in it.
"""

import posixpath
import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple

from generator.engine.sharing import Sharing
from generator.source.school import School
from tests.sampling import sample
from tests.site.numbers_facts import On, Rule
from tests.site.numbers_plans import PLAN_RULES
from tests.site.numbers_rules import NOT_ABOUT_IT, RULES, VALUES
from tests.site.numbers_tables import cell_rules
from tests.site.numbers_words import NAMED, N, Right, named_division, read
from tests.site.page_text import Block, blocks, divide, division_of
from tests.site.tags import line_at


class Wrong(NamedTuple):
    """A statement that is not so: what the page says and what would be right."""

    page: str
    line: int
    text: str
    stated: str
    right: str

    def __str__(self) -> str:
        return f"{self.page}:{self.line}: {self.stated!r} should be {self.right} in: {self.text}"


class Unread(NamedTuple):
    """A number beside a division that no rule reads."""

    page: str
    line: int
    number: str
    text: str


@dataclass
class Report:
    """What was found: how many statements of each kind hold, which do not, and which numbers nothing reads."""

    verified: Counter[str] = field(default_factory=Counter)
    wrong: list[Wrong] = field(default_factory=list)
    unread: list[Unread] = field(default_factory=list)


def audit_numbers(site: Path, school: School, most: int | None = None) -> Report:
    """Check every page of a built site, or a sample of so many, against divisions, as this school shares."""
    pages = {path.relative_to(site).as_posix(): path.read_text("utf-8") for path in sorted(site.rglob("*.html"))}
    divisions = {page: division_of(text) for page, text in pages.items()}
    report = Report()
    for page, text in sample(pages.items(), most or len(pages)):
        for block in (_as_shared(block, school) for block in blocks(text)):
            if block.division or NAMED.search(block.text) or " = " in block.text:
                found = [*_names(page, block, divisions), *_statements(block, school)]
                _note(page, text, block, found, report)
    return report


def _shared(sharing: Sharing | None, school: School) -> Sharing | None:
    return sharing and divide(sharing.dividend, sharing.divisor, sharing.ribbons, school.look_first)


def _as_shared(block: Block, school: School) -> Block:
    return block._replace(division=_shared(block.division, school), of_page=_shared(block.of_page, school))


class _Said(NamedTuple):
    """A statement in a block: its kind, what is said, what is right, and which stretch of the text has been read."""

    kind: str
    said: str
    right: Right
    read: tuple[int, int]


def _note(page: str, text: str, block: Block, found: Sequence[_Said], report: Report) -> None:
    """Put down which statements of a block hold, which do not, and which numbers nothing reads."""
    for kind, said, right, _ in found:
        if read(said, right) == right:
            report.verified[kind] += 1
        else:
            report.wrong.append(Wrong(page, line_at(text, block.position), block.text, said, str(right)))
    if block.division and not block.what_if and not block.heads:
        known = [statement.read for statement in found]
        known += [match.span() for match in NOT_ABOUT_IT.finditer(block.text)]
        for number in re.finditer(N, block.text):
            if not any(start <= number.start() and number.end() <= end for start, end in known):
                report.unread.append(Unread(page, line_at(text, block.position), number[0], block.text))


def _names(page: str, block: Block, divisions: Mapping[str, Sharing | None]) -> Iterator[_Said]:
    """Names of divisions, each with the number of the page that it links to, or of where it stands."""
    for name in NAMED.finditer(block.text):
        targets = [href for text, href in block.links if name[0] in text]
        meant = [divisions.get(_page_meant(page, href)) for href in targets] or [block.division]
        for division in filter(None, meant):
            yield _Said("name", name["dividend"], division.dividend, name.span())
            yield _Said("name", name["ribbons"] or name["among"], division.divisor, name.span())


def _page_meant(page: str, href: str) -> str:
    """The page that a link leads to; in the book, the page that became the chapter, or that of the lesson of a plan."""
    path, _, anchor = href.partition("#")
    if path:
        return posixpath.normpath(posixpath.join(posixpath.dirname(page), path))
    chapter, _, name = anchor.partition(":")
    folder, _, plans = chapter.rpartition("/")
    return f"{folder}/{name}.html" if plans == "plans" and name else f"{chapter}.html"


def _statements(block: Block, school: School) -> Iterator[_Said]:
    names = list(NAMED.finditer(block.text))
    for rule in (*RULES, *PLAN_RULES):
        for match in rule.pattern.finditer(block.text):
            before = [name for name in names if name.end() <= match.start()]
            named = _shared(named_division(before[-1]), school) if before else None
            yield from _judged(rule, match, block, named or block.division, school)
    if block.division:
        label = re.sub(N, "N", block.label)
        values = [VALUES[label]] if label in VALUES else []
        for rule in cell_rules(block, block.division) or values:
            if cell := rule.pattern.fullmatch(block.text):
                yield from _judged(rule, cell, block, block.division, school)


def _judged(rule: Rule, match: re.Match[str], block: Block, sharing: Sharing | None, school: School) -> Iterator[_Said]:
    """The parts of a match of a rule, if what the rule needs is there."""
    if rule.needs and (sharing is None or (block.what_if and rule.needs != "seen")):
        return
    own = sharing.stages if sharing and sharing == block.division else ()
    stage = next((stage for stage in own if stage.level == block.place), None)
    if rule.needs == "stage" and stage is None:
        return
    if stage and block.moment:
        at_the_bank, alike = "-bank" in block.moment, re.search(r"\d$", block.moment)
        parts = [part for part in stage.parts if part.at_the_bank == at_the_bank]
        stage = parts[int(alike[0]) - 1 if alike else 0]
    on = On(match, block, sharing or divide(0, 1, False), stage, school.time)
    for group, right in rule.right.items():
        said = match[0 if group == "so" else group]
        if said is not None:
            yield _Said(rule.kind, said, right(on), match.span())
