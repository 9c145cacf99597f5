"""Work on what a school wrote, in a process of its own with limits of time and memory.

A template may loop without end or build a text that fills the memory, and Markdown can be written to take for ever.
The process that works on it is stopped after SECONDS; on Linux it gets no more than MEMORY.
"""

import _thread
import os
import signal
import sys
from collections.abc import Callable
from contextlib import suppress
from functools import partial
from pathlib import Path
from threading import Timer
from typing import Any, TypeVar

from generator.pages.other_processes import other_processes

SECONDS = 10.0
MEMORY = 1 << 30
_GRACE = 2.0  # seconds after the interrupt in which the function may still say where it was
_TO_BEGIN = 60.0  # seconds

Result = TypeVar("Result")


def confined(function: Callable[..., Result], *arguments: Any, seconds: float) -> Result | None:
    """The result of the function, worked out in another process.

    After `seconds` a KeyboardInterrupt is raised in the function, so that it can say where it was.
    None if that did not stop it, or if it failed or the process died.
    """
    with suppress(Exception), other_processes(1) as submit:
        submit(_set_bounds).result(_TO_BEGIN)
        result: Result = submit(partial(_in_time, seconds, function, *arguments)).result(seconds + _GRACE)
        return result
    return None


def _set_bounds() -> None:
    """In the other process: allow interrupts; let memory grow by MEMORY, or as the system allows if that is less."""
    signal.signal(signal.SIGINT, signal.default_int_handler)
    if sys.platform == "linux":
        import resource

        pages = int(Path("/proc/self/statm").read_text("ascii").split()[0])
        most = pages * resource.getpagesize() + MEMORY
        allowed = resource.getrlimit(resource.RLIMIT_AS)[1]
        granted = most if allowed == resource.RLIM_INFINITY else min(most, allowed)
        resource.setrlimit(resource.RLIMIT_AS, (granted, granted))


def _in_time(seconds: float, function: Callable[..., Result], *arguments: Any) -> Result:
    """In the other process: the result of the function; an interrupt that it does not catch ends the process."""
    alarm = Timer(seconds, _thread.interrupt_main)
    alarm.start()
    try:
        return function(*arguments)
    except KeyboardInterrupt:
        os._exit(1)
    finally:
        alarm.cancel()
