"""Firefox and WebKitGTK, each driven over its own door: a socket called Marionette, and WebDriver over HTTP.

What is used of the two takes fewer lines than a library for either.
"""

import json
import os
import socket
import subprocess
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple
from urllib.request import Request, urlopen

from tests.waiting import free_port, is_answered, until

FIREFOX = "firefox-esr"
WEBKIT = "WebKitWebDriver"
SCREEN = "Xvfb"
SECONDS = 120
FROM_CONSOLE = "return Services.console.getMessageArray().map(one => String(one.message))"


class Other(NamedTuple):
    """A browser that is not Chromium.

    ask: sends a command of the WebDriver standard and gives its value
    console: every line that its console has shown; None in a browser that does not tell
    printed: the open page as a PDF file in base64; None in a browser that cannot be told to print
    """

    ask: Callable[[str, dict[str, Any]], Any]
    console: Callable[[], list[str]] | None
    printed: Callable[[], str] | None

    def open(self, address: str) -> None:
        """Return when the page has loaded."""
        self.ask("url", {"url": "about:blank"})  # else an address of the same page may be answered before it is read
        self.ask("url", {"url": address})

    def run(self, script: str, *given: Any) -> Any:
        """What an async function of the page's own world gives."""
        body = f"const done = arguments[arguments.length - 1]; ({script})(...arguments).then(done, done)"
        return self.ask("execute/async", {"script": body, "args": list(given)})


@contextmanager
def firefox(folder: Path) -> Iterator[Other]:
    """Firefox without a window, its profile in `folder`. The socket takes `length:[0, id, command, body]`."""
    port = free_port()
    profile = folder / "firefox"
    profile.mkdir()
    (profile / "user.js").write_text(f'user_pref("marionette.port", {port});\n')
    flags = ("--marionette", "--remote-allow-system-access", "--headless", "--profile", str(profile))
    quiet = subprocess.DEVNULL
    running = subprocess.Popen([FIREFOX, *flags], stdout=quiet, stderr=quiet)
    names = {"url": "WebDriver:Navigate", "back": "WebDriver:Back", "execute/async": "WebDriver:ExecuteAsyncScript"}
    try:
        until(lambda: is_answered(port))
        with socket.create_connection(("127.0.0.1", port), SECONDS) as door, door.makefile("rb") as coming:

            def message() -> Any:
                length = b""
                while (character := coming.read(1)) != b":":
                    assert character, "Firefox has gone"
                    length += character
                return json.loads(coming.read(int(length)))

            def command(name: str, body: dict[str, Any]) -> Any:
                said = json.dumps([0, 1, name, body]).encode()
                door.sendall(b"%d:%b" % (len(said), said))
                _, _, error, result = message()
                assert error is None, error
                return result.get("value")

            def ask(name: str, body: dict[str, Any]) -> Any:
                return command(names[name], body)

            def console() -> list[str]:
                command("Marionette:SetContext", {"value": "chrome"})
                said = command("WebDriver:ExecuteScript", {"script": FROM_CONSOLE, "args": []})
                command("Marionette:SetContext", {"value": "content"})
                return [str(line) for line in said]

            message()  # what it greets with
            command("WebDriver:NewSession", {"capabilities": {"alwaysMatch": {}}})
            command("WebDriver:SetTimeouts", {"script": SECONDS * 1000})
            yield Other(ask, console, lambda: str(command("WebDriver:Print", {})))
    finally:
        running.terminate()
        running.wait()


@contextmanager
def webkit(folder: Path) -> Iterator[Other]:
    """WebKitGTK's small browser on a screen that nobody sees. It needs no files in `folder`."""
    port = free_port()
    browser = str(next(Path("/usr/lib").glob("*/webkit2gtk-4.*/MiniBrowser")))
    options = {"binary": browser, "args": ["--automation"]}
    screen = subprocess.Popen([SCREEN, "-displayfd", "1"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    assert screen.stdout
    display = {**os.environ, "DISPLAY": f":{screen.stdout.readline().strip()}"}
    running = subprocess.Popen([WEBKIT, f"--port={port}"], stderr=subprocess.DEVNULL, env=display)
    base = f"http://127.0.0.1:{port}/session"

    def post(address: str, body: dict[str, Any]) -> Any:
        request = Request(address, json.dumps(body).encode(), {"Content-Type": "application/json"})
        with urlopen(request, timeout=SECONDS) as answer:
            return json.load(answer)["value"]

    try:
        until(lambda: is_answered(port))
        wanted = {"alwaysMatch": {"webkitgtk:browserOptions": options}}
        session = f"{base}/{post(base, {'capabilities': wanted})['sessionId']}"
        post(f"{session}/timeouts", {"script": SECONDS * 1000})
        yield Other(lambda name, body: post(f"{session}/{name}", body), None, None)
        urlopen(Request(session, method="DELETE"), timeout=SECONDS).close()
    finally:
        for process in (running, screen):
            process.terminate()
            process.wait()


BROWSERS = {"Firefox": ((FIREFOX,), firefox), "WebKitGTK": ((WEBKIT, SCREEN), webkit)}
"""By name: the programs that must be installed, and what starts it with files of its own in a folder."""
