"""Every command that is shown is run as it is shown, in a copy of the project, with the files that are shown."""

import json
import re
import shlex
import shutil
import subprocess
import sys
from collections.abc import Iterator
from itertools import filterfalse
from pathlib import Path
from typing import NamedTuple

import pytest

from generator import PROJECT
from tests.sampling import only_in_a_whole_run

OURS = "python -m generator "
# Commands that install the project or check it: the project's own check runs them.
OTHERS = (
    "python3 -m venv .venv && .venv/bin/python -m pip install -e . && .venv/bin/python -m generator build",
    'python3 -m venv .venv && .venv/bin/python -m pip install -e ".[test]" && .venv/bin/python -m pytest',
    ".ci/run",
    ".ci/check",
    "ln -s ../../.ci/check .git/hooks/pre-push",
    "python -m pytest tests/engine -n 2",
    "python -m ruff check .",
    "python -m mypy",
    "python -m tests.benchmarks",
    "python -m tests.longest_sentences",
)
STEPS = ["as-it-lies", "one-exchange", "left-over", "ten-ribbons"]  # those that commands and files name
FOR_THE_SCHOOL = PROJECT / "handbook" / "en" / "pages" / "for-the-school"
DOCUMENTS = (PROJECT / "README.md", PROJECT / "DEVELOPERS.md", *sorted(FOR_THE_SCHOOL.glob("*.md")))
BLOCK = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


class Block(NamedTuple):
    """What is shown between two lines of three marks: its language, and the file that the words before it name."""

    language: str
    text: str
    file: str


def blocks(document: Path) -> Iterator[Block]:
    text = document.read_text("utf-8")
    end = 0
    for found in BLOCK.finditer(text):
        named = re.findall(r"`(my-school/[\w./-]+\.\w+)`", text[end : found.start()].strip().rpartition("\n\n")[2])
        yield Block(found[1], found[2], named[-1] if named else "")
        end = found.end()


def commands(block: Block) -> list[str]:
    return [line for line in block.text.splitlines() if line.strip()] if block.language == "sh" else []


def run(command: str, copy: Path) -> str:
    words = shlex.split(command)
    if "serve" in words:  # does not end by itself; its own test runs it
        words.append("--help")
    ended = subprocess.run(
        [sys.executable, *words[1:]], cwd=copy, capture_output=True, encoding="utf-8", timeout=300, check=False
    )
    assert (ended.returncode, ended.stderr) == (0, ""), command
    return ended.stdout


def waits(command: str) -> bool:
    """Checks and builds read everything: only the last of them is run, after all other commands."""
    return re.search(r" (check|build)\b", command) is not None


def write(block: Block, copy: Path) -> None:
    """Write a file as it is shown. A single line is one to complete in a file that is there."""
    file = copy / block.file
    line = block.text.strip()
    if "\n" in line or "=" not in line:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(block.text, "utf-8")
        return
    key = line.partition("=")[0]
    text, completed = re.subn(rf"(?m)^{key}=.*$", lambda _: line, file.read_text("utf-8"))
    assert completed == 1, block
    file.write_text(text, "utf-8")


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    folder = tmp_path / "a copy"
    for name in ("generator", "handbook"):
        shutil.copytree(PROJECT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(PROJECT / "mkdocs.yml", folder)
    leave_few(folder / "handbook")
    return folder


def leave_few(handbook: Path) -> None:
    """Leave two sizes of group and a few lessons, those that are named among them: commands build again and again."""
    settings = handbook / "school.toml"
    few = re.sub(r"(?m)^sizes = .*", "sizes = [2, 4]", settings.read_text("utf-8"))
    settings.write_text(f"steps = {json.dumps(STEPS)}\n{few}", "utf-8")
    shown = " ".join(document.read_text("utf-8") for document in DOCUMENTS)
    for step in STEPS:
        for lesson in sorted((handbook / "lessons" / step).glob("[0-9]*.toml"))[3:]:
            if lesson.stem not in shown:
                lesson.unlink()


@pytest.mark.parametrize("document", DOCUMENTS, ids=lambda path: path.name)
def test_only_commands_that_are_tested_are_shown(document: Path) -> None:
    shown = [command for block in blocks(document) for command in commands(block)]
    assert [command for command in shown if not command.startswith(OURS) and command not in OTHERS] == []


@only_in_a_whole_run
def test_what_the_readme_shows(copy: Path) -> None:
    shown = [command for block in blocks(PROJECT / "README.md") for command in commands(block)]
    ours = [command for command in shown if command.startswith(OURS)]
    assert len(ours) >= 9
    for command in [*filterfalse(waits, ours), *[*filter(waits, ours)][-1:]]:
        assert run(command, copy)
        for lesson in (copy / "handbook" / "lessons").glob("*/*.toml"):
            text = lesson.read_text("utf-8")
            if '\nreason = ""\n' in text:  # "everything but its reason"
                lesson.write_text(
                    text.replace('\nreason = ""\n', '\nreason = "What is new in this lesson."\n'), "utf-8"
                )


@only_in_a_whole_run
def test_a_handbook_of_ones_own_in_ten_minutes_and_all_that_follows(copy: Path) -> None:
    others = [path for path in sorted(FOR_THE_SCHOOL.glob("*.md")) if path.name != "your-own-handbook.md"]
    shown = [block for path in (FOR_THE_SCHOOL / "your-own-handbook.md", *others) for block in blocks(path)]
    (copy / "my-school" / "theme").mkdir(parents=True)
    shutil.copy(PROJECT / "tests" / "herisson-lane" / "theme" / "logo.png", copy / "my-school" / "theme")
    every = [command for block in shown for command in commands(block)]
    assert len(every) >= 10
    said: list[str] = []
    for block in shown:
        if block.file and block.language != "sh":
            write(block, copy)
        said += [run(command, copy) for command in commands(block) if not waits(command)]
    said += [run(command, copy) for command in [*filter(waits, every)][-1:]]
    site = copy / "build" / "site"
    assert "Quillbrook Children" in (site / "index.html").read_text("utf-8")
    assert (site / "lessons" / "one-exchange" / "5648-among-4.html").is_file()
    assert (site / "our-room" / "our-mornings.html").is_file()
    assert "Our large mat hangs behind the door" in (site / "new-here" / "the-room.html").read_text("utf-8")
    assert f"Open {site / 'index.html'}" in said[-1]
