"""The files of a folder, with names that are safe on every system.

Hidden files and what editors and file managers drop are ignored; everything else that is not a file
of the wanted kind in its place is named as a fault. Links are refused, so nothing outside is read.
"""

import os
from collections.abc import Iterator
from itertools import islice
from pathlib import Path

from generator.errors import Fault
from generator.source.fields import slug_fault, slug_like
from generator.source.reading import printable, refused

MOST_FILES = 2000
_DROPPINGS = frozenset(("thumbs.db", "desktop.ini"))

# The path of a file below a folder, such as ("as-it-lies", "step.toml").
Parts = tuple[str, ...]


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
        raise refused(shown, "is a link", "put the folder itself there")
    if not folder.is_dir():
        raise refused(shown, "is not a folder", "take it away, or make a folder of that name")
    try:
        return sorted(path.name for path in folder.iterdir() if not is_dropping(path.name))
    except OSError as error:
        raise refused(shown, f"cannot be opened ({error.strerror})", "check its rights") from None


def files_in(folder: Path, shown: str, ending: str, depths: range) -> list[Parts | Fault]:
    """The files with an ending such as ".toml", sorted, and the faults between them.

    `depths` says how many folders deep they may lie.
    """
    found = list(islice(_walk(folder, shown, ending, depths), MOST_FILES + 1))
    if len(found) > MOST_FILES:
        raise refused(shown, f"holds more than {MOST_FILES} files", "check that it is the right folder")
    return found


def _walk(folder: Path, shown: str, ending: str, depths: range, above: Parts = ()) -> Iterator[Parts | Fault]:
    for name in entry_names(folder, shown):
        path, label, parts = folder / name, f"{shown}/{shown_name(name)}", (*above, name)
        stem = name[: -len(ending)]
        if path.is_symlink():
            yield Fault.of_file(label, "is a link", "put the file itself there")
        elif path.is_dir():
            if problem := slug_fault(name):
                yield _rename(label, problem, slug_like(name))
            elif len(parts) >= depths.stop - 1:
                remedy = "move its files up, or take it away"
                yield Fault.of_file(label, "is a folder where there should be none", remedy)
            else:
                yield from _walk(path, label, ending, depths, parts)
        elif not name.lower().endswith(ending):
            yield Fault.of_file(label, f"is not a {ending} file", "move it elsewhere")
        elif problem := slug_fault(stem) or ("" if name.endswith(ending) else f"does not end in {ending}"):
            yield _rename(label, problem, slug_like(stem) + ending)
        elif len(parts) not in depths:
            yield Fault.of_file(label, "lies outside of any folder", "move it into the folder of a step")
        else:
            yield parts


def _rename(shown: str, problem: str, better: str) -> Fault:
    return Fault.of_file(shown, problem, f"rename it, such as {better}")
