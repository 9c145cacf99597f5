"""A live preview: a site shown on this machine alone, which reloads by itself and shows faults while there are any.

Only GET and HEAD are answered, and only if the request names this machine as its host. So no page from elsewhere can
read the preview by having its own host name resolved to this machine.
"""

import os
import sys
import threading
import time
from collections.abc import Iterator, Sequence
from contextlib import suppress
from html import escape
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any, NamedTuple, Self
from urllib.parse import unquote

from generator.errors import HandbookError
from generator.site.servers import TYPES
from generator.source.library import IN_A_SCHOOL_FOLDER

HOST = "127.0.0.1"
_NAMES = (HOST, "localhost")  # what browsers call this machine
_VERSION = "/preview-version"
_OWN = ("/preview.js", "/preview.css")
_HERE = Path(__file__).parent
_PAGE = "text/html; charset=utf-8"
_POLL = 0.05  # seconds after which a preview that was told to end does so
# Only these parts of a folder are watched, because only these are read.
_READ = (*IN_A_SCHOOL_FOLDER, "en")


class PreviewState(NamedTuple):
    """What is shown: a version, new with every build and "" before the first, and what is wrong."""

    version: str = ""
    faults: str = ""


class Preview(ThreadingHTTPServer):
    """Serves the site in a folder for the length of a block. Raises HandbookError if the port is taken."""

    daemon_threads = True
    allow_reuse_address = os.name != "nt"

    def __init__(self, site: Path, port: int) -> None:
        self._site = site
        self.shown = PreviewState()
        try:
            super().__init__((HOST, port), _Answer)
        except OSError as error:
            raise HandbookError(f"port {port}: cannot be used ({error.strerror}); choose another with --port") from None

    def __enter__(self) -> Self:
        threading.Thread(target=self.serve_forever, args=[_POLL], daemon=True).start()
        return self

    def __exit__(self, *_: object) -> None:
        self.shutdown()
        self.server_close()

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Say nothing of a browser that goes elsewhere before it has received everything."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)

    @property
    def address(self) -> str:
        return f"http://{HOST}:{self.server_port}/"

    def show(self, faults: str = "") -> None:
        """Show the site as it is now, or what is wrong instead; pages that are open reload."""
        self.shown = PreviewState(str(time.time_ns()), faults)

    def answer(self, path: str) -> tuple[HTTPStatus, str, bytes]:
        """Status, kind and content for the path of an address."""
        shown = self.shown
        if path == _VERSION:
            return HTTPStatus.OK, "text/plain", shown.version.encode()
        if path.endswith("/"):
            path += "index.html"
        status, kind = HTTPStatus.OK, TYPES.get(Path(path).suffix.removeprefix("."), "application/octet-stream")
        if kind.startswith("text/"):
            kind += "; charset=utf-8"
        if kind == _PAGE and not shown.version:
            content = _page("The handbook is being built", "")
        elif kind == _PAGE and shown.faults:
            content = _page("Something is wrong", shown.faults)
        elif (found := _file(_HERE if path in _OWN else self._site, path)) is not None:
            content = found
        else:
            status, kind, content = HTTPStatus.NOT_FOUND, _PAGE, _page("This page is not in the handbook", path)
        return status, kind, _with_script(content, shown) if kind == _PAGE else content


class _Answer(BaseHTTPRequestHandler):
    server: Preview

    def do_GET(self) -> None:
        if self.headers.get("Host", "").partition(":")[0].lower() not in _NAMES:
            self.send_error(HTTPStatus.MISDIRECTED_REQUEST)
            return
        status, kind, content = self.server.answer(unquote(self.path.partition("?")[0]))
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(content)))
        self.send_header("Cache-Control", "no-store")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.end_headers()
        if self.command == "GET":
            self.wfile.write(content)

    do_HEAD = do_GET  # noqa: N815 - named by the library

    def log_message(self, *_: object) -> None:
        """The terminal is for builds."""


def changes(folders: Sequence[Path], pause: float = 0.3) -> Iterator[None]:
    """Yields at once, and then whenever files of a handbook or school have changed and stayed so for one `pause`."""
    told: object = None
    before: object = None
    while True:
        now = _state(folders)
        if now == before and now != told:
            told = now
            yield
        before = now
        time.sleep(pause)


def _state(folders: Sequence[Path]) -> dict[str, tuple[int, int]]:
    """Size and time of every file that is read for a handbook."""
    found: dict[str, tuple[int, int]] = {}
    for part in (folder / name for folder in folders for name in _READ):
        inside = (Path(place, name) for place, _, names in os.walk(part) for name in names)
        for file in (part, *inside):
            with suppress(OSError):
                status = file.lstat()
                found[str(file)] = (status.st_mtime_ns, status.st_size)
    return found


def _file(site: Path, path: str) -> bytes | None:
    """The bytes of a file of the site; None for one that is not there or lies outside."""
    try:
        file = (site / path.lstrip("/")).resolve()
        return file.read_bytes() if file.is_relative_to(site.resolve()) else None
    except (OSError, ValueError):
        return None


def _page(title: str, words: str) -> bytes:
    lines = "".join(f"<p>{escape(line)}</p>" for line in words.splitlines())
    page = (_HERE / "preview.html").read_text("utf-8")
    return page.format(title=title, lines=lines).encode("utf-8", "replace")


def _with_script(page: bytes, shown: PreviewState) -> bytes:
    before, end, after = page.rpartition(b"</body>")
    script = f'<script src="/preview.js" data-version="{shown.version}"></script>'.encode()
    return before + script + end + after
