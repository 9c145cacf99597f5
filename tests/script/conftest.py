"""One engine for all tests of the scripts in a process."""

from collections.abc import Iterator

import pytest

from tests.script.engine import Engine, running


@pytest.fixture(scope="session")
def engine() -> Iterator[Engine]:
    with running() as engine:
        yield engine
