"""`check`: exit codes, what is printed, and that nothing is written."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.commands.running import run_command
from tests.source.cases import HERE, STOCK, case_folders, lay_out


@pytest.fixture(autouse=True)
def _small_handbook(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("generator.commands.check.HANDBOOK", STOCK)


def test_without_faults_it_counts_what_there_is() -> None:
    assert run_command("check") == (0, "No faults: 4 lessons in 3 steps, 2 pages.\n", "")


def test_it_says_what_a_school_changes(tmp_path: Path) -> None:
    school = lay_out(HERE / "valid" / "replaces-ours", tmp_path / "case").school
    code, out, err = run_command("check", "--school", school)
    assert (code, err) == (0, "")
    assert out.splitlines()[0] == "school/lessons/static/8448-among-4.toml: replaces ours"
    assert out.splitlines()[-1] == "No faults: 4 lessons in 3 steps, 2 pages."


@pytest.mark.parametrize("name", ["lesson-every-fault", "school-two-files", "page-values"])
def test_every_fault_is_printed_and_nothing_else(name: str, tmp_path: Path) -> None:
    case = HERE / "invalid" / name
    school = lay_out(case, tmp_path / "case").school
    assert run_command("check", "--school", school) == (1, "", (case / "expected.txt").read_text("utf-8"))


def test_a_folder_that_is_not_there_is_a_fault(tmp_path: Path) -> None:
    assert run_command("check", "--school", tmp_path / "nowhere") == (
        1,
        "",
        "nowhere: is not a folder; check its name\n",
    )


def test_wrong_usage() -> None:
    code, out, err = run_command("check", "--skool", "x")
    assert (code, out) == (2, "")
    assert "--school" in err


def test_nothing_is_written(tmp_path: Path) -> None:
    for case in case_folders("valid"):
        school = lay_out(case, tmp_path / case.name).school
        before = _contents(tmp_path)
        assert run_command("check", "--school", school)[0] == 0
        assert _contents(tmp_path) == before


def _contents(folder: Path) -> dict[Path, bytes]:
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
