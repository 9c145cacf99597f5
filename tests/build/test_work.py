"""Work shared among processes and kept from build to build gives the same as doing it one by one."""

from __future__ import annotations

import os
import signal
import time
from dataclasses import dataclass
from pathlib import Path

import pytest

from generator.build.results import Cache, key_of
from generator.build.work import Work
from generator.errors import Fault, HandbookError, SourceError
from generator.pages.run_many import run_in_turn

FAULT = Fault("pages/odd.md", 7, "title", "is not even", "make it even")


@dataclass(frozen=True)
class Answer:
    words: str
    numbers: tuple[int, ...] = ()


def answer(given: str, thing: int) -> Answer:
    return Answer(f"{given} é {thing}", (thing, -thing))


def picture(given: str, thing: int) -> bytes:
    return f'<svg id="{given}-{thing}"/>\n'.encode()


def refuse(given: str, thing: int) -> str:
    raise SourceError([FAULT])


def end_at_once(given: int, thing: int) -> str:
    """In a helping process only: the one that was `given` goes on."""
    if os.getpid() != given:
        os.kill(os.getpid(), signal.SIGKILL)
    return "done"


def cache(folder: Path) -> Cache:
    return Cache(folder / "results", "this code")


@pytest.mark.parametrize("processes", [1, 2, 3])
@pytest.mark.parametrize("many", [0, 1, 5, 100])
def test_results_are_those_of_a_plain_loop_and_in_order(many: int, processes: int, tmp_path: Path) -> None:
    for _ in range(2):
        with cache(tmp_path) as kept, Work(kept, processes) as work:
            answers, pictures = work.run_many(answer, "a", range(many)), work.run_many(picture, "p", range(many))
            assert list(pictures) == list(run_in_turn(picture, "p", range(many)))
            assert list(answers) == list(run_in_turn(answer, "a", range(many)))


def test_nothing_is_worked_out_twice(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with cache(tmp_path) as kept, Work(kept, 2) as work:
        before = list(work.run_many(answer, "a", range(20)))
    with cache(tmp_path) as kept, Work(kept, 1) as work:
        monkeypatch.setitem(answer.__globals__, "Answer", None)  # who calls it now fails
        assert list(work.run_many(answer, "a", range(20))) == before
        with pytest.raises(TypeError):
            list(work.run_many(answer, "b", range(1)))
        with pytest.raises(TypeError):
            list(work.run_many(answer, "a", range(21)))


def test_what_is_kept_under_a_key_but_is_no_such_result_is_worked_out(tmp_path: Path) -> None:
    key = key_of(key_of(answer.__module__, answer.__qualname__, "a"), 1)
    with cache(tmp_path) as kept:
        kept.put(key, b'{"numbers": "none"}')
    with cache(tmp_path) as kept, Work(kept, 1) as work:
        assert list(work.run_many(answer, "a", [1])) == [answer("a", 1)]
    with cache(tmp_path) as kept:
        assert b"none" not in (kept.get(key) or b"none")


@pytest.mark.parametrize("processes", [1, 2])
def test_faults_come_through_from_another_process(processes: int, tmp_path: Path) -> None:
    with cache(tmp_path) as kept, Work(kept, processes) as work, pytest.raises(SourceError) as error:
        list(work.run_many(refuse, "", range(50)))
    assert error.value.faults == (FAULT,)


def test_a_helper_that_is_killed_is_told_in_one_line(tmp_path: Path) -> None:
    with cache(tmp_path) as kept, Work(kept, 2) as work:
        results = work.run_many(end_at_once, os.getpid(), range(4))
        time.sleep(0.5)  # until the helper has taken something
        with pytest.raises(HandbookError, match="ended from outside") as error:
            list(results)
        assert "\n" not in str(error.value)
        with pytest.raises(HandbookError, match="ended from outside"):
            work.run_many(answer, "a", range(4))
