"""Every case folder: what is refused, in which words, and what is taken."""

import errno
import os
from pathlib import Path

import pytest

from generator import HANDBOOK
from generator.errors import SourceError
from generator.source.library import Sources, load
from tests.source.cases import EXPECTED, STOCK, case_folders, lay_out, needs_posix

INVALID = case_folders("invalid")
VALID = case_folders("valid")


def _cases(folders: list[Path]) -> list[object]:
    return [
        pytest.param(case, id=case.name, marks=needs_posix if (case / "files.toml").exists() else ())
        for case in folders
    ]


def test_the_cases_are_there() -> None:
    assert len(INVALID) >= 60
    assert len(VALID) >= 10


@pytest.mark.parametrize("case", _cases(INVALID))
def test_every_fault_is_named_in_these_words(case: Path, tmp_path: Path) -> None:
    """One line for each, that says where, what, and what would be right."""
    handbook, school = lay_out(case, tmp_path / "case")
    with pytest.raises(SourceError) as refused:
        load(handbook, school)
    said = str(refused.value).replace(f"{tmp_path / 'case'}{os.sep}", "")
    assert f"{said}\n" == (case / EXPECTED).read_text("utf-8")
    for fault in refused.value.faults:
        assert fault.file
        assert fault.problem
        assert fault.remedy
        assert str(fault).isprintable()
        assert len(str(fault)) < 400


def test_a_school_folder_called_as_ours_is_named_with_the_one_it_lies_in(tmp_path: Path) -> None:
    school = tmp_path / "Our rooms" / HANDBOOK.name
    school.mkdir(parents=True)
    (school / "school.toml").write_text("nmae = 'x'", "utf-8")
    with pytest.raises(SourceError) as refused:
        load(HANDBOOK, school)
    assert str(refused.value) == "Our rooms/handbook/school.toml:1: nmae: is not known here; did you mean name?"


@pytest.mark.parametrize("name", ["lessons", "pages"])
def test_a_folder_that_may_be_listed_and_not_entered_is_one_fault_of_all(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As after `chmod -R a-x` on a school's folder, which does not keep out whoever may do everything."""
    looked_at = Path.lstat

    def lstat(path: Path) -> os.stat_result:
        if path.parent == tmp_path / name / "inner":
            raise PermissionError(errno.EACCES, "Permission denied", str(path))
        return looked_at(path)

    (tmp_path / name / "inner").mkdir(parents=True)
    (tmp_path / name / "inner" / "file.md").touch()
    (tmp_path / name / "later one").mkdir()
    (tmp_path / "school.toml").write_text("order = 1", "utf-8")
    monkeypatch.setattr(Path, "lstat", lstat)
    with pytest.raises(SourceError) as refused:
        load(STOCK, tmp_path)
    listed, later, settings = refused.value.faults
    assert str(listed).endswith(f"/{name}/inner: cannot be opened (Permission denied); check its rights")
    assert later.file.endswith(f"/{name}/later one")
    assert settings.key == "order"


@pytest.mark.parametrize("case", _cases(VALID))
def test_what_is_right_is_taken(case: Path, tmp_path: Path) -> None:
    handbook, school = lay_out(case, tmp_path / case.name)
    assert _summary(load(handbook, school)) == (case / EXPECTED).read_text("utf-8")


def _summary(sources: Sources) -> str:
    """What a reader of the sources could tell apart, as text."""
    lines = [f"{key}: {value}" for key, value in sources.school.model_dump(exclude_defaults=True).items()]
    lines.append(f"theme: {sources.theme.colours}, a logo of {len(sources.theme.logo)} bytes")
    for step in sources.steps:
        lines.append(f"step {step.slug}: {step.title}")
        for lesson in step.lessons:
            lines.append(f"  {lesson.slug}: {lesson.dividend} among {lesson.divisor}: {lesson.reason}")
            extras = {"opening": lesson.opening, "note": lesson.note, "tags": lesson.tags}
            lines += [f"    {key}: {value}" for key, value in extras.items() if value]
    for page in sources.pages:
        lines.append(f"page {page.path}: {page.meta.title}: {page.body.strip()}")
        lines += [f"  note: {note.text.strip()}" for note in sources.notes if note.path == page.path]
    return "\n".join([*lines, *sources.changes]) + "\n"
