"""One build at a time: a lock that ends with the process that holds it, however that process ends."""

import os
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO

from generator.errors import HandbookError

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

_PAUSE = 0.1  # seconds between two tries


@contextmanager
def locked(path: Path, say: Callable[[str], None], patience: float) -> Iterator[None]:
    """Hold the lock file `path` for the length of the block, after waiting up to `patience` seconds for it.

    `say` is told once when there is something to wait for. Raises HandbookError when the wait was in vain.
    """
    end = time.monotonic() + patience
    handle = _try(path)
    if handle is None:
        say(f"Another build is writing here; waiting for it, at most {patience:g} seconds.")
    while handle is None:
        if time.monotonic() >= end:
            problem = f"another build has been writing here for {patience:g} seconds"
            raise HandbookError(f"{path}: {problem}; wait until it is done")
        time.sleep(_PAUSE)
        handle = _try(path)
    if hasattr(os, "register_at_fork"):
        os.register_at_fork(after_in_child=handle.close)  # a child that outlives this process must not keep the lock
    try:
        yield
    finally:
        if sys.platform == "win32":
            handle.close()  # an open file cannot be removed there
        with suppress(OSError):
            path.unlink()
        handle.close()


def _try(path: Path) -> IO[bytes] | None:
    """Return the locked file, or None if somebody else holds it."""
    handle = path.open("a+b", buffering=0)  # to read as well: a pipe of that name would wait for a reader for ever
    try:
        if sys.platform == "win32":
            handle.seek(0)
            msvcrt.locking(handle.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        # The one who held it before may have removed the file since it was opened here.
        if os.path.samestat(os.fstat(handle.fileno()), path.stat()):
            return handle
    except (BlockingIOError, PermissionError, FileNotFoundError):
        pass
    handle.close()
    return None
