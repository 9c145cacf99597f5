"""`build`: what is said while it works and afterwards, in a terminal and elsewhere; not what it builds."""

import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from generator import PROJECT
from generator.build.straight_line import WORKSHOP, Request, Summary, build
from generator.errors import Fault, SourceError
from tests.commands.running import run_command
from tests.conftest import quiet
from tests.sampling import only_in_a_whole_run
from tests.small_handbook import check_out_small, write_small_handbook
from tests.stock import sources

INDEX = Path("somewhere") / "site" / "index.html"
STEPS = ("Reading lessons", "Rendering 12 pages")
DONE = f"95 lessons, 12 pages, 40 figures in 1.2 s\nOpen {INDEX}\n"


def finish() -> Summary:
    return Summary(replace(sources(), changes=("school/school.toml: its own settings",)), 12, 40, 1.23, INDEX)


def refuse() -> Summary:
    raise SourceError([Fault("two.toml", 3, "order", "is 0", "write 1"), Fault("one.md", 0, "", "is empty", "fill it")])


def interrupt() -> Summary:
    raise KeyboardInterrupt


@pytest.fixture
def ends(monkeypatch: pytest.MonkeyPatch) -> Callable[[Callable[[], Summary]], list[Request]]:
    """Let builds end in a certain way; gives what was asked for."""
    asked: list[Request] = []

    def let(end: Callable[[], Summary]) -> list[Request]:
        def build(request: Request, say: Callable[[str], None]) -> Summary:
            asked.append(request)
            for words in STEPS:
                say(words)
            return end()

        monkeypatch.setattr("generator.commands.build.build", build)
        return asked

    return let


def test_line_by_line(ends: Callable[[Callable[[], Summary]], list[Request]]) -> None:
    asked = ends(finish)
    said = f"{STEPS[0]}\n{STEPS[1]}\nschool/school.toml: its own settings\n{DONE}"
    assert run_command("build", "--school", "my-school", "--out", "there") == (0, said, "")
    assert (asked[0].school_folder, asked[0].out) == (Path("my-school"), Path("there"))


def test_quiet_says_only_which_file_to_open(ends: Callable[[Callable[[], Summary]], list[Request]]) -> None:
    ends(finish)
    assert run_command("build", "--quiet") == (0, f"Open {INDEX}\n", "")


def test_every_fault_is_a_line(ends: Callable[[Callable[[], Summary]], list[Request]]) -> None:
    ends(refuse)
    code, out, err = run_command("build")
    assert code == 1
    assert err == "one.md: is empty; fill it\ntwo.toml:3: order: is 0; write 1\n"
    assert "Open" not in out


def test_an_interrupt_is_one_line(ends: Callable[[Callable[[], Summary]], list[Request]]) -> None:
    ends(interrupt)
    code, _, err = run_command("build")
    assert code == 1
    assert err.strip() == "Stopped. Nothing is left half written."


@only_in_a_whole_run
@pytest.mark.skipif(os.name != "posix", reason="a pipe is closed otherwise there")
def test_a_reader_who_goes_away_is_no_fault(tmp_path: Path) -> None:
    """As in `build | head -1`: the reader takes one line and closes the pipe."""
    checkout = check_out_small(tmp_path / "checkout")
    order = [sys.executable, "-u", "-m", "generator", "build", "--out", str(tmp_path / "site")]
    with subprocess.Popen(order, cwd=checkout, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as building:
        assert building.stdout
        assert building.stderr
        assert building.stdout.readline() == "Reading lessons, pages and settings\n"
        building.stdout.close()
        assert building.stderr.read() == ""
    assert building.returncode == 1
    assert (tmp_path / "site" / "index.html").exists()


def test_a_site_may_be_built_by_whoever_stands_in_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The swap takes the folder away from beneath them."""
    handbook, site = write_small_handbook(tmp_path / "handbook"), tmp_path / "site"
    site.mkdir()
    monkeypatch.chdir(site)
    summary = build(Request(out=Path(), handbook=handbook, workshop=tmp_path / "workshop"), quiet)
    assert summary.index == site / "index.html"
    assert summary.index.exists()


@pytest.mark.parametrize("inside", ["school/site", "school", "handbook/lessons/site", "generator/out"])
def test_a_site_among_what_it_is_made_of_is_refused(inside: str, tmp_path: Path) -> None:
    """It would be read, and refused, by the next build."""
    school = tmp_path / "school"
    school.mkdir()
    out = (tmp_path if inside.startswith("school") else PROJECT) / inside
    code, _, err = run_command("build", "--school", school, "--out", out)
    assert (code, err.splitlines()) == (1, [line for line in err.splitlines() if line.startswith(f"{out}: lies in ")])
    assert err.count("\n") == 1
    assert not out.exists() or not [*out.iterdir()]


def test_a_site_in_the_workshop_is_refused() -> None:
    """The next build would stage its pages there, and clear away what is none of them."""
    out = WORKSHOP / "workshop" / "stock" / "docs"
    code, _, err = run_command("build", "--out", out)
    problem = f"{out}: lies in {WORKSHOP / 'workshop'}, where builds keep their work; "
    assert (code, err) == (1, f"{problem}choose one outside it, such as {WORKSHOP / 'site'}\n")


def test_a_whole_disk_as_a_school_is_one_line(tmp_path: Path) -> None:
    code, _, err = run_command("build", "--school", tmp_path.anchor, "--out", tmp_path / "site")
    problem = f"{tmp_path / 'site'}: lies in {tmp_path.anchor}, from which the handbook is made; "
    assert (code, err) == (1, f"{problem}choose one outside it\n")


def test_a_site_in_a_folder_without_a_name_is_refused() -> None:
    code, out, err = run_command("build", "--out", "")
    assert (code, out) == (2, "")
    assert "--out" in err
    assert "is empty; name a folder." in err


def test_a_name_that_the_terminal_cannot_show_is_told_in_code_points(tmp_path: Path) -> None:
    school = tmp_path / "\u0448\u043a\u043e\u043b\u0430"
    order = [sys.executable, "-m", "generator", "new", "--school", str(school)]
    environment = {**os.environ, "PYTHONIOENCODING": "cp1252"}
    done = subprocess.run(order, cwd=PROJECT, env=environment, capture_output=True, check=True)
    assert b"\\u0448\\u043a" in done.stdout
    assert (school / "school.toml").is_file()


def test_help_shows_an_example() -> None:
    assert "python -m generator build --school my-school" in run_command("build", "--help").out


def test_a_python_without_the_packages_is_told_which_one_has_them() -> None:
    order = [sys.executable, "-S", "-m", "generator", "build"]  # -S: nothing that was installed is found
    ran = subprocess.run(order, cwd=PROJECT, capture_output=True, encoding="utf-8", check=False)
    assert ran.returncode == 1
    assert len(ran.stderr.splitlines()) == 1
    assert ".venv" in ran.stderr
