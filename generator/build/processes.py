"""Runs pure functions over many inputs in several processes, and keeps their results for the next build."""

import os
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from typing import Any, get_type_hints

from pydantic import TypeAdapter

from generator.build.results_file import Results, key_of
from generator.pages.other_processes import Submit, other_processes
from generator.pages.run_many import Given, Result, RunMany, Thing

_AT_ONCE = 4  # inputs that a process is given at a time: more cost less, fewer share the work evenly


@contextmanager
def several_processes(results: Results, count: int) -> Iterator[tuple[RunMany, Submit | None]]:
    """For the length of the block: a `run_many` that uses and fills `results`, and a `submit` for other work.

    With `count` 1 everything is done in this process, and `submit` is None.
    """
    if count == 1:
        yield _with_results_kept(results, map), None
        return
    with other_processes(count) as submit:
        yield _with_results_kept(results, partial(_map, submit)), submit


def _map(submit: Submit, function: Callable[[Thing], Result], things: Sequence[Thing]) -> Iterator[Result]:
    """Like `map`, by other processes, which begin at once; results that were taken are let go."""
    batches = (things[first : first + _AT_ONCE] for first in range(0, len(things), _AT_ONCE))
    done = deque(submit(partial(_list, function, batch)) for batch in batches)
    return (result for _ in range(len(done)) for result in done.popleft().result())


def _list(function: Callable[[Thing], Result], things: Sequence[Thing]) -> list[Result]:
    return list(map(function, things))


def _with_results_kept(results: Results, each: Callable[..., Iterator[Any]]) -> RunMany:
    """A `run_many` that takes results from `results`, and works out the others by `each`, a function like `map`."""

    def run_many(function: Callable[[Given, Thing], Result], given: Given, things: Iterable[Thing]) -> Iterator[Result]:
        json: TypeAdapter[Result] = TypeAdapter(get_type_hints(function)["return"])
        common = key_of(function.__module__, function.__qualname__, given)
        every = list(things)
        keys = [key_of(common, thing) for thing in every]
        kept = [results.get(key) for key in keys]
        todo = [thing for thing, old in zip(every, kept, strict=True) if old is None]
        fresh: Iterator[Result] = iter(each(partial(function, given), todo))

        def result(key: str, old: bytes | None) -> Result:
            if old is not None:
                return json.validate_json(old)
            new = next(fresh)
            if not isinstance(new, list):  # of faults
                results.put(key, json.dump_json(new))
            return new

        return map(result, keys, kept)

    return run_many


def usable_processors() -> int:
    """How many processors this process may use: in a container, those that it was given."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1
