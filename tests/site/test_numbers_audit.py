"""The audit of numbers reads every number of a page about a division, and sees when one of them is changed."""

import re
from itertools import pairwise
from pathlib import Path

import pytest

from generator.source.school import School
from tests.sampling import sample, times
from tests.site.numbers_audit import Report, audit_numbers
from tests.site.numbers_plans import PLAN_RULES
from tests.site.numbers_rules import RULES, VALUES
from tests.site.numbers_words import N
from tests.site.tags import tags
from tests.stock import sources

SCHOOL = School()

PAGES = Path(__file__).parent / "numbers"
PLAIN = (PAGES / "plain.html").read_text("utf-8")
RIBBONS = (PAGES / "ribbons.html").read_text("utf-8")


def audited(site: Path, plain: str = PLAIN, ribbons: str = RIBBONS) -> Report:
    (site / "plain.html").write_text(plain, "utf-8")
    (site / "ribbons.html").write_text(ribbons, "utf-8")
    return audit_numbers(site, SCHOOL)


def numbers(page: str) -> list[tuple[int, int]]:
    """Where every number stands that a reader meets and that could not as well be another."""
    page = _NO_STATEMENT.sub(lambda found: "_" * len(found[0]), page)
    alternatives = [found.span(1) for found in re.finditer(r'alt="(.*?)"', page, re.DOTALL)]
    between = [(before.end, after.start) for before, after in pairwise(tags(page))]
    return [found.span() for start, end in alternatives + between for found in re.compile(N).finditer(page, start, end)]


_NO_STATEMENT = re.compile(
    r"we have \d+|cards only go up to \d+|<nav>.*?</nav>|<thead>.*?</thead>"
    r"|Each has 1,306, and 6 left over"  # after a slip
    r"|4,240",  # one of many of the same kind
    re.DOTALL,
)
CHANGES = sample(
    ((name, span) for name, article in (("plain", PLAIN), ("ribbons", RIBBONS)) for span in numbers(article)), 50
)


def test_right_pages_are_read_to_the_last_number(tmp_path: Path) -> None:
    report = audited(tmp_path)
    assert report.wrong == []
    assert report.unread == []
    assert sum(report.verified.values()) >= 170


def test_every_kind_of_statement_is_there(tmp_path: Path) -> None:
    kinds = {rule.kind for rule in (*RULES, *PLAN_RULES, *VALUES.values())} | {
        "name",
        "steps",
        "places",
        "back together",
        "seen",
    }
    assert set(audited(tmp_path).verified) == kinds


@pytest.mark.parametrize(("name", "span"), CHANGES, ids=[f"{name}-{start}" for name, (start, _) in CHANGES])
def test_one_changed_number_is_seen(name: str, span: tuple[int, int], tmp_path: Path) -> None:
    article = {"plain": PLAIN, "ribbons": RIBBONS}[name]
    end = span[1]
    digit = str((int(article[end - 1]) + 1) % 10)
    report = audited(tmp_path, **{name: article[: end - 1] + digit + article[end:]})
    assert report.wrong or report.unread
    assert {found.page for found in report.wrong} | {found.page for found in report.unread} == {f"{name}.html"}


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("5,230 ÷ 4 = 1,307, 2 left over", True),
        ("5230 / 4 = 1307 and two left over", True),
        ("5,230 / 4 = 1,307 remainder 2", True),
        ("8,448 ÷ 4 = 2,112", True),
        ("8,448 ÷ 4 = 2,112, nothing left over", True),
        ("5,230 ÷ 4 = 1,307", False),
        ("5,230 ÷ 4 = 1,306, 6 left over", False),
        ("5,230 among 4: 1,307 each, 2 left over", True),
        ("5,230 among 4: 1,308 each, 2 left over", False),
        ("5,230 among four: two left over", True),
        ("5,230 among four: three left over", False),
        ("8,448 among four: shares out as it lies", True),
        ("5,232 among four: shares out as it lies", False),
        ("5,230 among four needs 4 exchanges and 112 pieces moved", True),
        ("5,230 among four needs 5 exchanges", False),
        ("5,230 among four needs 111 pieces moved", False),
        ("7 among nine: too few to go round, all of it left over", True),
        ("9 among seven: too few to go round, all of it left over", False),
        ("12 \N{MULTIPLICATION SIGN} 12 = 144", True),
        ("12 \N{MULTIPLICATION SIGN} 12 = 145", False),
    ],
)
def test_statements_on_pages_without_a_division(text: str, right: bool, tmp_path: Path) -> None:
    (tmp_path / "page.html").write_text(f"<html><body><article><p>{text}</p></article></body></html>", "utf-8")
    report = audit_numbers(tmp_path, SCHOOL)
    assert (not report.wrong) == right
    assert sum(report.verified.values()) + len(report.wrong)


def test_tells_page_line_what_is_said_and_what_is_right(tmp_path: Path) -> None:
    report = audited(tmp_path, PLAIN.replace("(112 pieces moved)", "(113 pieces moved)"))
    (wrong,) = report.wrong
    assert (wrong.page, wrong.line, wrong.stated, wrong.right) == ("plain.html", 8, "113", "112")
    said = "About 25 minutes, 6 of them moving pieces (113 pieces moved)"
    assert str(wrong) == f"plain.html:8: '113' should be 112 in: {said}"


def test_the_stock_handbook_states_no_wrong_number(site: Path) -> None:
    report = audit_numbers(site, sources().school, most=20)
    assert report.wrong == []
    assert report.unread == []
    assert sum(report.verified.values()) >= times(whole=50_000, sampled=3_500)
