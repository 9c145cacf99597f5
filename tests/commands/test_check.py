"""`check`: exit codes, what is printed, and that nothing is written."""

import shutil
from pathlib import Path

import pytest

from tests.commands.running import run_command
from tests.sampling import only_in_a_whole_run
from tests.small_handbook import contents, write_small_handbook
from tests.source.cases import HERE, STOCK, lay_out, needs_posix


@pytest.fixture(autouse=True)
def _small_handbook(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    handbook = write_small_handbook(tmp_path_factory.mktemp("handbook") / "stock")
    shutil.rmtree(handbook / "lessons")
    shutil.copytree(STOCK, handbook, dirs_exist_ok=True)
    named_by_the_path = handbook / "en" / "pages" / "reference" / "age-and-group.md"
    page = named_by_the_path.with_name("shelf.md").read_text("utf-8").replace("Shelf of", "Ages of")
    named_by_the_path.write_text(page, "utf-8")
    monkeypatch.setattr("generator.build.straight_line.HANDBOOK", handbook)


@only_in_a_whole_run
def test_without_faults_it_counts_what_there_is() -> None:
    assert run_command("check") == (0, "No faults: 4 lessons in 3 steps, 17 pages.\n", "")


def test_it_says_what_a_school_changes(tmp_path: Path) -> None:
    school = lay_out(HERE / "valid" / "replaces-ours", tmp_path / "case").school
    code, out, err = run_command("check", "--school", school)
    assert (code, err) == (0, "")
    assert out.splitlines()[0] == "school/lessons/static/8448-among-4.toml: replaces ours"
    assert out.splitlines()[-1] == "No faults: 4 lessons in 3 steps, 17 pages."


@pytest.mark.parametrize("name", ["lesson-every-fault", "school-two-files", "page-values"])
def test_every_fault_is_printed_and_nothing_else(name: str, tmp_path: Path) -> None:
    case = HERE / "invalid" / name
    school = lay_out(case, tmp_path / "case").school
    assert run_command("check", "--school", school) == (1, "", (case / "expected.txt").read_text("utf-8"))


@needs_posix
@pytest.mark.parametrize("name", ["nowhere", "file", "loop", "n" * 300])
def test_a_folder_that_cannot_be_opened_is_a_fault(name: str, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x", "utf-8")
    (tmp_path / "loop").symlink_to("loop")
    code, out, err = run_command("check", "--school", tmp_path / name)
    assert (code, out) == (1, "")
    assert err.startswith(str(tmp_path / name)[:299])
    assert err.endswith(": is not a folder that can be opened; check its place, name and rights\n")


def test_wrong_usage() -> None:
    code, out, err = run_command("check", "--skool", "x")
    assert (code, out) == (2, "")
    assert "--school" in err


@only_in_a_whole_run
@needs_posix
def test_nothing_is_written_also_where_the_folder_is_reached_by_a_link(tmp_path: Path) -> None:
    school = lay_out(HERE / "valid" / "replaces-ours", tmp_path / "case").school
    assert school is not None
    before = contents(tmp_path)
    linked = tmp_path / "linked"
    linked.symlink_to(school)
    code, out, _ = run_command("check", "--school", linked)
    assert code == 0
    assert ("linked/school.toml: its own settings" in out) == (school / "school.toml").exists()
    linked.unlink()
    assert contents(tmp_path) == before
