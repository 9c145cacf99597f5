"""Wait for what happens outside this process, never for a time."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

PATIENCE = 120.0  # seconds


def until(happened: Callable[[], bool]) -> None:
    """Return as soon as it has happened; a test that waits in vain fails."""
    end = time.monotonic() + PATIENCE
    while not happened():
        assert time.monotonic() < end, "waited in vain"
        time.sleep(0.02)


def is_gone(number: int) -> bool:
    """Whether the process of this number has ended; on Linux."""
    try:
        return Path(f"/proc/{number}/stat").read_text("utf-8").rpartition(")")[2].split()[0] == "Z"
    except OSError:
        return True
