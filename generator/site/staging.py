"""Files put into a folder."""

from collections.abc import Iterable
from pathlib import Path

Files = Iterable[tuple[str, bytes]]


def stage(folder: Path, files: Files) -> None:
    """Make a folder hold exactly these files, by path; files that are as they should be are not touched."""
    others = {file for file in folder.rglob("*") if file.is_file()}
    for path, content in files:
        file = folder / path
        if file not in others or file.read_bytes() != content:
            write_files(folder, [(path, content)])
        others.discard(file)
    for file in others:
        file.unlink()


def write_files(folder: Path, files: Files) -> None:
    """Put files, by path, into a folder."""
    for path, content in files:
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content)
