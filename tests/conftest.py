"""What all tests share: the stock handbook, built once for each test process."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.build.straight_line import Request, build


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the built stock handbook; tests read it and never write into it."""
    out = tmp_path_factory.mktemp("stock") / "a site é"
    build(Request(out=out), say=lambda line: None)
    return out
