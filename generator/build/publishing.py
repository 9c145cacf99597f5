"""Put a finished site in its place so that a reader finds a whole site there at every moment.

The site grows in a folder beside the target and is swapped in when it is done. Where the system can exchange two
folders (Linux) there is no moment without a site; elsewhere there are two renames, and a build that was killed
between them is mended by the next one.
"""

from __future__ import annotations

import ctypes
import errno
import os
import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from generator.build.lock import locked
from generator.errors import HandbookError

# Lists the files of a published site; a folder without it is not ours.
MARKER = ".sharing-handbook"

# Files that file managers leave behind in any folder they show.
_LITTER = frozenset({".DS_Store", "Thumbs.db", "desktop.ini"})

_AT_FDCWD, _RENAME_EXCHANGE = -100, 2  # linux/fcntl.h and linux/fs.h
_NO_EXCHANGE = frozenset({errno.EINVAL, errno.ENOSYS, errno.ENOTSUP, errno.EOPNOTSUPP, errno.EPERM})

# No room, not allowed, or a file where a folder should be.
_OF_DISKS = frozenset(
    (
        *(errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO),
        *(errno.EACCES, errno.EPERM, errno.EROFS),
        *(errno.EEXIST, errno.EISDIR, errno.ENOTDIR, errno.ENAMETOOLONG),
    )
)


@contextmanager
def fresh_site(target: Path, say: Callable[[str], None], patience: float = 60.0) -> Iterator[Path]:
    """Give an empty folder to build a site in, and put it in the place of `target` when the block ends well.

    When the block fails, `target` stays as it was. Another build of the same target is waited for, up to `patience`
    seconds; `say` is told so. Raises HandbookError with one clear line if the target holds something other than a
    site of ours, if the other build takes too long, or if the disk is full or may not be written.
    """
    target = target.resolve()
    with _alone_at(target, say, patience) as workshop:
        _refuse_foreign_site(target)
        fresh = workshop / "site"
        fresh.mkdir(parents=True)
        try:
            yield fresh
            _mark(fresh)
            _swap(fresh, target)
        finally:
            _tidy(workshop, target)


def clear_up(target: Path, say: Callable[[str], None], patience: float = 60.0) -> None:
    """Remove what a build that was killed has left beside `target`, and bring back a site that it had taken away.

    Where nothing is left, nothing is touched. Raises HandbookError as `fresh_site` does.
    """
    target = target.resolve()
    if _workshop(target).exists() or _lock(target).exists():
        with _alone_at(target, say, patience):
            pass


@contextmanager
def _alone_at(target: Path, say: Callable[[str], None], patience: float) -> Iterator[Path]:
    """Keep other builds away from a target for the length of the block, and give the tidied folder to work in."""
    workshop = _workshop(target)
    with disk_faults(target, f"the site at {target} is as it was before; "):
        target.parent.mkdir(parents=True, exist_ok=True)
        with locked(_lock(target), say, patience):
            _refuse_foreign_workshop(workshop)
            _tidy(workshop, target)
            yield workshop


@contextmanager
def disk_faults(folder: Path, besides: str = "") -> Iterator[None]:
    """Say in one line that a disk is full or may not be written; any other error passes as it is."""
    try:
        yield
    except OSError as error:
        if error.errno not in _OF_DISKS:
            raise
        raise HandbookError(
            f"{error.filename or folder}: {error.strerror}; {besides}make room or allow writing there, then build again"
        ) from error


def _workshop(target: Path) -> Path:
    return target.with_name(f".{target.name}.building")


def _lock(target: Path) -> Path:
    return target.with_name(f".{target.name}.lock")


def _swap(fresh: Path, target: Path) -> None:
    """Put the finished site in the place of the target; the old one is left in the workshop."""
    if not target.exists():
        fresh.rename(target)
    elif not _exchange(fresh, target):
        target.rename(fresh.with_name("previous"))
        fresh.rename(target)


def _exchange(one: Path, other: Path) -> bool:
    """Let two folders change places in a single step; False where the system or the disk cannot do it."""
    if sys.platform != "linux":
        return False
    try:
        rename = ctypes.CDLL(None, use_errno=True).renameat2
    except AttributeError:
        return False
    if rename(_AT_FDCWD, os.fsencode(one), _AT_FDCWD, os.fsencode(other), _RENAME_EXCHANGE) == 0:
        return True
    code = ctypes.get_errno()
    if code in _NO_EXCHANGE:
        return False
    raise OSError(code, os.strerror(code), str(other))


def _tidy(workshop: Path, target: Path) -> None:
    """Remove what a build left in the workshop; put a site back that was taken away but not replaced."""
    previous = workshop / "previous"
    if previous.exists() and not target.exists():
        previous.rename(target)
    shutil.rmtree(workshop, ignore_errors=True)


def _mark(site: Path) -> None:
    (site / MARKER).write_text("\n".join(sorted(_files(site))), encoding="utf-8", errors="surrogateescape")


def _refuse_foreign_workshop(workshop: Path) -> None:
    if workshop.exists() and not (
        workshop.is_dir() and {path.name for path in workshop.iterdir()} <= {"site", "previous"}
    ):
        raise HandbookError(f"{workshop}: is in the way of the build; move it elsewhere, or build to another folder")


def _refuse_foreign_site(target: Path) -> None:
    """Raise unless `target` is free, or holds the files that a build put there and no others."""
    if not target.exists():
        return
    advice = "nothing there was touched; choose an empty or new folder"
    if not target.is_dir():
        raise HandbookError(f"{target}: is not a folder; {advice}")
    found = {path for path in _files(target) if path.rpartition("/")[2] not in _LITTER}
    marker = target / MARKER
    if not marker.is_file():
        if found:
            raise HandbookError(
                f"{target}: holds files that are not a handbook built here, such as {min(found)}; {advice}"
            )
        return
    ours = {*marker.read_text(encoding="utf-8", errors="surrogateescape").split("\n"), MARKER}
    if found - ours:
        raise HandbookError(f"{target}: holds a file that the build did not put there, {min(found - ours)}; {advice}")


def _files(folder: Path) -> Iterator[str]:
    """Yield every file and link below `folder`, as a path with slashes."""
    for place, folders, files in os.walk(folder):
        links = [name for name in folders if Path(place, name).is_symlink()]
        for name in files + links:
            yield Path(place, name).relative_to(folder).as_posix()
