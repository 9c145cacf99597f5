"""Larger numbers against other people's arithmetic: test vectors, another library, and lots of lots."""

import re
from collections.abc import Iterator
from decimal import Context, Decimal, Inexact
from importlib import resources
from typing import NamedTuple

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.engine.sharing import Sharing, share
from tests.engine.replay import check_rooms, check_stages, replay

MOST_PLAIN_SHARERS = 9_999
EXACT = Context(prec=60, traps=[Inexact])
EXAMPLES = 150


class Vector(NamedTuple):
    name: str
    dividend: int
    divisor: int
    result: int


def vectors(operation: str) -> list[Vector]:
    """The test vectors of an operation on whole numbers of up to 40 digits that have a whole number as result.

    Source: General Decimal Arithmetic test cases by M. Cowlishaw, as they come with CPython's own tests.
    """
    try:
        folder = resources.files("test.decimaltestdata")
    except ModuleNotFoundError:
        pytest.skip("this Python came without its decimal test vectors")
    capitalised = operation[0].upper() + operation[1:]
    names = [operation.lower(), f"dd{capitalised}", f"dq{capitalised}"]
    texts = [(folder / f"{name}.decTest").read_text("utf-8") for name in names]
    return [vector for text in texts for vector in _read(text, operation.lower())]


def _read(text: str, operation: str) -> Iterator[Vector]:
    line = re.compile(r"(\w+)\s+(\w+)\s+'?([0-9.E+]+)'?\s+'?([0-9.E+]+)'?\s+->\s+'?([0-9.E+]+)'?(?:\s|$)")
    for name, kind, *numbers in (match.groups() for match in map(line.match, text.splitlines()) if match):
        values = [Decimal(number) for number in numbers]
        whole = all(value < 10**40 and value == value.to_integral_value() for value in values)
        if kind == operation and whole and values[1] > 0:
            yield Vector(name, *map(int, values))


def ways(dividend: int, divisor: int) -> list[Sharing]:
    """Shared with ribbons and, where that takes no more sharers than is sensible, plain."""
    plain = [share(dividend, divisor)] if divisor <= MOST_PLAIN_SHARERS else []
    return [share(dividend, divisor, ribbons=True), *plain]


def test_integer_quotients_of_the_decimal_test_vectors() -> None:
    found = vectors("divideInt")
    assert len(found) > 250
    for name, dividend, divisor, result in found:
        assert {sharing.quotient for sharing in ways(dividend, divisor)} == {result}, name


def test_remainders_of_the_decimal_test_vectors() -> None:
    found = vectors("remainder")
    assert len(found) > 250
    for name, dividend, divisor, result in found:
        assert {sharing.remainder for sharing in ways(dividend, divisor)} == {result}, name


def _check(sharing: Sharing) -> None:
    """By Python's own `decimal`, a C library that has nothing in common with Python's integers, and by the replay."""
    quotient, remainder = EXACT.divmod(Decimal(sharing.dividend), Decimal(sharing.divisor))
    assert (sharing.quotient, sharing.remainder) == (int(quotient), int(remainder))
    ledger = replay(sharing)
    check_rooms(sharing)
    check_stages(sharing)
    assert sharing.pieces_needed == ledger.most_out_of_the_bank
    assert sharing.handlings == ledger.pieces_moved


@settings(max_examples=EXAMPLES, deadline=None)
@given(st.integers(0, 10**9), st.integers(1, 12))
def test_large_numbers_among_a_group(dividend: int, divisor: int) -> None:
    _check(share(dividend, divisor))


@settings(max_examples=EXAMPLES // 3, deadline=None)
@given(st.integers(0, 10**7), st.integers(13, 400))
def test_large_groups(dividend: int, divisor: int) -> None:
    _check(share(dividend, divisor))


@settings(max_examples=EXAMPLES, deadline=None)
@given(st.integers(0, 10**15), st.integers(1, 10**6))
def test_large_numbers_with_ribbons(dividend: int, divisor: int) -> None:
    _check(share(dividend, divisor, ribbons=True))
