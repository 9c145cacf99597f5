"""Results kept from build to build, in one file that may be deleted or damaged at any time without harm."""

import gzip
import hashlib
import zlib
from contextlib import suppress
from pathlib import Path
from typing import Self


def key_of(*parts: object) -> str:
    """The key of a result: a digest of the repr of everything that it depends on."""
    return hashlib.sha256("\x00".join(map(repr, parts)).encode()).hexdigest()


def digests(folder: Path) -> dict[str, str]:
    """The digest of every file below a folder but what Python compiled, in order of path; none if it is not there."""
    files = sorted(file for file in folder.rglob("*") if file.parent.name != "__pycache__" and file.is_file())
    return {file.relative_to(folder).as_posix(): hashlib.sha256(file.read_bytes()).hexdigest() for file in files}


class Results:
    """Bytes by key in one file: loaded at the start, saved at the end of a `with` block if anything was added.

    The file's first line is `made_by`, a digest of the code that worked the results out; each other line is a result.
    gzip is used for its checksum only, without compression. A damaged file, or one of other code, counts as empty.
    Results that the block did not ask for are dropped, unless it failed halfway.
    """

    def __init__(self, file: Path, made_by: str) -> None:
        self._file = file
        self._made_by = made_by.encode() + b"\n"
        self._kept = self._load()
        self._used: dict[str, bytes] = {}
        self._added = False

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, *_: object) -> None:
        if self._added:
            self._save(self._used if kind is None else self._kept | self._used)

    def get(self, key: str) -> bytes | None:
        """What was put under a key; None if there is none."""
        if key in self._kept:
            self._used.setdefault(key, self._kept[key])
        return self._used.get(key)

    def put(self, key: str, result: bytes) -> None:
        """Keep a result of one line, such as JSON."""
        self._used[key] = result
        self._added = True

    def _load(self) -> dict[str, bytes]:
        kept: dict[str, bytes] = {}
        try:
            with gzip.open(self._file) as file:
                if next(file, b"") != self._made_by:
                    return {}
                for line in file:
                    key, _, result = line.rstrip(b"\n").partition(b" ")
                    kept[key.decode()] = result
        except (OSError, EOFError, zlib.error, UnicodeDecodeError):
            return {}
        return kept

    def _save(self, results: dict[str, bytes]) -> None:
        """Replace the file in one step. If it cannot be written, the next build is only slower.

        Results are written one by one, because those of a big handbook would not fit into memory a second time.
        """
        unfinished = self._file.with_suffix(".new")
        try:
            with gzip.GzipFile(unfinished, "wb", compresslevel=0, mtime=0) as file:
                file.write(self._made_by)
                file.writelines(b"%s %s\n" % (key.encode(), result) for key, result in results.items())
            unfinished.replace(self._file)
        except OSError:
            with suppress(OSError):
                unfinished.unlink()
