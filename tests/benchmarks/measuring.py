"""What all benchmarks share: a line of the table, medians, and work done in a process of its own."""

import os
import subprocess
import sys
import time
from collections.abc import Callable
from statistics import median
from typing import NamedTuple

from generator import PROJECT

EPOCH = "1767225600"  # the date of these builds, so that two of them are comparable


class Measured(NamedTuple):
    """One line: what, how much in which unit, and what was aimed at."""

    what: str
    value: float
    unit: str
    aim: str = ""

    @property
    def line(self) -> str:
        digits = 0 if self.value >= 1000 else 2 if self.value >= 1 else 3
        return f"{self.what:<66} {self.value:>12,.{digits}f} {self.unit:<10} {self.aim}".rstrip()


def seconds(work: Callable[[], object]) -> float:
    """How long the work takes, once."""
    begun = time.perf_counter()
    work()
    return time.perf_counter() - begun


def median_seconds(work: Callable[[], object], times: int) -> float:
    return median(seconds(work) for _ in range(times))


def python(*arguments: str) -> str:
    """Run Python with these arguments in a process of its own, and give what it prints."""
    environment = {**os.environ, "SOURCE_DATE_EPOCH": EPOCH, "PYTHONPATH": str(PROJECT)}
    said = subprocess.run(
        [sys.executable, *arguments], cwd=PROJECT, env=environment, stdout=subprocess.PIPE, text=True, check=True
    )
    return said.stdout
