"""One pure function for many inputs: the shape that a plain loop and several processes have in common."""

from collections.abc import Callable, Iterable, Iterator
from typing import Protocol, TypeVar

Given = TypeVar("Given")
Thing = TypeVar("Thing")
Result = TypeVar("Result")


class RunMany(Protocol):
    """Begins `function(given, thing)` for every thing; gives the results in order.

    A result that is a list holds faults, and is worked out again by the next build.

    The function must be pure and belong to a module; `given` and the things must say in their repr all that they
    are; the results must be of the type that the function states, one that JSON can hold.
    """

    def __call__(
        self, function: Callable[[Given, Thing], Result], given: Given, things: Iterable[Thing]
    ) -> Iterator[Result]: ...
