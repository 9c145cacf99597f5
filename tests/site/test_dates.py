"""The day of the build: which it is, and how it comes into finished pages; and the day when a review is due."""

from datetime import UTC, date, datetime

import pytest

from generator.errors import HandbookError
from generator.pages.writing.page import front_matter
from generator.site.dates import build_date, dated

# SOURCE_DATE_EPOCH: whole seconds in ASCII digits, everything else refused (reproducible-builds.org). The day of
# 1767225600 was worked out with GNU date: `date -u -d @1767225600`.
DATES = {"0": date(1970, 1, 1), "1767225600": date(2026, 1, 1), "1767225599": date(2025, 12, 31)}
MALFORMED = ["", " ", "soon", "-1", "1.5", "1e9", "0x10", "12 ", "+12", "1_000", "٣", "9" * 12, "9" * 40, "2026-01-01"]


@pytest.mark.parametrize(("text", "day"), DATES.items())
def test_the_build_date_can_be_stated(text: str, day: date) -> None:
    assert build_date({"SOURCE_DATE_EPOCH": text}) == day


def test_the_build_date_is_today_otherwise() -> None:
    before = datetime.now(UTC).date()
    assert before <= build_date({}) <= datetime.now(UTC).date()


@pytest.mark.parametrize("text", MALFORMED)
def test_a_malformed_build_date_is_refused(text: str) -> None:
    with pytest.raises(HandbookError, match=r"SOURCE_DATE_EPOCH: .* is not a number of seconds"):
        build_date({"SOURCE_DATE_EPOCH": text})


@pytest.mark.parametrize(
    ("built", "said"),
    [
        (date(2026, 11, 15), "review due"),
        (date(2026, 11, 16), "review due"),
        (date(2026, 11, 17), "review was due"),
    ],
)
def test_a_page_states_its_day_and_whether_its_review_was_due_before(built: date, said: str) -> None:
    page = (
        '<time datetime="<!--built-->"><!--built--></time>; <!--due 2026-11-16|review due|review was due--> 2026-11-16'
    )
    day = built.isoformat()
    assert dated(page, built) == f'<time datetime="{day}">{day}</time>; {said} 2026-11-16'


@pytest.mark.parametrize(
    ("reviewed", "months", "due"),
    [
        (date(2026, 11, 16), 12, "2027-11-16"),
        (date(2026, 12, 30), 1, "2027-01-30"),
        (date(2026, 1, 31), 1, "2026-02-28"),
        (date(2027, 8, 31), 6, "2028-02-29"),
    ],
)
def test_a_review_is_due_on_the_same_day_of_a_later_month_or_on_its_last(reviewed: date, months: int, due: str) -> None:
    assert front_matter("", (), reviewed, months)["review_due"] == due
