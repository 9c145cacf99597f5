"""The files that people wrote: those of the stock handbook, and a school's folder laid over it.

A school's file at the path of one of ours replaces it, any other is added. Hidden files and those that editors and file
managers leave behind are ignored; anything else that is not a file of the wanted kind in its place is a fault. Names
must be safe on every system. Links are refused, so that nothing outside is read.
"""

import os
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from generator.errors import Fault, Faults
from generator.source.fields import slug_fault, slug_like
from generator.source.reading import decode, printable, read_bytes, refused

_JUNK = frozenset(("thumbs.db", "desktop.ini"))

# The path of a file below a folder, such as ("as-it-lies", "step.toml").
Parts = tuple[str, ...]


@dataclass(frozen=True)
class Layer:
    """One of the two folders. Faults name its files <folder>/<path>; a school's own "handbook" with its parent."""

    folder: Path
    from_school: bool

    @property
    def shown(self) -> str:
        folder = Path(os.path.abspath(self.folder))  # noqa: PTH100 - follows no link
        is_like_ours = self.from_school and folder.name == "handbook"
        return shown_name(f"{folder.parent.name}/{folder.name}".lstrip("/") if is_like_ours else folder.name)

    def named(self, *parts: str) -> str:
        return "/".join((self.shown, *parts))


@dataclass(frozen=True)
class Source:
    """One file and the layer it comes from; `replaces` tells whether a lower layer has it too."""

    parts: Parts
    path: Path
    file: str
    from_school: bool
    replaces: bool

    def text(self) -> str:
        return decode(read_bytes(self.path, self.file), self.file)


def overlaid(layers: Iterable[Layer], kind: str, ending: str, depths: range, faults: Faults) -> list[Source]:
    """The files of one kind ("lessons", "pages"), sorted by their path below it; later layers win."""
    files: dict[Parts, Source] = {}
    for layer in layers:
        ours_by_language = kind == "pages" and not layer.from_school
        place = f"en/{kind}" if ours_by_language else kind
        with faults.gathered():
            for parts in _walk(layer.folder / place, layer.named(place), ending, depths, faults):
                path = layer.folder.joinpath(place, *parts)
                files[parts] = Source(parts, path, layer.named(place, *parts), layer.from_school, parts in files)
    return [files[parts] for parts in sorted(files)]


def shown_name(name: str, most: int = 100) -> str:
    """A file's name as faults show it, also where it is no text."""
    return printable(os.fsencode(name).decode("utf-8", "backslashreplace"), most)


def is_junk(name: str) -> bool:
    return name.startswith((".", "~", "#")) or name.endswith(("~", ".swp", ".bak")) or name.lower() in _JUNK


def entry_names(folder: Path, shown: str) -> list[str]:
    """The names in a folder, sorted and without junk files; none if there is no such folder.

    Raises SourceError for a link and for what is no folder.
    """
    if not os.path.lexists(folder):
        return []
    if folder.is_symlink():
        raise refused(shown, "is a link", "put the folder itself there")
    if not folder.is_dir():
        raise refused(shown, "is not a folder", "take it away, or make a folder of that name")
    try:
        paths = [path for path in folder.iterdir() if not is_junk(path.name)]
        for path in paths:
            path.lstat()  # some folders may be listed but not entered
        return sorted(path.name for path in paths)
    except OSError as error:
        raise refused(shown, f"cannot be opened ({error.strerror})", "check its rights") from None


def _walk(folder: Path, shown: str, ending: str, depths: range, faults: Faults, above: Parts = ()) -> Iterator[Parts]:
    """The files with an ending such as ".toml"; whatever else lies there is a fault.

    `depths` says how many folders deep they may lie.
    """
    for name in entry_names(folder, shown):
        path, label, parts = folder / name, f"{shown}/{shown_name(name)}", (*above, name)
        stem = name[: -len(ending)]
        problem = remedy = ""
        if path.is_symlink():
            problem, remedy = "is a link", f"put the {'file' if '.' in name else 'folder'} itself there"
        elif path.is_dir():
            if problem := slug_fault(name):
                remedy = f"rename it, such as {slug_like(name)}"
            elif len(parts) >= depths.stop - 1:
                problem, remedy = "is a folder where there should be none", "move its files up, or take it away"
            else:
                with faults.gathered():
                    yield from _walk(path, label, ending, depths, faults, parts)
        elif not name.lower().endswith(ending):
            whole, _, added = label.rpartition(".")
            problem = f"is not a {ending} file"
            remedy = f"take .{added} off its name" if whole.endswith(ending) else "move it elsewhere"
        elif problem := slug_fault(stem) or ("" if name.endswith(ending) else f"does not end in {ending}"):
            remedy = f"rename it, such as {slug_like(stem)}{ending}"
        elif len(parts) not in depths:
            problem, remedy = "lies outside of any folder", "move it into the folder of a step"
        else:
            yield parts
        if problem:
            faults.append(Fault.of_file(label, problem, remedy))
