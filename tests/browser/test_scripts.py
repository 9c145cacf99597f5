"""What the scripts answer in an embedded V8 they answer on the page in Chromium: a part of the same tests."""

from collections.abc import Iterator
from itertools import islice, product
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import visiting
from tests.browser.test_today import TODAY
from tests.engine.divisions import divisions_with_ribbons
from tests.sampling import sample, times
from tests.script.engine import HELPERS, Engine
from tests.script.test_choose import test_every_filter_with_and_without_a_shelf as check_every_filter
from tests.script.test_diagnose import plain, with_ribbons
from tests.script.test_diagnose import (
    test_every_slip_what_it_leaves_its_repair_and_what_is_said_when_it_is_seen as check_every_slip,
)
from tests.script.test_share import check


class InChromium(Engine):
    """The page of today's number in place of an embedded V8."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.run(HELPERS)

    def run(self, script: str) -> str:
        return str(self.page.evaluate("script => (0, eval)(script)", script))


@pytest.fixture(scope="module")
def engine(chromium: Browser, plain_site: Path) -> Iterator[InChromium]:
    with visiting(chromium) as visit:
        visit.page.goto((plain_site / TODAY).as_uri())
        yield InChromium(visit.page)


def test_share(engine: InChromium) -> None:
    numbers = sample(range(10_000), 5)[:: times(whole=37, sampled=1)]
    check(engine, ((number, divisor, False, number % 2 == 0) for number, divisor in product(numbers, range(1, 13))))
    ribbons = islice(divisions_with_ribbons(71), times(whole=1_000, sampled=20))
    check(engine, ((number, divisor, True, number % 2 == 0) for number, divisor in ribbons))


@pytest.mark.parametrize("divisor", sample([1, 4, 7, 12], 1))
def test_choose(engine: InChromium, divisor: int) -> None:
    check_every_filter(engine, divisor)


def test_slips_repairs_and_diagnosis(engine: InChromium) -> None:
    check_every_slip(engine, plain, times(whole=100, sampled=2), ribbons=False)
    check_every_slip(engine, with_ribbons, times(whole=10, sampled=1), ribbons=True)
