"""The files of a folder, with names that are safe on every system.

Hidden files and what editors and file managers drop are ignored; everything else that is not a file
of the wanted kind in its place is named as a fault. Links are refused, so nothing outside is read.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from generator.errors import Fault, SourceError
from generator.source.fields import slug_fault, slug_like
from generator.source.reading import printable

MOST_FILES = 2000
_DROPPINGS = frozenset(("thumbs.db", "desktop.ini"))


class Found(NamedTuple):
    """A file: its path below the folder, such as ("static", "first.toml"), and where it is on disk."""

    parts: tuple[str, ...]
    path: Path
    shown: str


def shown_name(name: str) -> str:
    """A file's name as faults show it, also where it is no text."""
    return printable(os.fsencode(name).decode("utf-8", "backslashreplace"), most=100)


def is_dropping(name: str) -> bool:
    return name.startswith((".", "~", "#")) or name.endswith(("~", ".swp", ".bak")) or name.lower() in _DROPPINGS


def entry_names(folder: Path, shown: str) -> list[str]:
    """The names in a folder, sorted and without droppings; none if there is no such folder.

    Raises SourceError for a link and for what is no folder.
    """
    if not os.path.lexists(folder):
        return []
    if folder.is_symlink():
        raise SourceError([Fault.of_file(shown, "is a link", "put the folder itself there")])
    if not folder.is_dir():
        raise SourceError([Fault.of_file(shown, "is not a folder", "take it away, or make a folder of that name")])
    try:
        return sorted(path.name for path in folder.iterdir() if not is_dropping(path.name))
    except OSError as error:
        raise SourceError([Fault.of_file(shown, f"cannot be opened ({error.strerror})", "check its rights")]) from None


def files_in(folder: Path, shown: str, ending: str, depths: range) -> tuple[list[Found], list[Fault]]:
    """All files with an ending such as ".toml", sorted; `depths` says how many folders deep they may lie."""
    found: list[Found] = []
    faults: list[Fault] = []
    for item in _walk(folder, shown, ending, depths, ()):
        if isinstance(item, Fault):
            faults.append(item)
        else:
            found.append(item)
        if len(found) + len(faults) > MOST_FILES:
            raise SourceError(
                [Fault.of_file(shown, f"holds more than {MOST_FILES} files", "check that it is the right folder")]
            )
    return found, faults


def _walk(folder: Path, shown: str, ending: str, depths: range, above: tuple[str, ...]) -> Iterator[Found | Fault]:
    for name in entry_names(folder, shown):
        path, label = folder / name, f"{shown}/{shown_name(name)}"
        parts = (*above, name)
        if path.is_dir() and not path.is_symlink():
            if problem := slug_fault(name):
                yield _rename(label, problem, slug_like(name))
            elif len(parts) >= depths.stop - 1:
                yield Fault.of_file(
                    label, "is a folder where there should be none", "move its files up, or take it away"
                )
            else:
                yield from _walk(path, label, ending, depths, parts)
        else:
            yield _checked(Found(parts, path, label), ending, depths)


def _checked(file: Found, ending: str, depths: range) -> Found | Fault:
    name = file.parts[-1]
    stem = name[: -len(ending)]
    if file.path.is_symlink():
        return Fault.of_file(file.shown, "is a link", "put the file itself there")
    if not name.lower().endswith(ending):
        return Fault.of_file(file.shown, f"is not a {ending} file", "move it elsewhere")
    if problem := slug_fault(stem) or ("" if name.endswith(ending) else f"does not end in {ending}"):
        return _rename(file.shown, problem, slug_like(stem) + ending)
    if len(file.parts) not in depths:
        return Fault.of_file(file.shown, "lies outside of any folder", "move it into the folder of a step")
    return file


def _rename(shown: str, problem: str, better: str) -> Fault:
    return Fault.of_file(shown, problem, f"rename it, such as {better}")
