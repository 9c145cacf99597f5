"""Work on what a school wrote, in a process of its own: it ends in time and in bounds, whatever it is given.

A template may loop without end or build a text that fills the memory, and Markdown can be written to take for ever.
The process that works on it is stopped after SECONDS; on Linux it gets no more than MEMORY.
"""

import _thread
import ctypes
import os
import signal
import sys
from collections.abc import Callable
from contextlib import suppress
from multiprocessing import get_context, parent_process
from multiprocessing.connection import Connection
from pathlib import Path
from threading import Timer, active_count
from typing import Any, TypeVar

SECONDS = 10.0
MEMORY = 1 << 30
_GRACE = 2.0  # how much longer it may take to say by itself that it takes too long
_TO_BEGIN = 60.0
_PR_SET_PDEATHSIG = 1  # linux/prctl.h

Result = TypeVar("Result")


def confined(function: Callable[..., Result], *arguments: Any, seconds: float) -> Result | None:
    """What the function gives, worked out in another process.

    After `seconds` a KeyboardInterrupt is raised in the function, so that it can say where it was.
    Nothing if that did not stop it, or if the process died.
    """
    # A copy of this process is there at once, but may wait for ever for what another thread was holding.
    may_copy = sys.platform == "linux" and active_count() == 1
    context: Any = get_context("fork" if may_copy else "spawn")
    ours, theirs = context.Pipe(duplex=False)
    process = context.Process(target=_answer, args=(theirs, function, arguments, seconds), daemon=True)
    process.start()
    theirs.close()
    try:
        if ours.poll(_TO_BEGIN) and ours.recv() == "begun" and ours.poll(seconds + _GRACE):
            result: Result = ours.recv()
            return result
    except (EOFError, OSError):
        pass
    finally:
        process.kill()
        process.join()
        ours.close()
    return None


def _answer(connection: Connection, function: Callable[..., Any], arguments: tuple[Any, ...], seconds: float) -> None:
    """In the other process: work it out and send it; whatever goes wrong ends this process without a word."""
    with suppress(BaseException):
        signal.signal(signal.SIGINT, signal.default_int_handler)
        if sys.platform == "linux":
            end_with_the_one_before()
            _take_at_most()
        connection.send("begun")
        alarm = Timer(seconds, _thread.interrupt_main)
        alarm.start()
        result = function(*arguments)
        alarm.cancel()
        connection.send(result)
    os._exit(0)


def end_with_the_one_before() -> None:
    """On Linux: this process ends as soon as the one that began it has ended, however that was."""
    before = parent_process()
    ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
    if before and os.getppid() != before.pid:  # it was gone before the kernel had been told
        os._exit(1)


def _take_at_most() -> None:
    """Let this process grow by no more than MEMORY; a system may allow less."""
    import resource

    pages = int(Path("/proc/self/statm").read_text("ascii").split()[0])
    most = pages * resource.getpagesize() + MEMORY
    allowed = resource.getrlimit(resource.RLIMIT_AS)[1]
    granted = most if allowed == resource.RLIM_INFINITY else min(most, allowed)
    resource.setrlimit(resource.RLIMIT_AS, (granted, granted))
