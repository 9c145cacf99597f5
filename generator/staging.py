"""The Markdown and figures that MkDocs reads, in a folder that may be thrown away at any time."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path


def stage(docs: Path, files: Mapping[str, bytes]) -> None:
    """Make a folder hold exactly these files, by path; files that are as they should be are not touched."""
    docs.mkdir(parents=True, exist_ok=True)
    for file in docs.rglob("*"):
        if file.is_file() and file.relative_to(docs).as_posix() not in files:
            file.unlink()
    for path, content in files.items():
        file = docs / path
        if not (file.is_file() and file.read_bytes() == content):
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(content)
