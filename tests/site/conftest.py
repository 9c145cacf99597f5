"""The small handbook of tests/site/sample, built once for all tests of a process."""

from pathlib import Path

import pytest

from tests.site import samples


@pytest.fixture(scope="session")
def sample_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Tests read it and never write into it."""
    return samples.build(tmp_path_factory.mktemp("sample") / "site")
