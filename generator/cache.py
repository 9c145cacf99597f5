"""Results kept from build to build. The folder may be deleted or damaged at any time without harm."""

from __future__ import annotations

import hashlib
import os
import shutil
import sys
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

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


def installed() -> tuple[str, ...]:
    """Python and every package with its version, as the packages' folders say it: much faster than asking each."""
    found = {info.name for folder in map(Path, sys.path) for info in folder.glob("*.dist-info")}
    return (sys.version, *sorted(found))


@dataclass(frozen=True)
class Cache:
    """A folder of results; each file begins with a digest of its key and the rest, so that no other is taken for it."""

    folder: Path

    def get(self, key: str) -> bytes | None:
        """What was put under a key; nothing if it is not there or not whole."""
        try:
            content = self._file(key).read_bytes()
        except OSError:
            return None
        digest, result = content[:_DIGEST], content[_DIGEST:]
        return result if _digest(key, result) == digest else None

    def put(self, key: str, result: bytes) -> None:
        """Keep a result; a folder that cannot be written is no fault, only slower."""
        file = self._file(key)
        with suppress(OSError):
            file.parent.mkdir(parents=True, exist_ok=True)
            unfinished = file.with_suffix(f".{os.getpid()}")
            unfinished.write_bytes(_digest(key, result) + result)
            unfinished.replace(file)

    def forget_others(self) -> None:
        """Remove what lies beside the folder: results of earlier code, which nothing will ask for again."""
        for other in self.folder.parent.glob("*"):
            if other.name != self.folder.name:
                shutil.rmtree(other, ignore_errors=True)

    def _file(self, key: str) -> Path:
        return self.folder / key[:2] / key


def _digest(key: str, result: bytes) -> bytes:
    return hashlib.sha256(key.encode() + b"\x00" + result).digest()
