"""Runs work in other processes, each with a pipe of its own, so that nobody waits for a process that was killed.

ProcessPoolExecutor reads the answers of all from one pipe: if a process is killed while it writes there, because
somebody interrupts or memory is short, the rest of its answer is waited for for ever.
"""

import ctypes
import os
import signal
import sys
import threading
import traceback
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import ExitStack, contextmanager
from functools import cache
from multiprocessing import get_context, parent_process
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from queue import SimpleQueue
from typing import Any, TypeAlias

from generator.errors import HandbookError

_PR_SET_PDEATHSIG = 1  # linux/prctl.h
_ENDS = ("SIGINT", "SIGTERM", "SIGHUP")  # not every system has all of them

Work: TypeAlias = Callable[[], Any]
Submit: TypeAlias = Callable[[Work], Future[Any]]
"""Runs work in another process. The future holds its result, the exception that it raised, or a HandbookError if the
process was ended from outside."""


@contextmanager
def other_processes(count: int) -> Iterator[Submit]:
    """Starts `count` processes when the first work is submitted, and kills them at the end of the block."""
    free: SimpleQueue[Connection] = SimpleQueue()
    threads = ThreadPoolExecutor(count)  # each of them waits for the answer of a process
    with ExitStack() as to_end:  # who interrupts twice still ends all of them
        to_end.callback(threads.shutdown, cancel_futures=True)

        @cache
        def begin() -> None:
            for _ in range(count):
                free.put(_begun(to_end))

        def submit(work: Work) -> Future[Any]:
            begin()
            return threads.submit(_answer, free, work)

        yield submit


def _begun(to_end: ExitStack) -> Connection:
    """Start a process; return our end of the pipe to it."""
    # A fork is ready at once, but may wait for ever for a lock that another thread was holding.
    may_copy = sys.platform == "linux" and threading.active_count() == 1
    context: Any = get_context("fork" if may_copy else "spawn")
    ours: Connection
    ours, theirs = context.Pipe()
    process = context.Process(target=_work, args=(theirs,))
    to_end.callback(_end, process)
    with _interrupts_put_off():
        process.start()
    theirs.close()
    return ours


@contextmanager
def _interrupts_put_off() -> Iterator[None]:
    """Hold back an interrupt during the block: Python swallows one that comes while it forks."""
    if sys.platform != "linux":
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, ())
    try:
        signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _end(process: BaseProcess) -> None:
    if process.pid:
        process.kill()
        process.join()


def _answer(free: SimpleQueue[Connection], work: Work) -> Any:
    pipe = free.get()
    try:
        pipe.send(work)
        done, answer = pipe.recv()
    except (EOFError, OSError):  # not raised here: it would hold what was sent, and Python 3.13 warns of that
        done = False
        answer = HandbookError("a process was ended from outside; make room in memory, then do it again")
    finally:
        free.put(pipe)
    if not done:
        raise answer
    return answer


def _work(pipe: Connection) -> None:
    """In another process: run what comes through the pipe and send back the result, until the process is killed.

    On Linux these processes are forked and fork others in turn, so no thread may be left in them between two works.
    """
    _end_with_the_first()
    while True:
        work = pipe.recv()
        try:
            answer = True, work()
        except Exception as error:
            error.add_note(traceback.format_exc())
            answer = False, error
        pipe.send(answer)


def _end_with_the_first() -> None:
    """Ignore interrupts, which are for the first process; end when that process is gone."""
    for name in _ENDS:
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), signal.SIG_IGN)
    if sys.platform == "linux":
        first = parent_process()
        ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
        if first and os.getppid() != first.pid:  # it was gone before the kernel had been told
            os._exit(1)
    else:
        threading.Thread(target=_wait_for_the_first, daemon=True).start()


def _wait_for_the_first() -> None:
    first = parent_process()
    if first:
        first.join()
        os._exit(1)
