"""`new`: what it writes is taken once it is completed, and nothing is ever overwritten."""

import os
import re
import shutil
import tomllib
from datetime import date
from pathlib import Path
from types import SimpleNamespace

import pytest

from generator import HANDBOOK
from generator.build.publishing import MARKER
from generator.errors import SourceError
from generator.source.library import load
from generator.source.models import LessonFile
from generator.source.school import School
from tests.commands.running import run_command
from tests.small_handbook import contents
from tests.source.cases import STOCK, needs_posix

QUOTE = '"' if os.name == "nt" else "'"
REASON = "Why this number comes next in the row."


@pytest.fixture(autouse=True)
def handbook(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the small stock handbook, for `new` to write into."""
    copy = tmp_path / "stock"
    shutil.copytree(STOCK, copy)
    monkeypatch.setattr("generator.commands.new.HANDBOOK", copy)
    return copy


@pytest.fixture
def school(tmp_path: Path) -> Path:
    folder = tmp_path / "école du pré"
    folder.mkdir()
    return folder


def _replace(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")


def test_the_examples_of_its_help_are_taken(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("generator.commands.new.HANDBOOK", shutil.copytree(HANDBOOK, tmp_path / "ours"))
    monkeypatch.chdir(tmp_path)
    examples = re.findall(r"^    python -m generator (new .*)", run_command("new", "--help").out, re.MULTILINE)
    assert len(examples) == 3
    assert [run_command(*example.split()).err for example in examples] == ["", "", ""]


def test_a_lesson_in_a_school_folder_lacks_only_its_reason(handbook: Path, school: Path) -> None:
    path = school / "lessons" / "exchange-tens" / "6945-among-3.toml"
    code, out, err = run_command("new", 6945, 3, "--school", school)
    assert (code, err) == (0, "")
    assert out == (
        f"Wrote {path} for the step exchange-tens. "
        f"Complete its reason, then: python -m generator check --school {QUOTE}{school}{QUOTE}\n"
    )
    with pytest.raises(SourceError) as refused:
        load(handbook, school)
    assert [fault.key for fault in refused.value.faults] == ["reason"]
    _replace(path, 'reason = ""', f'reason = "{REASON}"')
    sources = load(handbook, school)
    (lesson,) = (lesson for lesson in sources.lessons if lesson.from_school)
    assert (lesson.dividend, lesson.divisor, lesson.ribbons, lesson.reason) == (6945, 3, False, REASON)
    assert sources.steps[1].lessons[-1] == lesson


def test_a_lesson_in_the_handbook_itself(handbook: Path) -> None:
    code, _, err = run_command("new", 3636, 12, "--ribbons", "--step", "ribbons")
    assert (code, err) == (0, "")
    path = handbook / "lessons" / "ribbons" / "3636-for-12.toml"
    _replace(path, 'reason = ""', f'reason = "{REASON}"')
    assert load(handbook).lessons[-1].divisor == 12


@pytest.mark.parametrize(
    ("dividend", "divisor", "comments"),
    [
        (
            5230,
            4,
            "# 5230 among 4: 1307 for each, and 2 left over.\n# Exchange out of thousands and tens, a zero",
        ),
        (8840, 4, "# 8840 among 4: 2210 for each.\n# Shares out as it lies, a zero at the end of the share."),
        (7, 9, "# 7 among 9: 0 for each, and 7 left over.\n# Too few"),
    ],
)
def test_what_comes_of_it_stands_in_comments(
    dividend: int, divisor: int, comments: str, handbook: Path, school: Path
) -> None:
    step = handbook / "lessons" / "exchange-tens" / "step.toml"
    _replace(step, 'exchange_from = ["tens"]', "")
    assert run_command("new", dividend, divisor, "--school", school, "--step", "exchange-tens").code == 0
    (path,) = school.rglob("*.toml")
    assert path.read_text("utf-8").startswith(comments)


def test_every_key_of_a_lesson_is_there_to_edit(school: Path) -> None:
    run_command("new", 6945, 3, "--school", school)
    (path,) = school.rglob("*.toml")
    keys = re.findall(r"^(?:# )?([a-z]+) = ", path.read_text("utf-8"), re.MULTILINE)
    assert keys == list(LessonFile.model_fields)


def test_a_first_school_folder_explains_every_setting(handbook: Path, tmp_path: Path) -> None:
    folder = tmp_path / "new $school"
    code, out, err = run_command("new", "--school", folder)
    assert (code, err) == (0, "")
    build = f"python -m generator build --school {QUOTE}{folder}{QUOTE}"
    assert out == f"Wrote {folder / 'school.toml'}. Edit it, then: {build}\n"
    stock = load(handbook)
    assert load(handbook, folder).school == stock.school
    text = (folder / "school.toml").read_text("utf-8")
    opened = tomllib.loads(re.sub(r"^# (\w+ = )", r"\1", text, flags=re.MULTILINE))
    assert set(opened) == set(School.model_fields)
    for key, value in opened.items():
        if isinstance(value, dict):
            assert set(value) == set(type(getattr(stock.school, key)).model_fields)


def test_a_first_school_folder_with_every_setting_taken_is_the_stock_handbook(handbook: Path, tmp_path: Path) -> None:
    run_command("new", "--school", tmp_path / "mine")
    path = tmp_path / "mine" / "school.toml"
    path.write_text(re.sub(r"^# (\w+ = )", r"\1", path.read_text("utf-8"), flags=re.MULTILINE), "utf-8")
    stock, mine = load(handbook), load(handbook, tmp_path / "mine")
    own = {"steps": tuple(step.slug for step in stock.steps), "site_url": "https://intranet.example/sharing/"}
    assert mine.school == stock.school.model_copy(update=own)
    assert mine.steps == stock.steps


@pytest.mark.parametrize("arguments", [("6945", "3"), ()])
def test_nothing_is_overwritten(arguments: tuple[str, ...], school: Path) -> None:
    assert run_command("new", *arguments, "--school", school).code == 0
    (written,) = contents(school)
    (school / written).with_name(f".{Path(written).name}.new").touch()  # a file that it did not make
    before = contents(school)
    code, out, err = run_command("new", *arguments, "--school", school)
    assert (code, out) == (1, "")
    assert err.endswith(".toml: is already there; edit it, or choose another name\n")
    assert contents(school) == before


def test_who_interrupts_it_as_it_opens_the_file_leaves_none(school: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    opened = Path.open

    def interrupted(path: Path, mode: str = "r", *others: object, **named: object) -> object:
        file = opened(path, mode, *others, **named)  # type: ignore[call-overload]
        if mode in ("r", "rb"):
            return file
        file.close()
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(Path, "open", interrupted)
        assert run_command("new", "--school", school).code == 1
    assert contents(school) == {}
    assert run_command("new", "--school", school).code == 0
    assert list(contents(school)) == ["school.toml"]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((), "say what to write: DIVIDEND and DIVISOR, or --school FOLDER, or both"),
        ((6945,), "a lesson needs two numbers"),
        (("--ribbons", "--school", "x"), "a lesson needs two numbers"),
        ((0, 3), "0 is not a whole number from 1 to 9,999"),
        ((6945, 1000), "1000 is not a whole number from 1 to 999"),
        ((3900, 13), "divisor is 13, more children than fit on the mat: write a number from 2 to 12, or add --ribbons"),
        ((3900, 1), "divisor is 1, and one child alone cannot share: write a whole number from 2 to 12"),
        ((3900, 99, "--ribbons"), "takes 18 children"),
        ((3900, 3, "--ribbons"), "take out --ribbons"),
        ((6945, 3, "--step", "exchange-ten"), "there is no step exchange-ten; did you mean exchange-tens?"),
        (
            (6945, 3, "--step", "static"),
            'sends to the bank: tens, but its step expects exchanges = "none"',
        ),
        ((5230, 4), "no step takes 5230 among 4; choose other numbers, or add a step that does"),
        ((8448, 4), "8448 among 4 is already shared in stock/lessons/static/8448-among-4.toml; edit that file"),
    ],
)
def test_wrong_usage_says_what_would_be_right(arguments: tuple[object, ...], words: str, handbook: Path) -> None:
    before = contents(handbook)
    code, out, err = run_command("new", *arguments)
    assert (code, out) == (2, "")
    assert words in err
    assert contents(handbook) == before


def test_a_clock_that_is_wrong_is_to_be_set(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("generator.commands.new.date", SimpleNamespace(today=lambda: date(1990, 1, 1)))
    code, _, err = run_command("new", 6945, 3)
    assert code == 2
    assert err.endswith("\nError: this computer's clock says 1990-01-01; set it.\n")


def test_where_several_steps_take_a_lesson_one_must_be_named(handbook: Path) -> None:
    _replace(handbook / "lessons" / "static" / "step.toml", 'exchanges = "none"', "")
    code, _, err = run_command("new", 6945, 3)
    assert code == 2
    assert "the steps static and exchange-tens take 6945 among 3; name one with --step" in err


def test_a_step_that_the_school_leaves_out_gets_no_lesson(handbook: Path, school: Path) -> None:
    (school / "school.toml").write_text('steps = ["static"]', "utf-8")
    for named in ((), ("--step", "exchange-tens")):
        code, _, err = run_command("new", 6945, 3, "--school", school, *named)
        assert code == 2
        assert "lies in the step exchange-tens, which steps in school.toml leaves out; add exchange-tens to" in err
    _replace(handbook / "lessons" / "static" / "step.toml", 'exchanges = "none"', "")
    assert "for the step static." in run_command("new", 6945, 3, "--school", school).out


def test_what_a_step_of_the_school_expects_can_be_changed(handbook: Path, school: Path) -> None:
    (school / "lessons" / "ours").mkdir(parents=True)
    shutil.copy(handbook / "lessons" / "static" / "step.toml", school / "lessons" / "ours")
    code, _, err = run_command("new", 6945, 3, "--school", school, "--step", "ours")
    assert code == 2
    assert err.endswith("or another step, or change what this step expects in its step.toml.\n")


def test_a_step_of_the_school_that_has_a_fault_is_told_with_it(handbook: Path, school: Path) -> None:
    (school / "lessons" / "ours").mkdir(parents=True)
    shutil.copy(handbook / "lessons" / "static" / "step.toml", school / "lessons" / "ours")
    _replace(school / "lessons" / "ours" / "step.toml", 'remainder = "none"', 'remainder = "maybe"')
    code, _, err = run_command("new", 6963, 3, "--school", school, "--step", "ours")
    assert code == 2
    assert "the step ours has a fault: " in err
    assert err.endswith('lessons/ours/step.toml:11: expects.remainder: is "maybe"; write "none", "some" or "any".\n')


def test_our_lesson_can_be_copied_to_change_it_and_a_schools_own_is_edited(school: Path) -> None:
    code, _, err = run_command("new", 8448, 4, "--school", school)
    assert code == 2
    assert f"to change it, copy it to {school / 'lessons' / 'static'}" in err
    run_command("new", 6945, 3, "--school", school)
    (own,) = school.rglob("*.toml")
    _replace(own, 'reason = ""', f'reason = "{REASON}"')
    code, _, err = run_command("new", 6945, 3, "--school", school)
    assert code == 2
    assert err.endswith("6945-among-3.toml; edit that file.\n")


def test_a_lesson_after_the_last_that_can_be_counted_has_the_same_place(handbook: Path, school: Path) -> None:
    _replace(handbook / "lessons" / "exchange-tens" / "4872-among-4.toml", "order = 1", "order = 995")
    run_command("new", 6945, 3, "--school", school)
    (own,) = school.rglob("*.toml")
    _replace(own, 'reason = ""', f'reason = "{REASON}"')
    assert [lesson.order for lesson in load(handbook, school).steps[1].lessons] == [995, 999]


def test_a_school_can_begin_while_a_lesson_of_ours_is_unfinished(handbook: Path, tmp_path: Path) -> None:
    run_command("new", 6945, 3)
    assert run_command("new", "--school", tmp_path / "ours").code == 0


@needs_posix
@pytest.mark.parametrize("link", ["lessons", "lessons/exchange-tens"])
def test_nothing_is_written_through_a_link_within_a_schools_folder(link: str, school: Path, tmp_path: Path) -> None:
    """It would lie elsewhere, and `check` refuses such a link."""
    (tmp_path / "elsewhere").mkdir()
    (school / link).parent.mkdir(exist_ok=True)
    (school / link).symlink_to(tmp_path / "elsewhere")
    code, out, err = run_command("new", 6945, 3, "--school", school)
    assert (code, out) == (1, "")
    assert err == f"{school / link}: is a link; put the folder itself there\n"
    assert contents(tmp_path / "elsewhere") == {}


@pytest.mark.parametrize("below", [".", "school", "school/deeper"])
def test_a_file_where_a_folder_should_be_is_named(below: str, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x", "utf-8")
    code, out, err = run_command("new", "--school", tmp_path / "file" / below)
    assert (code, out) == (1, "")
    assert err == f"{tmp_path / 'file'}: is not a folder; choose another one\n"


@pytest.mark.parametrize("below", [".", "school"])
@pytest.mark.parametrize("stands_in_it", [False, True])
def test_a_published_site_gets_no_school(
    below: str, stands_in_it: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The next build of that site would refuse it."""
    (tmp_path / MARKER).touch()
    if stands_in_it:
        (tmp_path / "deep").mkdir()
        monkeypatch.chdir(tmp_path / "deep")
    code, out, err = run_command("new", "--school", Path(below) if stands_in_it else tmp_path / below)
    assert (code, out) == (1, "")
    assert err == f"{tmp_path}: is a published site; choose another folder\n"


def test_a_folder_that_cannot_be_written(tmp_path: Path) -> None:
    code, out, err = run_command("new", "--school", tmp_path / ("s" * 300))
    assert (code, out) == (1, "")
    assert "cannot be written" in err
    assert err.endswith("; check the folder's name and rights, and the room on the disk\n")
