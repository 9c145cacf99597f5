"""Runs pure functions over many inputs on N processes, with results kept; or other work on one of them."""

import ctypes
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from functools import partial
from multiprocessing import active_children, get_context, parent_process
from typing import Any, TypeAlias, get_type_hints

from pydantic import TypeAdapter

from generator.build.kept_results import Results, key_of
from generator.errors import HandbookError
from generator.pages.run_many import Given, Result, RunMany, Thing

_AT_ONCE = 4  # inputs that a process is given at a time: more cost less, fewer share the work evenly
_PR_SET_PDEATHSIG = 1  # linux/prctl.h

Begin: TypeAlias = Callable[[Callable[[], None]], Callable[[], None]]
"""Begins work in another process, which must be able to take it over; calling what is returned waits for its end."""


@contextmanager
def several_processes(results: Results, count: int) -> Iterator[tuple[RunMany, Begin | None]]:
    """A `run_many` for the length of the block; what `results` holds is not worked out again.

    With `count` 1 there is no other process to begin work in. Raises HandbookError if one was ended from outside.
    """
    context = get_context("fork" if sys.platform == "linux" else "spawn")
    pool = ProcessPoolExecutor(count, context, initializer=_end_with_the_first) if count > 1 else None
    each = partial(pool.map, chunksize=_AT_ONCE) if pool else map

    def begin(work: Callable[[], None]) -> Callable[[], None]:
        assert pool
        return pool.submit(work).result

    try:
        yield _with_results_kept(results, each), begin if pool else None
    except KeyboardInterrupt:
        for other in active_children():  # else whoever interrupts again waits for them for ever
            other.kill()
        raise
    except BrokenProcessPool:
        raise HandbookError("a process was ended from outside; make room in memory, then do it again") from None
    finally:
        if pool:
            pool.shutdown(cancel_futures=True)


def _with_results_kept(results: Results, each: Callable[..., Iterator[Any]]) -> RunMany:
    """Runs functions by `each`, a map over inputs, where `results` does not hold what comes of an input."""

    def run_many(function: Callable[[Given, Thing], Result], given: Given, things: Iterable[Thing]) -> Iterator[Result]:
        json: TypeAdapter[Result] = TypeAdapter(get_type_hints(function)["return"])
        common = key_of(function.__module__, function.__qualname__, given)
        every = list(things)
        keys = [key_of(common, thing) for thing in every]
        kept = [results.get(key) for key in keys]
        todo = [thing for thing, old in zip(every, kept, strict=True) if old is None]
        fresh: Iterator[Result | HandbookError] = iter(each(partial(_result_or_error, function, given), todo))

        def result(key: str, old: bytes | None) -> Result:
            if old is not None:
                return json.validate_json(old)
            new = next(fresh)
            if isinstance(new, HandbookError):
                raise new
            results.put(key, json.dump_json(new))
            return new

        return map(result, keys, kept)  # unlike a generator it goes on after an error

    return run_many


def _result_or_error(function: Callable[[Given, Thing], Result], given: Given, thing: Thing) -> Result | HandbookError:
    """An error is handed over like a result: raised here, it would take with it what stands beside it in its batch."""
    try:
        return function(given, thing)
    except HandbookError as error:
        return error


def usable_processors() -> int:
    """How many processors this process may use: in a container, those that it was given."""
    if hasattr(os, "process_cpu_count"):  # from Python 3.13
        return int(os.process_cpu_count() or 1)
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def _end_with_the_first() -> None:
    """An interrupt is meant for the first process: it ends the others itself, and if it was killed they end too.

    On Linux these processes are forked, and fork others in turn, so there must be no thread in them.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if sys.platform == "linux":
        ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
        first = parent_process()
        if first and os.getppid() != first.pid:  # it was gone before the kernel had been told
            os._exit(1)
    else:
        threading.Thread(target=_wait_for_the_first, daemon=True).start()


def _wait_for_the_first() -> None:
    first = parent_process()
    if first:
        first.join()
        os._exit(1)
