"""No memory, no room, ended from outside: one clear line, nothing half-written, nothing left behind."""

import errno
import os
import signal
import subprocess
import sys
from pathlib import Path
from unittest.mock import patch

import pytest

from generator import PROJECT
from tests.commands.running import run_command
from tests.sampling import sample
from tests.small_handbook import check_out_small
from tests.waiting import PATIENCE, until

needs_posix = pytest.mark.skipif(os.name != "posix", reason="limits and signals of POSIX systems")

IN_SMALL_FILES = """
import resource, sys
resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))
from generator.__main__ import run
sys.exit(run())
"""


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (MemoryError(), "There is too little memory"),
        (OSError(errno.EMFILE, "Too many open files"), "Too many open files"),
        (RuntimeError("can't start new thread"), "Resource temporarily unavailable"),
    ],
)
def test_what_the_machine_lacks_is_told_in_one_line(error: Exception, said: str) -> None:
    with patch("generator.__main__.main", side_effect=error):
        assert run_command("share") == (1, "", f"{said}; close other programs, then do it again\n")


@needs_posix
def test_a_new_file_for_which_there_is_no_room_is_not_begun(tmp_path: Path) -> None:
    order = [sys.executable, "-c", IN_SMALL_FILES, "new", "--school", str(tmp_path / "ours")]
    done = subprocess.run(order, cwd=PROJECT, capture_output=True, encoding="utf-8", check=False)
    assert (done.returncode, done.stdout) == (1, "")
    assert "school.toml: cannot be written (File too large)" in done.stderr
    assert not list(tmp_path.rglob("*.toml"))
    assert run_command("new", "--school", tmp_path / "ours").code == 0


@pytest.mark.skipif(sys.platform != "linux", reason="a device of Linux")
def test_a_new_file_is_no_fault_because_nobody_can_be_told_of_it(tmp_path: Path) -> None:
    order = [sys.executable, "-m", "generator", "new", "--school", str(tmp_path / "ours")]
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(order, cwd=PROJECT, stdout=full, stderr=subprocess.PIPE, check=False)
    assert (done.returncode, done.stderr) == (0, b"")
    assert (tmp_path / "ours" / "school.toml").exists()


@needs_posix
@pytest.mark.parametrize("ended_by", sample(["SIGTERM", "SIGHUP"], 1))
def test_who_ends_a_check_finds_nothing_left(ended_by: str, tmp_path: Path) -> None:
    """As where the window is closed, or the machine is shut down."""
    order = [sys.executable, "-m", "generator", "check"]
    checkout, work = check_out_small(tmp_path / "checkout"), tmp_path / "work"
    work.mkdir()
    environment = {**os.environ, "TMPDIR": str(work)}
    with subprocess.Popen(order, cwd=checkout, env=environment, stderr=subprocess.PIPE, text=True) as checking:
        until(lambda: any(work.glob("*/workshop/*/docs")))
        checking.send_signal(getattr(signal, ended_by))
        _, said = checking.communicate(timeout=PATIENCE)
    assert checking.returncode == 1
    assert said.strip().startswith("Stopped.")
    assert list(work.iterdir()) == []
