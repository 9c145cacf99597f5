"""Results kept from build to build, in one file that may be deleted or damaged at any time without harm."""

from __future__ import annotations

import hashlib
import json
import os
import sys
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path
from types import TracebackType

Packed = bytes | memoryview

_DIGEST = 32


def key_of(*parts: object) -> str:
    """A name for a result, from everything that it depends on; each part must say in its repr all that it is."""
    return hashlib.sha256("\x00".join(map(repr, parts)).encode()).hexdigest()


def fingerprint(folder: Path) -> str:
    """Every file below a folder, by path and content."""
    digest = hashlib.sha256()
    for file in sorted(folder.rglob("*")):
        if file.is_file() and file.suffix != ".pyc":
            digest.update(f"{file.relative_to(folder).as_posix()}\x00{file.stat().st_size}\x00".encode())
            digest.update(file.read_bytes())
    return digest.hexdigest()


def digests(folder: Path) -> dict[str, str]:
    """The digest of every file below a folder, by path."""
    found: dict[str, str] = {}
    for place, _, names in os.walk(folder):
        for file in (Path(place, name) for name in names):
            found[file.relative_to(folder).as_posix()] = hashlib.sha256(file.read_bytes()).hexdigest()
    return found


def installed() -> tuple[str, ...]:
    """Python and every package with its version, as the packages' folders say it: much faster than asking each."""
    found = {info.name for folder in map(Path, sys.path) for info in folder.glob("*.dist-info")}
    return (sys.version, *sorted(found))


class Cache:
    """Results by key, read from a file at once and, at the end of a `with` block, written there if there are new ones.

    The file begins with a digest of the rest and of `made_by`, which says what worked the results out: a damaged
    file, or one of other code, counts as none. It holds all that was asked for since it was read, and of the rest no
    more than that takes room.
    """

    def __init__(self, file: Path, made_by: str) -> None:
        self._file = file
        self._made_by = made_by.encode()
        self._kept = self._read()
        self._used: dict[str, Packed] = {}
        self._new = False

    def __enter__(self) -> Cache:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        if self._new:
            self._write()

    def get(self, key: str) -> bytes | None:
        """What was put under a key, or nothing."""
        found = self._used.get(key, self._kept.get(key))
        if found is None:
            return None
        self._used[key] = found
        return bytes(found)

    def put(self, key: str, result: bytes) -> None:
        """Keep a result."""
        self._used[key] = result
        self._new = True

    def _read(self) -> dict[str, Packed]:
        """What the file holds: its digest, a line of keys and lengths, and all results one after the other."""
        try:
            content = self._file.read_bytes()
        except OSError:
            return {}
        view = memoryview(content)
        if self._digest([view[_DIGEST:]]) != content[:_DIGEST]:
            return {}
        start = content.index(b"\n", _DIGEST) + 1
        kept: dict[str, Packed] = {}
        for key, length in json.loads(content[_DIGEST:start]).items():
            kept[key] = view[start : start + length]
            start += length
        return kept

    def _write(self) -> None:
        """Take the file's place in one step; a folder that cannot be written is no fault, only slower."""
        packed = dict(self._used)
        room = sum(map(len, packed.values()))
        for key, result in self._kept.items():
            room -= 0 if key in packed else len(result)
            if room < 0:
                break
            packed.setdefault(key, result)
        lengths = json.dumps({key: len(result) for key, result in packed.items()})
        parts = [lengths.encode(), b"\n", *packed.values()]
        unfinished = self._file.with_suffix(".new")
        try:
            self._file.parent.mkdir(parents=True, exist_ok=True)
            with unfinished.open("wb") as file:
                file.writelines((self._digest(parts), *parts))
            unfinished.replace(self._file)
        except OSError:
            with suppress(OSError):
                unfinished.unlink()

    def _digest(self, parts: Iterable[Packed]) -> bytes:
        digest = hashlib.sha256(self._made_by)
        for part in parts:
            digest.update(part)
        return digest.digest()
