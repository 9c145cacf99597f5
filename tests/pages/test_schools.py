"""What schools write, as data: `check` and `build` say the same of it, with the file and line that a person wrote."""

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest

from generator.build.straight_line import Request, build, check
from generator.errors import SourceError
from generator.pages.handbook import Handbook, write_handbook
from generator.pages.kinds.today import TODAY
from generator.pages.writing.writer import Writer
from generator.source.library import load
from tests.conftest import quiet
from tests.in_turn import run_in_turn
from tests.sampling import only_in_a_whole_run, sample
from tests.small_handbook import write_small_handbook

CASES = tomllib.loads(Path(__file__).with_name("schools.toml").read_text("utf-8"))
FRONT = "---\ntitle: {title}\ndescription: What our room does its own way.\norder: 1\nreviewed: 2026-11-16\n---\n"


def write_school(folder: Path, cases: list[dict[str, Any]]) -> Path:
    """A school's folder with the pages and notes of these cases."""
    for case in cases:
        text = case["body"] + case.get("then", "") * case.get("times", 0) + "\n"
        write(folder / file_of(case), text if "note" in case else FRONT.format(title=f"Of {case['name']}") + text)
    return folder


def write(file: Path, text: str) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, "utf-8")


def file_of(case: dict[str, Any]) -> str:
    return f"notes/{case['note']}" if "note" in case else f"pages/our-room/{case['name']}.md"


def said_by_build(handbook: Path, school: Path, folder: Path) -> str:
    """Every fault that `build` names; nothing if it builds."""
    try:
        build(Request(school, folder / "site", handbook=handbook, workshop=folder / "workshop"), quiet)
    except SourceError as refused:
        return str(refused)
    return ""


def said_by_check(handbook: Path, school: Path, patch: pytest.MonkeyPatch) -> str:
    """Every fault that `check` names; nothing if it passes."""
    patch.setattr("generator.build.straight_line.HANDBOOK", handbook)
    try:
        check(school)
    except SourceError as refused:
        return str(refused)
    return ""


def test_there_are_cases_enough() -> None:
    assert CASES.keys() == {"taken", "dead", "refused"}
    assert sum(map(len, CASES.values())) > 80


@pytest.mark.parametrize("kind", sample(["taken", "dead", "refused"], 1))
def test_check_and_build_say_the_same_with_file_and_line(
    kind: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    handbook = write_small_handbook(tmp_path / "stock")
    school = write_school(tmp_path / "school", CASES[kind])
    said = said_by_build(handbook, school, tmp_path)
    assert said_by_check(handbook, school, monkeypatch) == said
    by_file: dict[str, list[str]] = {f"school/{file_of(case)}": [] for case in CASES[kind]}
    for line in said.splitlines():
        file = next(file for file in by_file if line.startswith(f"{file}:"))
        by_file[file].append(line.removeprefix(f"{file}:").strip())
    assert by_file == {f"school/{file_of(case)}": case.get("says", []) for case in CASES[kind]}


def copies(handbook: Handbook, sources_folder: Path, school: Path) -> Path:
    """A school's folder with a copy of every page but the one that scripts fill: of its file, else of its Markdown."""
    for page in handbook.pages:
        if page.path == TODAY:
            continue
        source = sources_folder / "en" / "pages" / page.path
        text = source.read_text("utf-8") if source.exists() else FRONT.format(title=json.dumps(page.title)) + page.body
        write(school / "pages" / page.path, text)
    return school


@only_in_a_whole_run
def test_a_copy_of_every_page_of_ours_is_taken(tmp_path: Path) -> None:
    small = write_small_handbook(tmp_path / "stock")
    sources = load(small)
    ours = write_handbook(sources, Writer(sources.school), run_in_turn)
    school = copies(ours, small, tmp_path / "school")
    told = load(small, school).changes
    assert [line for line in told if ": replaces ours" not in line] == []
    a_welcome = "school/pages/index.md: replaces ours and all that it shows; to add words to ours, write notes/index.md"
    assert a_welcome in told
    assert said_by_build(small, school, tmp_path) == ""
