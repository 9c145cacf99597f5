"""Work that does not end, takes too much or breaks down leaves the one who asked for it unharmed."""

import os
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from multiprocessing import get_context
from pathlib import Path

import pytest

from generator import PROJECT
from generator.pages.authored.confined import MEMORY, confined
from tests.sampling import sample
from tests.waiting import is_gone, until


def twice(number: int) -> int:
    return 2 * number


def loop() -> None:
    while True:
        pass


def says_where() -> str:
    try:
        while True:
            time.sleep(0.01)
    except KeyboardInterrupt:
        return "here"


def cannot_be_interrupted() -> None:
    while True:
        try:
            while True:
                time.sleep(0.01)
        except KeyboardInterrupt:
            pass


def in_one_step() -> int:
    return len(str(7 ** (10**8)))


def breaks_down() -> None:
    raise ValueError("nobody hears this")


def dies() -> None:
    os._exit(3)


def large(size: int) -> int:
    return len(bytearray(size))


def note_who_and_wait(note: Path) -> None:
    note.with_suffix(".new").write_text(str(os.getpid()))
    note.with_suffix(".new").rename(note)
    time.sleep(600)


def test_it_gives_the_result() -> None:
    assert confined(twice, 21, seconds=10) == 42


@pytest.mark.parametrize("function", sample([loop, cannot_be_interrupted, in_one_step, breaks_down, dies], 2))
def test_it_is_stopped(function: Callable[[], object], capfd: pytest.CaptureFixture[str]) -> None:
    assert confined(function, seconds=0.1) is None
    assert capfd.readouterr() == ("", "")


def test_it_can_say_where_it_was() -> None:
    assert confined(says_where, seconds=0.1) == "here"


@pytest.mark.skipif(sys.platform != "linux", reason="other systems never fork")
def test_nothing_is_forked_beside_other_threads(monkeypatch: pytest.MonkeyPatch) -> None:
    """A copy of a process may wait for ever for what another thread was holding; Python 3.12 and later warn of it."""
    asked: list[str] = []

    def context(method: str) -> object:
        asked.append(method)
        return get_context(method)

    monkeypatch.setattr("generator.pages.other_processes.get_context", context)
    ended = threading.Event()
    other = threading.Thread(target=ended.wait)
    other.start()
    try:
        assert confined(twice, 21, seconds=10) == 42
    finally:
        ended.set()
        other.join()
    assert confined(twice, 21, seconds=10) == 42
    assert asked == ["spawn", "spawn" if threading.active_count() > 1 else "fork"]


@pytest.mark.skipif(sys.platform != "linux", reason="other systems do not end a process with another")
def test_it_ends_with_the_one_that_asked(tmp_path: Path) -> None:
    """Else it holds open, for ever, what others read from that one."""
    note = tmp_path / "note"
    asking = get_context("fork").Process(target=confined, args=(note_who_and_wait, note), kwargs={"seconds": 600})
    asking.start()
    until(note.exists)
    asking.kill()
    asking.join()
    until(lambda: is_gone(int(note.read_text())))


UNDER_A_LIMIT = """
import resource
from generator.pages.authored.confined import MEMORY, confined
from tests.pages.test_confined import twice
resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
print(confined(twice, 21, seconds=10))
"""


@pytest.mark.skipif(sys.platform != "linux", reason="other systems set no such limit")
def test_it_works_where_the_system_allows_less() -> None:
    order = [sys.executable, "-c", UNDER_A_LIMIT]
    assert subprocess.run(order, cwd=PROJECT, capture_output=True, check=True).stdout == b"42\n"


@pytest.mark.skipif(sys.platform != "linux", reason="other systems do not hold a process to its memory")
def test_it_gets_so_much_memory_and_no_more() -> None:
    assert confined(large, MEMORY // 2, seconds=10) == MEMORY // 2
    assert confined(large, MEMORY * 2, seconds=10) is None
