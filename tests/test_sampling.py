"""What a sample holds, that no test is passed over, and that the files of the developer's own builds are watched."""

from fnmatch import fnmatch
from itertools import pairwise
from pathlib import Path

import pytest

from tests.conftest import files_with_times
from tests.sampling import spread


def test_a_sample_has_both_ends_and_is_spread_evenly() -> None:
    every_37th = spread(list(range(10_000)), 271)
    assert len(every_37th) == 271
    assert every_37th[:4] == [0, 37, 74, 111]
    assert every_37th[-1] == 9_999
    assert {after - before for before, after in pairwise(every_37th)} == {37, 38}


def test_few_items_are_all_taken() -> None:
    assert spread(["a", "b"], 2) == ["a", "b"]
    assert spread([], 5) == []


def test_a_file_that_is_made_or_changed_is_seen(tmp_path: Path) -> None:
    folder = tmp_path / "build"
    assert files_with_times(folder) == {}
    (folder / "site").mkdir(parents=True)
    (folder / "site" / "index.html").write_text("one", "utf-8")
    made = files_with_times(folder)
    assert list(made) == [folder / "site" / "index.html"]
    (folder / "site" / "index.html").write_text("longer", "utf-8")
    assert files_with_times(folder) != made


def test_no_folder_of_tests_is_passed_over(pytestconfig: pytest.Config) -> None:
    """By itself pytest passes over any folder named build."""
    folders = {file.parent.name for file in Path(__file__).parent.rglob("test_*.py")}
    assert "build" in folders
    assert [
        name for name in folders for pattern in pytestconfig.getini("norecursedirs") if fnmatch(name, pattern)
    ] == []
