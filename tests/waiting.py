"""Wait for what happens outside this process, never for a time; and the ports on which it is heard."""

import socket
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


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def is_answered(port: int) -> bool:
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) == 0
