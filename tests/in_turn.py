"""What a build does on several processes, in one."""

from collections.abc import Callable, Iterable, Iterator
from functools import partial

from generator.pages.run_many import Given, Result, Thing


def run_in_turn(function: Callable[[Given, Thing], Result], given: Given, things: Iterable[Thing]) -> Iterator[Result]:
    """Each result when it is asked for."""
    return map(partial(function, given), things)
