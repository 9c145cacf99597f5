"""`serve`, as a person uses it: start it, break a file, mend it, end it."""

import os
import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from urllib.error import URLError
from urllib.request import urlopen

import pytest

from tests.commands.running import run_command
from tests.sampling import only_in_a_whole_run
from tests.small_handbook import check_out_small
from tests.waiting import until

PAGE = """---
title: "Our mornings"
description: "When our room shares."
order: 1
reviewed: 2026-11-16
---
# Our mornings

{}
"""


def _end_when_interrupted() -> None:
    """Also where the tests run in the background of a shell, which has its commands ignore interrupts."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


class Serving:
    """A running `serve`, in a small checkout of its own or in one there is, for a school with one step and one page."""

    def __init__(self, folder: Path, checkout: Path | None = None) -> None:
        self.checkout = checkout or check_out_small(folder / "checkout")
        self.page = folder / "school" / "pages" / "our-room" / "mornings.md"
        self.page.parent.mkdir(parents=True)
        (folder / "school" / "school.toml").write_text('steps = ["as-it-lies"]', "utf-8")
        self.write("We share on Tuesdays.")
        self._out, self._err = folder / "out", folder / "err"
        with self._out.open("w") as out, self._err.open("w") as err:
            serve = [sys.executable, "-u", "-m", "generator", "serve", "--port", "0"]
            self.process = subprocess.Popen(
                [*serve, "--school", str(folder / "school")],
                cwd=self.checkout,
                stdout=out,
                stderr=err,
                preexec_fn=_end_when_interrupted,
            )
        until(lambda: "shows the handbook" in self.out)
        self.address = self.out.split()[0]

    @property
    def out(self) -> str:
        return self._out.read_text("utf-8")

    @property
    def err(self) -> str:
        return self._err.read_text("utf-8")

    def write(self, words: str) -> None:
        self.page.write_text(PAGE.format(words), "utf-8")

    def shown(self, path: str = "our-room/mornings.html") -> str:
        try:
            with urlopen(self.address + path, timeout=10) as answer:
                return str(answer.read().decode())
        except URLError as error:
            return str(error)


@pytest.fixture
def serving(tmp_path: Path) -> Iterator[Serving]:
    serving = Serving(tmp_path)
    try:
        yield serving
    finally:
        serving.process.kill()
        serving.process.wait()


@pytest.mark.skipif(os.name == "nt", reason="an interrupt cannot be sent to one process there")
def test_it_shows_changes_and_faults_and_ends_when_it_is_told_to(serving: Serving) -> None:
    assert re.fullmatch(r"http://127\.0\.0\.1:\d+/", serving.address)
    until(lambda: "We share on Tuesdays." in serving.shown())
    serving.write("We share on {{ tuesdays }}.")
    fault = "school/pages/our-room/mornings.md:9: uses a name that is not known"
    until(lambda: fault in serving.shown())
    assert fault in serving.shown("index.html")
    assert fault in serving.err
    serving.write("We share on Thursdays.")
    until(lambda: "We share on Thursdays." in serving.shown())
    assert serving.out.count("Built in") == 2
    serving.process.send_signal(signal.SIGINT)
    assert serving.process.wait(30) == 0
    assert serving.out.splitlines()[-1] == "Ended."
    assert "Traceback" not in serving.err


@only_in_a_whole_run
def test_handbooks_that_are_shown_at_the_same_time_do_not_mix(serving: Serving, tmp_path: Path) -> None:
    until(lambda: "We share on Tuesdays." in serving.shown())
    other = Serving(tmp_path / "other", serving.checkout)
    try:
        other.write("We share on Fridays.")
        until(lambda: "We share on Fridays." in other.shown())
    finally:
        other.process.kill()
        other.process.wait()
    assert "We share on Tuesdays." in serving.shown()


@pytest.mark.skipif(os.name == "nt", reason="an interrupt cannot be sent to one process there")
@only_in_a_whole_run
def test_it_ends_in_the_middle_of_a_build(serving: Serving) -> None:
    serving.process.send_signal(signal.SIGINT)
    assert serving.process.wait(30) == 0
    assert (serving.out.splitlines()[-1], serving.err) == ("Ended.", "")


def test_help_shows_an_example_and_that_a_port_is_a_number() -> None:
    shown = run_command("serve", "--help").out
    assert "python -m generator serve --school my-school" in shown
    assert "--port NUMBER" in shown


@pytest.mark.parametrize("port", ["x", "70000", "-1"])
def test_a_port_that_is_none_is_refused_in_one_line(port: str) -> None:
    result = run_command("serve", "--port", port)
    assert (result.code, result.out) == (2, "")
    assert f"{port} is not a whole number from 0 to 65,535; write digits only." in result.err
