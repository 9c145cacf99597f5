"""Cases as data: every folder below invalid/ and valid/ is one case.

A case holds `school/`, laid over the handbook in stock/, or a whole `handbook/`, or both, and in
`expected.txt` what comes of it. Files that cannot be kept in a repository on every system (links,
reserved names, large files) are described in `files.toml`, one [[file]] each:

    path        where it goes in the case; `path_hex` where the name is no text
    text        what is in it, and after that `repeat`, `times` over
    link        or: what it is a symbolic link to
    folder      or: true for an empty folder
    pipe        or: true for a named pipe
"""

import os
import shutil
import tomllib
from pathlib import Path
from typing import Any, NamedTuple

import pytest

HERE = Path(__file__).parent
STOCK = HERE / "stock"
EXPECTED = "expected.txt"

needs_posix = pytest.mark.skipif(os.name == "nt", reason="links, pipes and such names cannot be made on Windows")


class Laid(NamedTuple):
    """A case laid out on disk: what `load` takes."""

    handbook: Path
    school: Path | None


def case_folders(kind: str) -> list[Path]:
    return sorted(path for path in (HERE / kind).iterdir() if path.is_dir())


def lay_out(case: Path, target: Path) -> Laid:
    """Copy a case and make what its files.toml describes."""
    shutil.copytree(case, target, ignore=shutil.ignore_patterns(EXPECTED, "files.toml"))
    described = case / "files.toml"
    if described.exists():
        for file in tomllib.loads(described.read_text("utf-8"))["file"]:
            _make(target, file)
    handbook, school = target / "handbook", target / "school"
    return Laid(handbook if handbook.exists() else STOCK, school if os.path.lexists(school) else None)


def _make(target: Path, file: dict[str, Any]) -> None:
    name = os.fsdecode(bytes.fromhex(file["path_hex"])) if "path_hex" in file else file["path"]
    path = target / name
    path.parent.mkdir(parents=True, exist_ok=True)
    if "link" in file:
        path.symlink_to(file["link"])
    elif "folder" in file:
        path.mkdir()
    elif "pipe" in file:
        os.mkfifo(path)
    else:
        path.write_bytes((file.get("text", "") + file.get("repeat", "") * file.get("times", 0)).encode())
