"""Files put into a folder, as few as can be."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

Files = Iterable[tuple[str, bytes]]


def stage(folder: Path, files: Files) -> None:
    """Make a folder hold exactly these files, by path; files that are as they should be are not touched."""
    folder.mkdir(parents=True, exist_ok=True)
    others = {file for file in folder.rglob("*") if file.is_file()}
    for path, content in files:
        file = folder / path
        others.discard(file)
        if not _holds(file, content):
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(content)
    for file in others:
        file.unlink()


def fill(folder: Path, files: Files, like: Path) -> None:
    """Put files, by path, into a folder.

    A file that stands in the folder `like` just so is linked from there, where the disk can: making a file takes
    many times as long as giving one a second name.
    """
    for path, content in files:
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        if not (_holds(like / path, content) and _linked(like / path, file)):
            file.unlink(missing_ok=True)  # it may be a second name of the old file
            file.write_bytes(content)


def _holds(file: Path, content: bytes) -> bool:
    return file.is_file() and not file.is_symlink() and file.read_bytes() == content


def _linked(old: Path, new: Path) -> bool:
    try:
        os.link(old, new)
    except OSError:
        return False
    return True
