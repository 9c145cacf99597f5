"""Put a finished site in its place so that a reader finds a whole site there at every moment.

The site grows in a folder beside the target and is swapped in when it is done. Where the system can exchange two
folders (Linux) there is no moment without a site; elsewhere there are two renames, and a build that was killed
between them is mended by the next one.
"""

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

_NOT_TO_BE_WRITTEN = {errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO, errno.EACCES, errno.EPERM, errno.EROFS}
_IN_THE_WAY = frozenset({errno.EEXIST, errno.EISDIR, errno.ENOTDIR, errno.ENAMETOOLONG})


def site_around(path: Path) -> Path | None:
    """The published site in which a path lies; None if it lies in none."""
    return next((folder for folder in Path(os.path.realpath(path)).parents if (folder / MARKER).exists()), None)


@contextmanager
def fresh_site(target: Path, say: Callable[[str], None], patience: float = 60.0) -> Iterator[Path]:
    """Give an empty folder to build a site in, and put it in the place of `target` when the block ends well.

    When the block fails, or leaves the folder empty, `target` stays as it was. What a killed build has left beside it
    is removed, and a site that it had taken away is brought back. Another build of the same target is waited for, up to
    `patience` seconds; `say` is told so. Raises HandbookError with one clear line if the target holds something other
    than a site of ours, if the other build takes too long, or if the disk is full or may not be written.
    """
    target = Path(os.path.realpath(target))
    if not target.name or os.path.ismount(target):
        raise HandbookError(f"{target}: is a whole disk; name a folder on it, such as {target / 'handbook'}")
    building = target.with_name(f".{target.name}.building")
    fresh = building / "site"
    with disk_faults(target, f"the site at {target} is as it was before; "):
        if site := site_around(target):
            raise HandbookError(f"{target}: lies in {site}, a published site; choose a folder outside it")
        target.parent.mkdir(parents=True, exist_ok=True)
        with locked(target.with_name(f".{target.name}.lock"), say, patience):
            _refuse_foreign_building(building)
            try:
                _tidy(building, target)
                if building.exists():
                    raise HandbookError(f"{building}: cannot be cleared; close what shows the handbook, or delete it")
                _refuse_foreign_site(target)
                fresh.mkdir(parents=True)
                yield fresh
                files = _files(fresh)
                if files:
                    (fresh / MARKER).write_text("\n".join(sorted(files)), encoding="utf-8", errors="surrogateescape")
                    _refuse_foreign_site(target)  # once more: somebody may have put a file there meanwhile
                    _swap(fresh, target)
            finally:
                _tidy(building, target)


@contextmanager
def disk_faults(folder: Path, besides: str = "") -> Iterator[None]:
    """Turn an OSError about a full or protected disk, or something in the way, into a HandbookError of one line."""
    try:
        yield
    except OSError as error:
        if error.errno not in _NOT_TO_BE_WRITTEN | _IN_THE_WAY:
            raise
        remedy = "make room or allow writing there, then build again"
        if error.errno in _IN_THE_WAY:
            remedy = "choose another folder, or move what is in the way"
        target = None if error.errno == errno.EIO else error.filename2  # of a copy, where it goes
        place = target or error.filename or folder
        raise HandbookError(f"{place}: {error.strerror}; {besides}{remedy}") from error


def _swap(fresh: Path, target: Path) -> None:
    """Put the finished site in the place of the target; the old one is left in the folder of the build."""
    if not target.exists():
        fresh.rename(target)
    elif not _exchange(fresh, target):
        target.rename(fresh.with_name("previous"))
        fresh.rename(target)


def _exchange(one: Path, other: Path) -> bool:
    """Let two folders change places in a single step; False where the system or the disk cannot do it."""
    rename = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None) if sys.platform == "linux" else None
    if rename is None:
        return False
    if rename(_AT_FDCWD, os.fsencode(one), _AT_FDCWD, os.fsencode(other), _RENAME_EXCHANGE) == 0:
        return True
    code = ctypes.get_errno()
    if code in _NO_EXCHANGE:
        return False
    raise OSError(code, os.strerror(code), str(other))


def _tidy(building: Path, target: Path) -> None:
    """Remove what a build left in its folder; put a site back that was taken away but not replaced."""
    previous = building / "previous"
    if previous.exists() and not target.exists():
        previous.rename(target)
    shutil.rmtree(building, ignore_errors=True)


def _refuse_foreign_building(building: Path) -> None:
    ours = {"site", "previous"}
    if building.exists() and not (building.is_dir() and {path.name for path in building.iterdir()} <= ours):
        raise HandbookError(f"{building}: is in the way of the build; move it elsewhere, or build to another folder")


def _refuse_foreign_site(target: Path) -> None:
    """Raise unless `target` is free, or holds the files that a build put there and no others."""
    if not target.exists():
        return
    advice = "nothing there was touched; choose an empty or new folder"
    if not target.is_dir():
        raise HandbookError(f"{target}: is not a folder; {advice}")
    marker = target / MARKER
    ours: set[str] = set()
    if marker.is_file():
        ours = {*marker.read_text(encoding="utf-8", errors="surrogateescape").split("\n"), MARKER}
    foreign = {path for path in _files(target) if path.rpartition("/")[2] not in _LITTER} - ours
    if foreign:
        what = (
            "a file that the build did not put there," if ours else "files that are not a handbook built here, such as"
        )
        raise HandbookError(f"{target}: holds {what} {min(foreign)}; {advice}")


def _files(folder: Path) -> set[str]:
    """Every file and link below `folder`, as a path with slashes."""
    found: set[str] = set()
    for top, folders, files in os.walk(folder):
        links = (name for name in folders if Path(top, name).is_symlink())
        inside = Path(top).relative_to(folder)
        found.update((inside / name).as_posix() for name in (*files, *links))
    return found
