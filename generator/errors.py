"""What can be wrong with what people hand to the handbook."""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import NamedTuple, Self


class HandbookError(Exception):
    """The root of every error that is told to a person and not shown as a traceback."""


class SharingError(HandbookError, ValueError):
    """A dividend or divisor that makes no sense; the message says which and why."""


class Fault(NamedTuple):
    """One thing wrong in one file, in the words of the person who has to mend it.

    `line` counts from 1; 0 means that the fault belongs to no single line.
    """

    file: str
    line: int
    key: str
    problem: str
    remedy: str

    @classmethod
    def of_file(cls, file: str, problem: str, remedy: str) -> Self:
        """A fault of a file or folder as a whole."""
        return cls(file, 0, "", problem, remedy)

    def __str__(self) -> str:
        where = f"{self.file}:{self.line}" if self.line else self.file
        subject = f"{self.key}: " if self.key else ""
        return f"{where}: {subject}{self.problem}; {self.remedy}"


class Problem(NamedTuple):
    """What is wrong and what would be right, where the file and line are not known yet."""

    key: str
    problem: str
    remedy: str

    def at(self, file: str, line: int = 0) -> Fault:
        """The same, once it is known where it was written."""
        return Fault(file, line, *self)


class SourceError(HandbookError):
    """Every fault found in one run, sorted by file and line."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(sorted(set(faults)))
        super().__init__("\n".join(map(str, self.faults)))

    def __reduce__(self) -> tuple[type[Self], tuple[tuple[Fault, ...]]]:
        return type(self), (self.faults,)


class Faults(list[Fault]):
    """The faults of a run so far."""

    @contextmanager
    def gathered(self) -> Iterator[None]:
        """Keep the faults of what is done inside, and go on after it."""
        try:
            yield
        except SourceError as error:
            self.extend(error.faults)

    def raise_if_any(self) -> None:
        if self:
            raise SourceError(self)
