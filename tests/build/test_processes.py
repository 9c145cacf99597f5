"""Functions run on several processes and kept from build to build gives the same as doing it one by one."""

import os
import signal
import subprocess
import sys
import threading
import time
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import pytest

from generator import PROJECT
from generator.build.processes import several_processes
from generator.build.results_file import Results
from generator.build.straight_line import Request
from generator.errors import Fault, HandbookError, SourceError
from tests.in_turn import run_in_turn
from tests.sampling import sample
from tests.waiting import PATIENCE, is_gone, until

FAULT = Fault("pages/odd.md", 7, "title", "is not even", "make it even")


@dataclass(frozen=True)
class Answer:
    words: str
    numbers: tuple[int, ...] = ()


ALLOWED = True


def answer(given: str, thing: int) -> Answer:
    if not ALLOWED:
        raise TypeError("should have been known")
    return Answer(f"{given} é {thing}", (thing, -thing))


def picture(given: str, thing: int) -> bytes:
    return f'<svg id="{given}-{thing}"/>\n'.encode()


def refuse(given: str, thing: int) -> str:
    raise SourceError([FAULT])


def refuse_the_third(given: str, thing: int) -> int | list[Fault]:
    if not ALLOWED:
        raise TypeError("should have been known")
    return [FAULT] if thing == 2 else thing


def end_at_once(given: int, thing: int) -> str:
    """In another process only: the one that was `given` goes on."""
    if os.getpid() != given:
        os.kill(os.getpid(), signal.SIGKILL)
    return "done"


def end_while_answering(given: str, thing: int) -> str:
    sys.setswitchinterval(1000)  # seconds: the other thread has its turn when this one writes the answer
    threading.Timer(0.01, os.kill, (os.getpid(), signal.SIGKILL)).start()
    return "long" * 25_000_000


def threads(given: str, thing: int) -> int:
    return threading.active_count()


FIRST = """
import sys, time
from pathlib import Path
from generator import PROJECT
from generator.build.processes import several_processes
from generator.build.results_file import Results
from multiprocessing import active_children
from tests.build.test_processes import picture
with several_processes(Results(Path(sys.argv[1]) / "results", ""), 2) as (run_many, _):
    list(run_many(picture, "a", range(9)))
    print(*(child.pid for child in active_children()), flush=True)
    time.sleep(600)
"""


def results_in(folder: Path) -> Results:
    return Results(folder / "results", "this code")


@pytest.mark.parametrize("processes", sample([1, 2, 3], 2))
@pytest.mark.parametrize("many", sample([0, 1, 5, 100], 2))
def test_results_are_those_of_a_plain_loop_and_in_order(many: int, processes: int, tmp_path: Path) -> None:
    for _ in range(2):
        with results_in(tmp_path) as kept, several_processes(kept, processes) as (run_many, _):
            answers, pictures = run_many(answer, "a", range(many)), run_many(picture, "p", range(many))
            assert list(pictures) == list(run_in_turn(picture, "p", range(many)))
            assert list(answers) == list(run_in_turn(answer, "a", range(many)))


def test_nothing_is_worked_out_twice(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with results_in(tmp_path) as kept, several_processes(kept, 2) as (run_many, _):
        before = list(run_many(answer, "a", range(20)))
    with results_in(tmp_path) as kept, several_processes(kept, 1) as (run_many, _):
        monkeypatch.setitem(answer.__globals__, "ALLOWED", False)
        assert list(run_many(answer, "a", range(20))) == before
        with pytest.raises(TypeError):
            list(run_many(answer, "b", range(1)))
        with pytest.raises(TypeError):
            list(run_many(answer, "a", range(21)))


@pytest.mark.parametrize("processes", [1, 2])
def test_faults_come_through_from_another_process(processes: int, tmp_path: Path) -> None:
    with (
        results_in(tmp_path) as kept,
        several_processes(kept, processes) as (run_many, _),
        pytest.raises(SourceError) as error,
    ):
        list(run_many(refuse, "", range(50)))
    assert error.value.faults == (FAULT,)


@pytest.mark.parametrize("processes", [1, 2])
def test_what_is_refused_stands_among_the_results_and_is_not_kept(
    processes: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with results_in(tmp_path) as kept, several_processes(kept, processes) as (run_many, _):
        assert list(run_many(refuse_the_third, "", range(5))) == [0, 1, [FAULT], 3, 4]
    with results_in(tmp_path) as kept, several_processes(kept, 1) as (run_many, _):
        monkeypatch.setitem(refuse_the_third.__globals__, "ALLOWED", False)
        assert list(run_many(refuse_the_third, "", [0, 1, 3, 4])) == [0, 1, 3, 4]
        with pytest.raises(TypeError):
            list(run_many(refuse_the_third, "", [2]))


def test_a_process_that_is_killed_is_told_in_one_line(tmp_path: Path) -> None:
    with (
        pytest.raises(HandbookError, match="ended from outside") as error,
        results_in(tmp_path) as kept,
        several_processes(kept, 2) as (run_many, _),
    ):
        list(run_many(end_at_once, os.getpid(), range(4)))
    assert "\n" not in str(error.value)


def test_a_process_that_is_killed_while_it_answers_is_not_waited_for(tmp_path: Path) -> None:
    with (
        pytest.raises(HandbookError, match="ended from outside"),
        results_in(tmp_path) as kept,
        several_processes(kept, 2) as (run_many, _),
    ):
        list(run_many(end_while_answering, "", range(1)))


def note(file: Path, words: str) -> None:
    file.write_text(f"{words} {os.getpid()}", "utf-8")


def test_other_work_is_done_by_another_process_and_waited_for(tmp_path: Path) -> None:
    with results_in(tmp_path) as kept, several_processes(kept, 2) as (_, submit):
        assert submit
        submit(partial(note, tmp_path / "note", "done by")).result()
        words, _, process = (tmp_path / "note").read_text("utf-8").rpartition(" ")
        assert (words, process != str(os.getpid())) == ("done by", True)
        with pytest.raises(SourceError) as error:
            submit(partial(refuse, "", 1)).result()
    assert error.value.faults == (FAULT,)


def test_one_process_has_no_other_to_submit_work_to(tmp_path: Path) -> None:
    with results_in(tmp_path) as kept, several_processes(kept, 1) as (_, submit):
        assert submit is None


def test_nothing_runs_beside_what_was_forked(tmp_path: Path) -> None:
    """Processes fork others that can be stopped; from Python 3.12 on, a thread beside a fork is warned of."""
    with results_in(tmp_path) as kept, several_processes(kept, 2) as (run_many, _):
        assert set(run_many(threads, "", range(8))) == {1}


@pytest.mark.skipif(sys.platform != "linux", reason="reads what Linux tells of processes")
def test_processes_end_with_the_first_however_it_ended(tmp_path: Path) -> None:
    order = [sys.executable, "-c", FIRST, str(tmp_path)]
    with subprocess.Popen(order, cwd=PROJECT, stdout=subprocess.PIPE, text=True) as first:
        assert first.stdout
        others = list(map(int, first.stdout.readline().split()))
        first.kill()
    assert len(others) == 2
    until(lambda: all(map(is_gone, others)))


def slowly(given: float, thing: int) -> int:
    time.sleep(given)
    return thing


MUCH_TO_DO = """
import signal, sys
from pathlib import Path
from generator.build.results_file import Results
from generator.build.processes import several_processes
from tests.build.test_processes import slowly
signal.signal(signal.SIGINT, signal.default_int_handler)  # also where a shell ignores it for what it runs beside
with several_processes(Results(Path(sys.argv[1]) / "results", ""), 2) as (run_many, _):
    for done in run_many(slowly, 0.4, range(400)):
        print(done, flush=True)
"""


@pytest.mark.skipif(os.name != "posix", reason="interrupts a group of processes")
@pytest.mark.parametrize("pause", sample([0.02, 0.3], 1))
def test_interrupted_twice_everything_ends(pause: float, tmp_path: Path) -> None:
    """Whoever is in a hurry presses Ctrl-C more than once; a terminal interrupts the whole group."""
    order = [sys.executable, "-c", MUCH_TO_DO, str(tmp_path)]
    with subprocess.Popen(
        order, cwd=PROJECT, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, start_new_session=True
    ) as first:
        assert first.stdout
        first.stdout.readline()
        for _ in range(2):
            with suppress(ProcessLookupError):
                os.killpg(first.pid, signal.SIGINT)
            time.sleep(pause)
        try:
            first.wait(PATIENCE)
        finally:
            with suppress(ProcessLookupError):
                os.killpg(first.pid, signal.SIGKILL)
    assert first.returncode == -signal.SIGINT


@pytest.mark.skipif(not hasattr(os, "sched_setaffinity"), reason="a process may use every processor there")
def test_only_processors_that_this_process_may_use_are_counted() -> None:
    """As in a container that was given one of many."""
    allowed = os.sched_getaffinity(0)
    assert Request().processes == min(len(allowed), 8)
    count = "from generator.build.straight_line import Request; print(Request().processes)"
    order = [sys.executable, "-c", f"import os; os.sched_setaffinity(0, {{{min(allowed)}}}); {count}"]
    assert subprocess.run(order, cwd=PROJECT, capture_output=True, check=True).stdout == b"1\n"
