"""Files put into a folder."""

import shutil
from collections.abc import Iterable
from pathlib import Path

Files = Iterable[tuple[str, bytes]]


def stage(folder: Path, files: Files) -> None:
    """Make a folder hold exactly these files, by path."""
    if folder.exists():
        shutil.rmtree(folder)
    write_files(folder, files)


def write_files(folder: Path, files: Files) -> None:
    """Put files, by path, into a folder."""
    for path, content in files:
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content)
