"""The live preview: who is answered, what is shown, and when it is built again."""

import http.client
import socket
import struct
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.commands.preview import HOST, Preview, changes
from generator.errors import HandbookError

PAGE = "<html><body><p>Hello</p></body></html>"


@pytest.fixture
def site(tmp_path: Path) -> Path:
    folder = tmp_path / "site"
    (folder / "lessons").mkdir(parents=True)
    (folder / "index.html").write_text(PAGE, "utf-8")
    (folder / "lessons" / "one é.html").write_text(PAGE, "utf-8")
    (folder / "style.css").write_text("p { color: black }", "utf-8")
    (tmp_path / "secret.html").write_text("secret", "utf-8")
    return folder


@pytest.fixture
def preview(site: Path) -> Iterator[Preview]:
    with Preview(site, 0) as running:
        yield running


def ask(preview: Preview, path: str, method: str = "GET", **headers: str) -> tuple[int, str, str]:
    """Status, kind and body; the path is sent as it is."""
    connection = http.client.HTTPConnection(HOST, preview.server_address[1], timeout=10)
    connection.putrequest(method, path, skip_host="Host" in headers)
    for name, value in headers.items():
        connection.putheader(name, value)
    connection.endheaders()
    answer = connection.getresponse()
    body = answer.read().decode()
    connection.close()
    if answer.status in (200, 404):  # a browser that kept it would show it again after the next build
        assert answer.getheader("Cache-Control") == "no-store"
    return answer.status, answer.getheader("Content-Type") or "", body


def test_before_the_first_build_a_page_waits(preview: Preview) -> None:
    status, _, body = ask(preview, "/")
    assert status == 200
    assert "being built" in body
    assert 'data-version=""' in body


@pytest.mark.parametrize("path", ["/", "/index.html", "/lessons/one%20%C3%A9.html", "/index.html?x=1"])
def test_a_page_is_shown_and_reloads_by_itself(path: str, preview: Preview) -> None:
    preview.show()
    status, kind, body = ask(preview, path)
    assert (status, kind) == (200, "text/html; charset=utf-8")
    script = f'<script src="/preview.js" data-version="{preview.shown.version}"></script>'
    assert body == PAGE.replace("</body>", f"{script}</body>")
    assert ask(preview, "/preview-version")[2] == preview.shown.version


def test_every_build_is_a_new_version(preview: Preview) -> None:
    versions = set()
    for faults in ("", "", "x", "x"):
        preview.show(faults)
        versions.add(preview.shown.version)
    assert len(versions) == 4


def test_other_files_are_sent_as_they_are(preview: Preview) -> None:
    preview.show("also while something is wrong")
    assert ask(preview, "/style.css") == (200, "text/css; charset=utf-8", "p { color: black }")
    assert ask(preview, "/style.css", method="HEAD") == (200, "text/css; charset=utf-8", "")


def test_faults_are_shown_as_words_on_every_page_until_they_are_mended(preview: Preview) -> None:
    preview.show("one.md:3: <script>hacked</script>; mend it\ntwo.toml: broken & more")
    for path in ("/", "/lessons/nowhere.html"):
        status, _, body = ask(preview, path)
        assert status == 200
        assert "<p>one.md:3: &lt;script&gt;hacked&lt;/script&gt;; mend it</p><p>two.toml: broken &amp; more</p>" in body
        assert body.count("<script") == 1
    preview.show()
    assert "Hello" in ask(preview, "/")[2]


@pytest.mark.parametrize(
    "path",
    [
        *("/../secret.html", "/%2e%2e/secret.html", "/lessons/../../secret.html", "//etc/passwd", "/nowhere.html"),
        *("/..%5csecret.html", "/lessons", "/%00.html", "/" + "a" * 5000 + ".html", "/link.html", "/<script>x.html"),
    ],
)
def test_nothing_outside_the_site_is_shown(path: str, preview: Preview, site: Path) -> None:
    (site / "link.html").symlink_to(site.parent / "secret.html")
    preview.show()
    status, _, body = ask(preview, path)
    assert status == 404
    assert "secret</" not in body
    assert body.count("<script") == 1


@pytest.mark.parametrize(
    "host", ["elsewhere.example", "elsewhere.example:8765", "", "localhost.elsewhere.example", "[localhost]"]
)
def test_who_asks_by_another_name_is_turned_away(host: str, preview: Preview) -> None:
    preview.show()
    status, _, body = ask(preview, "/", Host=host)
    assert status == 421
    assert "Hello" not in body


def test_this_machine_has_two_names(preview: Preview) -> None:
    preview.show()
    port = preview.address.rstrip("/").rpartition(":")[2]
    for name in ("localhost", "LocalHost", HOST):
        for host in (name, f"{name}:{port}"):  # at the usual port browsers leave it out
            assert ask(preview, "/", Host=host)[0] == 200


def test_what_is_no_address_leads_nowhere(preview: Preview) -> None:
    preview.show()
    assert ask(preview, "http://[", Host=HOST)[0] == 404


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "OPTIONS", "TRACE"])
def test_nothing_but_reading_is_answered(method: str, preview: Preview) -> None:
    assert ask(preview, "/", method=method)[0] == 501


def test_a_port_that_is_taken_is_one_line(preview: Preview, site: Path) -> None:
    port = int(preview.address.rstrip("/").rpartition(":")[2])
    with pytest.raises(HandbookError, match=f"port {port}: cannot be used \\([^[]*\\); choose another with --port"):
        Preview(site, port)


def test_every_change_in_what_is_read_is_seen(tmp_path: Path) -> None:
    school, other = tmp_path / "school", tmp_path / "other"
    for folder in (school / "pages", other / "lessons" / "static"):
        folder.mkdir(parents=True)
    page = school / "pages" / "new.md"
    seen = changes([school, other], pause=0.01)
    next(seen)
    for change in (
        lambda: (school / "school.toml").write_text("name = 'x'", "utf-8"),
        lambda: page.write_text("new", "utf-8"),
        lambda: page.write_text("newer", "utf-8"),
        lambda: page.rename(page.with_name("other.md")),
        lambda: (school / "pages" / "other.md").unlink(),
        lambda: (other / "lessons" / "static" / "one.toml").write_text("x", "utf-8"),
    ):
        change()
        next(seen)


def test_nothing_is_built_while_something_still_changes(monkeypatch: pytest.MonkeyPatch) -> None:
    """A file may be half written: what is built is 1 and 4, which are seen twice in a row."""
    states = list("1123445")
    monkeypatch.setattr("generator.commands.preview._state", lambda _: states.pop(0))
    seen = changes([], pause=0)
    next(seen)
    assert states == list("23445")
    next(seen)
    assert states == list("5")


def test_a_browser_that_goes_away_is_not_told_of(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "large.js").write_bytes(bytes(20_000_000))
    with Preview(tmp_path, 0) as preview:
        preview.show()
        running = threading.enumerate()
        host, port = preview.address.removeprefix("http://").rstrip("/").split(":")
        with socket.create_connection((host, int(port))) as browser:
            browser.sendall(f"GET /large.js HTTP/1.0\r\nHost: {host}:{port}\r\n\r\n".encode())
            browser.recv(10)
            browser.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
            answering = [thread for thread in threading.enumerate() if thread not in running]
        assert answering
        for thread in answering:
            thread.join()
    assert capsys.readouterr().err == ""
