"""Work for other processes, each of them with a pipe of its own: none is waited for that has been ended.

An executor of processes has one pipe for the answers of all. If one of them is killed while it writes there, because
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
"""Has work done by another process. What is returned holds its result, or what it raised.

It holds a HandbookError if the process was ended from outside, with no answer given.
"""


@contextmanager
def other_processes(count: int) -> Iterator[Submit]:
    """Begins `count` processes with the first work; ends them with the block, whatever they are doing."""
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
    """Our end of the pipe to a new process."""
    # A copy of this process is there at once, but may wait for ever for what another thread was holding.
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
    """Python swallows an interrupt that comes while it forks, so it comes afterwards."""
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
    """In another process: do what comes and answer, until it is ended.

    On Linux these processes are forked, and fork others in turn, so no thread may be left in them between two works.
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
    """An interrupt is meant for the first process: it ends the others itself, and if it was killed they end too."""
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
