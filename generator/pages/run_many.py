"""One pure function for many inputs: the shape that a plain loop and several processes have in common."""

from collections.abc import Callable, Iterable, Iterator
from typing import Protocol, TypeVar

Given = TypeVar("Given")
Thing = TypeVar("Thing")
Result = TypeVar("Result")


class RunMany(Protocol):
    """Starts `function(given, thing)` for every thing; yields the results in order.

    A result that is a list holds faults, and is not kept for the next build.

    The function must be pure and belong to a module. `given` and the things must be told apart by their repr, because
    it is the key of a kept result. Results must be of the type that the function states, one that JSON can hold.
    """

    def __call__(
        self, function: Callable[[Given, Thing], Result], given: Given, things: Iterable[Thing]
    ) -> Iterator[Result]: ...
