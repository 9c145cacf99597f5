"""Pure functions over many things: nothing is worked out twice, and both cores are used."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from functools import cache, partial
from multiprocessing import get_context
from types import TracebackType
from typing import Any, TypeVar, get_type_hints

from pydantic import TypeAdapter, ValidationError

from generator.cache import Cache, key_of

Given = TypeVar("Given")
Thing = TypeVar("Thing")
Result = TypeVar("Result")

_TURNS = 8  # how often a worker comes back for more: few turns cost little, many share the work evenly
_MOST_AT_ONCE = 16


class Work:
    """Works out what an earlier build has not left in the cache, in other processes if there may be more than one.

    These begin at once and yield to this process where there are too few cores for all.
    """

    def __init__(self, cache: Cache, workers: int) -> None:
        self._cache = cache
        self._pool = None if workers == 1 else _pool(workers)

    def __enter__(self) -> Work:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        if self._pool:
            self._pool.shutdown(cancel_futures=True)

    def each(
        self, function: Callable[[Given, Thing], Result], given: Given, things: Iterable[Thing]
    ) -> Iterator[Result]:
        """`function(given, thing)` for every thing, in order.

        The function must be pure and belong to a module; `given` and the things must say in their repr all
        that they are; the results must be of the type that the function states, one that JSON can hold.
        """
        todo = list(things)
        common = key_of(function.__module__, function.__qualname__, given)
        keys = [key_of(common, thing) for thing in todo]
        known = [_remembered(self._cache, function, key) for key in keys]
        missing = [(key, thing) for key, thing, found in zip(keys, todo, known, strict=True) if not found]
        fresh = self._begin(partial(_work_out, self._cache, function, given), missing)
        return (found[0] if found else next(fresh) for found in known)

    def _begin(self, function: Callable[[Thing], Result], things: list[Thing]) -> Iterator[Result]:
        if not self._pool or not things:
            return map(function, things)
        at_once = min(_MOST_AT_ONCE, 1 + len(things) // _TURNS)
        return self._pool.map(function, things, chunksize=at_once)


def one_by_one(function: Callable[[Given, Thing], Result], given: Given, things: Iterable[Thing]) -> Iterator[Result]:
    """The same without a cache, in this process, each when it is asked for."""
    return (function(given, thing) for thing in things)


def _pool(workers: int) -> ProcessPoolExecutor:
    context = get_context("fork" if sys.platform == "linux" else "spawn")
    return ProcessPoolExecutor(workers, context, initializer=_begin_as_a_worker)


def _begin_as_a_worker() -> None:
    """Leave the cores to the first process, and an interrupt too: it ends its workers itself."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if hasattr(os, "nice"):
        os.nice(10)


def _work_out(cache: Cache, function: Callable[[Any, Any], Any], given: Any, named: tuple[str, Any]) -> Any:
    key, thing = named
    result = function(given, thing)
    cache.put(key, _adapter(function).dump_json(result))
    return result


def _remembered(cache: Cache, function: Callable[..., Result], key: str) -> tuple[Result] | None:
    """What was worked out before; nothing if it is not there, or is not what the function states."""
    kept = cache.get(key)
    try:
        return None if kept is None else (_adapter(function).validate_json(kept),)
    except ValidationError:
        return None


@cache
def _adapter(function: Callable[..., Any]) -> TypeAdapter[Any]:
    return TypeAdapter(get_type_hints(function)["return"])
