"""Pure functions over many things: nothing is worked out twice, and every core is used."""

from __future__ import annotations

import os
import signal
import sys
import threading
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from functools import cache, partial
from multiprocessing import get_context, parent_process
from types import TracebackType
from typing import Any, Generic, get_type_hints

from pydantic import TypeAdapter, ValidationError

from generator.build.results import Cache, key_of
from generator.errors import HandbookError
from generator.pages.run_many import Given, Result, Thing

_TURNS = 24  # how often a process comes back for more: few turns cost little, many share the work evenly
_MOST_AT_ONCE = 16
_ENDED = "a process that helped this one was ended from outside; make room in memory, then do it again"


class Work:
    """Works out what an earlier build has not left in the cache, in `processes` at once, this one among them.

    The others begin at once. This one takes its share when it would have to wait for a result.
    """

    def __init__(self, cache: Cache, processes: int) -> None:
        self._cache = cache
        self._processes = processes
        self._others = _others(processes - 1) if processes > 1 else None
        self._open: list[_Batch[Any]] = []

    def __enter__(self) -> Work:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        if self._others:
            self._others.shutdown(cancel_futures=True)

    def run_many(
        self, function: Callable[[Given, Thing], Result], given: Given, things: Iterable[Thing]
    ) -> Iterator[Result]:
        """Results in order, as `generator.pages.run_many.RunMany` has it."""
        todo = list(things)
        common = key_of(function.__module__, function.__qualname__, given)
        keys = [key_of(common, thing) for thing in todo]
        known = [self._remembered(function, key) for key in keys]
        fresh = self._begin(
            partial(_work_out, function, given), [thing for thing, old in zip(todo, known, strict=True) if not old]
        )
        return (old[0] if old else self._kept(function, key, next(fresh)) for key, old in zip(keys, known, strict=True))

    def _remembered(self, function: Callable[..., Result], key: str) -> tuple[Result] | None:
        """What was worked out before; nothing if it is not there, or is not what the function states."""
        old = self._cache.get(key)
        try:
            return None if old is None else (_json(function).validate_json(old),)
        except ValidationError:
            return None

    def _kept(self, function: Callable[..., Result], key: str, result: Result) -> Result:
        self._cache.put(key, _json(function).dump_json(result))
        return result

    def _begin(self, function: Callable[[list[Thing]], list[Result]], things: list[Thing]) -> Iterator[Result]:
        at_once = min(_MOST_AT_ONCE, 1 + len(things) // (_TURNS * self._processes))
        batches = [partial(function, things[start : start + at_once]) for start in range(0, len(things), at_once)]
        if self._others is None:
            return (result for batch in batches for result in batch())
        try:
            begun = [_Batch(batch, self._others.submit(batch)) for batch in batches]
        except BrokenProcessPool:
            raise HandbookError(_ENDED) from None
        self._open += begun
        return self._in_order(begun)

    def _in_order(self, begun: list[_Batch[Result]]) -> Iterator[Result]:
        """The results of all batches; while one is not done elsewhere, others are done here."""
        begun.reverse()
        while begun:  # what has been given away takes no room any more
            batch = begun.pop()
            while not batch.results.done() and self._do_one_here():
                pass
            if batch in self._open:
                self._open.remove(batch)
            yield from _finished(batch.results)

    def _do_one_here(self) -> bool:
        """Do the last batch that no other process has come to; False if there is none."""
        while self._open:
            batch = self._open.pop()
            if batch.results.cancel():
                batch.results = Future()
                try:
                    batch.results.set_result(batch.work())
                except Exception as error:  # told when these results are asked for
                    batch.results.set_exception(error)
                return True
        return False


@dataclass(eq=False)
class _Batch(Generic[Result]):
    """Some of the things, and what becomes of them in the end, wherever they are worked out."""

    work: Callable[[], list[Result]]
    results: Future[list[Result]]


def _finished(other: Future[list[Result]]) -> list[Result]:
    try:
        return other.result()
    except BrokenProcessPool:
        raise HandbookError(_ENDED) from None


def _others(count: int) -> ProcessPoolExecutor:
    context = get_context("fork" if sys.platform == "linux" else "spawn")
    return ProcessPoolExecutor(count, context, initializer=_depend_on_the_first)


def _depend_on_the_first() -> None:
    """An interrupt is meant for the first process: it ends the others itself, and if it was killed they end too."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_the_first, daemon=True).start()


def _end_with_the_first() -> None:
    first = parent_process()
    if first:
        first.join()
        os._exit(1)


def _work_out(function: Callable[[Given, Thing], Result], given: Given, batch: list[Thing]) -> list[Result]:
    return [function(given, thing) for thing in batch]


@cache
def _json(function: Callable[..., Any]) -> TypeAdapter[Any]:
    return TypeAdapter(get_type_hints(function)["return"])
