"""Publishing: whatever happens to a build, the site that readers open is whole, and the next build succeeds."""

import errno
import os
import random
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from generator.build import publishing
from generator.build.publishing import MARKER, disk_faults, fresh_site
from generator.errors import HandbookError
from tests.sampling import times
from tests.small_handbook import contents
from tests.waiting import until

ROOT = Path(__file__).parents[2]
KILLS = times(whole=25, sampled=2)


def silent(line: str) -> None:
    raise AssertionError(f"nothing should have been said, but: {line}")


def fill(folder: Path, word: str, files: int = 8) -> None:
    """Write a small fake site in which every file says the same word."""
    (folder / "deep" / "er").mkdir(parents=True)
    for number in range(files):
        (folder / ("deep/er" if number % 2 else ".") / f"{number}.html").write_text(word, "utf-8")
    (folder / "index.html").write_text(word, "utf-8")


def build(target: Path, word: str) -> None:
    with fresh_site(target, silent) as folder:
        fill(folder, word)


def build_and_fail(target: Path, error: BaseException) -> None:
    with fresh_site(target, silent) as folder:
        fill(folder, "failed")
        raise error


def build_while_somebody_saves(target: Path) -> None:
    with fresh_site(target, silent) as folder:
        fill(folder, "two")
        target.mkdir(exist_ok=True)
        (target / "notes.txt").write_text("mine", "utf-8")


def begin_and_fail(target: Path, word: str) -> None:
    """Begin a build, see that readers find the site that says `word`, and fail."""
    with fresh_site(target, silent):
        assert words(target) == {word}
        raise HandbookError("a fault")


def fill_the_disk(target: Path, kilobytes: int) -> None:
    with fresh_site(target, silent) as folder:
        for number in range(1000):
            (folder / f"{number}.html").write_bytes(b"x" * kilobytes * 1024)


def words(target: Path) -> set[str]:
    """Return what the files of the site say; a whole site says one word, and misses no file that its marker lists."""
    listed = (target / MARKER).read_text("utf-8").split("\n")
    assert sorted(listed) == sorted(
        path.relative_to(target).as_posix() for path in target.rglob("*") if path.is_file() and path.name != MARKER
    )
    return {(target / name).read_text("utf-8") for name in listed}


@pytest.fixture(params=["exchange", "two renames"])
def either_way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Run a test with and without a system that can exchange folders."""
    if request.param == "two renames":
        monkeypatch.setattr(publishing, "_exchange", lambda one, other: False)
    elif sys.platform != "linux":
        pytest.skip("only Linux can exchange two folders in one step")
    return str(request.param)


@pytest.mark.usefixtures("either_way")
def test_a_site_is_put_in_place_and_replaced_and_nothing_is_left_beside_it(tmp_path: Path) -> None:
    target = tmp_path / "new" / "site with spaces é"
    for word in ("one", "two", "three"):
        build(target, word)
        assert words(target) == {word}
        assert list(target.parent.iterdir()) == [target]


@pytest.mark.usefixtures("either_way")
def test_an_empty_folder_may_be_the_target(tmp_path: Path) -> None:
    target = tmp_path / "site"
    target.mkdir()
    build(target, "one")
    assert words(target) == {"one"}


def test_linux_exchanges_the_two_folders_in_one_step(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    if sys.platform != "linux":
        pytest.skip("only Linux can exchange two folders in one step")
    build(tmp_path / "site", "one")
    monkeypatch.setattr(Path, "rename", lambda *_: pytest.fail("the site was taken away for a moment"))
    build(tmp_path / "site", "two")
    assert words(tmp_path / "site") == {"two"}


@pytest.mark.usefixtures("either_way")
@pytest.mark.parametrize("error", [HandbookError("a fault"), ValueError("a mistake"), KeyboardInterrupt()])
def test_a_build_that_fails_changes_nothing(error: BaseException, tmp_path: Path) -> None:
    target = tmp_path / "site"
    build(target, "one")
    before = contents(target)
    with pytest.raises(type(error)):
        build_and_fail(target, error)
    assert contents(target) == before
    assert list(tmp_path.iterdir()) == [target]


def _folder_of_somebody_else(target: Path) -> None:
    target.mkdir()
    (target / "holiday.txt").write_text("mine", "utf-8")


def _file(target: Path) -> None:
    target.write_text("mine", "utf-8")


def _our_site_and_a_file(target: Path) -> None:
    build(target, "one")
    (target / "deep" / "notes.txt").write_text("mine", "utf-8")


def _our_site_and_a_link(target: Path) -> None:
    build(target, "one")
    (target / "deep" / "link").symlink_to(ROOT, target_is_directory=True)


def _workshop_of_somebody_else(target: Path) -> None:
    workshop = target.with_name(f".{target.name}.building")
    workshop.mkdir()
    (workshop / "mine.txt").write_text("mine", "utf-8")


FOREIGN = {
    "holds files that are not a handbook built here, such as holiday.txt": _folder_of_somebody_else,
    "is not a folder": _file,
    "holds a file that the build did not put there, deep/notes.txt": _our_site_and_a_file,
    "holds a file that the build did not put there, deep/link": _our_site_and_a_link,
    "is in the way of the build": _workshop_of_somebody_else,
}


@pytest.mark.parametrize(("problem", "make"), FOREIGN.items())
def test_what_is_not_ours_is_refused_and_not_touched(
    problem: str, make: Callable[[Path], None], tmp_path: Path
) -> None:
    make(tmp_path / "site")
    before = contents(tmp_path)
    with pytest.raises(HandbookError, match=problem) as caught, fresh_site(tmp_path / "site", silent):
        pytest.fail("the build should not have begun")
    assert "\n" not in str(caught.value)
    assert contents(tmp_path) == before


@pytest.mark.usefixtures("either_way")
@pytest.mark.parametrize("there_before", [True, False])
def test_a_file_that_is_put_there_during_a_build_is_not_lost(there_before: bool, tmp_path: Path) -> None:
    if there_before:
        build(tmp_path / "site", "one")
    with pytest.raises(HandbookError, match=r"holds .*notes\.txt; nothing there was touched"):
        build_while_somebody_saves(tmp_path / "site")
    assert (tmp_path / "site" / "notes.txt").read_text("utf-8") == "mine"
    assert (tmp_path / "site" / "index.html").exists() == there_before
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_no_site_is_built_within_another(tmp_path: Path) -> None:
    """The next build of the outer one would refuse what it did not put there."""
    build(tmp_path / "site", "one")
    with pytest.raises(HandbookError, match=r"deep.in: lies in .*site, a published site; choose a folder outside it"):
        build(tmp_path / "site" / "deep" / "in", "two")
    build(tmp_path / "site", "three")


def test_what_file_managers_leave_behind_is_no_reason_to_refuse(tmp_path: Path) -> None:
    build(tmp_path / "site", "one")
    (tmp_path / "site" / "deep" / ".DS_Store").write_bytes(b"")
    build(tmp_path / "site", "two")
    assert words(tmp_path / "site") == {"two"}


def test_a_link_to_a_folder_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "far").mkdir()
    (tmp_path / "site").symlink_to(tmp_path / "far", target_is_directory=True)
    build(tmp_path / "site", "one")
    assert (tmp_path / "site").is_symlink()
    assert words(tmp_path / "far") == {"one"}


@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EACCES, errno.EROFS])
def test_a_disk_that_refuses_gives_one_clear_line(code: int, tmp_path: Path) -> None:
    build(tmp_path / "site", "one")
    with pytest.raises(HandbookError) as caught:
        build_and_fail(tmp_path / "site", OSError(code, os.strerror(code), "page.html"))
    assert str(caught.value).startswith(f"page.html: {os.strerror(code)}; the site at {tmp_path / 'site'} is as it was")
    assert words(tmp_path / "site") == {"one"}


@pytest.mark.parametrize("error", [BrokenPipeError(errno.EPIPE, "Broken pipe"), FileNotFoundError(errno.ENOENT, "no")])
def test_an_error_that_no_disk_made_is_not_called_one(error: OSError, tmp_path: Path) -> None:
    build(tmp_path / "site", "one")
    with pytest.raises(type(error)) as caught:
        build_and_fail(tmp_path / "site", error)
    assert caught.value is error
    assert words(tmp_path / "site") == {"one"}


def test_a_parent_that_is_a_file_gives_one_clear_line(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine", "utf-8")
    with pytest.raises(HandbookError, match=r"file: .*is as it was before; choose another folder, or move what is"):
        build(tmp_path / "file" / "site", "one")


def test_a_whole_disk_is_no_folder_for_a_site() -> None:
    root = Path(Path.cwd().anchor)
    with pytest.raises(HandbookError, match="is a whole disk; name a folder on it, such as"):
        build(root, "one")


@pytest.mark.skipif(os.name != "posix", reason="a disk is a letter there")
def test_where_a_disk_is_mounted_is_no_folder_for_a_site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(publishing.os.path, "ismount", lambda path: path == tmp_path)  # type: ignore[attr-defined]
    with pytest.raises(HandbookError, match=r"is a whole disk; name a folder on it, such as .*handbook$"):
        build(tmp_path, "any")


def test_what_an_earlier_build_left_and_cannot_be_deleted_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As where a reader on Windows has a file of it open."""
    left = tmp_path / ".site.building" / "previous"
    left.mkdir(parents=True)
    (tmp_path / "site").mkdir()
    monkeypatch.setattr(publishing.shutil, "rmtree", lambda *_, **__: None)  # type: ignore[attr-defined]
    with pytest.raises(HandbookError) as refused:
        build(tmp_path / "site", "any")
    assert str(refused.value) == (f"{left.parent}: cannot be cleared; close what shows the handbook, or delete it")


def test_a_name_that_is_too_long_gives_one_clear_line(tmp_path: Path) -> None:
    with pytest.raises(HandbookError, match=r"too long; .*is as it was before; choose another folder") as caught:
        build(tmp_path / ("s" * 300), "one")
    assert "\n" not in str(caught.value)


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A real disk with room for 400 kilobytes."""
    disk = tmp_path / "disk"
    disk.mkdir()
    made = (
        subprocess.run(
            ["mount", "-t", "tmpfs", "-o", "size=400k", "tmpfs", str(disk)], capture_output=True, text=True, check=False
        )
        if sys.platform == "linux"
        else None
    )
    if made is None or made.returncode:
        pytest.skip(f"no small disk can be mounted here: {made.stderr.strip() if made else 'not Linux'}")
    yield disk
    subprocess.run(["umount", str(disk)], check=True)


@pytest.mark.parametrize("kilobytes", [1, 7, 40])
def test_a_full_disk_leaves_the_old_site_and_the_next_build_succeeds(small_disk: Path, kilobytes: int) -> None:
    target = small_disk / "site"
    build(target, "one")
    before = contents(target)
    with pytest.raises(HandbookError, match="No space left on device") as caught:
        fill_the_disk(target, kilobytes)
    assert "\n" not in str(caught.value)
    assert contents(target) == before
    assert list(small_disk.iterdir()) == [target]
    build(target, "two")
    assert words(target) == {"two"}


def test_of_a_copy_the_disk_is_named_that_is_full(tmp_path: Path) -> None:
    with pytest.raises(HandbookError, match=r"^copy: full; "), disk_faults(tmp_path):
        raise OSError(errno.ENOSPC, "full", "original", None, "copy")


ENDLESS = """
import sys
from itertools import count
from pathlib import Path
from generator.build import publishing
from tests.build.test_publishing import fill
if sys.argv[2] == "two renames":
    publishing._exchange = lambda one, other: False
for number in count():
    with publishing.fresh_site(Path(sys.argv[1]), print) as folder:
        fill(folder, f"build {number}", files=30)
    print(number, flush=True)
"""


def start(target: Path, way: str = "exchange") -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-c", ENDLESS, str(target), way], cwd=ROOT, stdout=subprocess.PIPE, text=True
    )


@pytest.mark.skipif(os.name != "posix", reason="SIGKILL is a signal of POSIX systems")
def test_killed_at_any_moment_the_site_is_whole_and_the_next_build_succeeds(either_way: str, tmp_path: Path) -> None:
    target, moments = tmp_path / "site", random.Random(4)
    taken_away = 0
    for _ in range(KILLS):
        process = start(target, either_way)
        assert process.stdout
        process.stdout.readline()
        time.sleep(moments.uniform(0, 0.03))
        process.send_signal(signal.SIGKILL)
        process.wait()
        process.stdout.close()
        before = tmp_path / ".site.building" / "previous"
        if not target.exists():
            taken_away += 1
            (word,) = words(before)
            with pytest.raises(HandbookError, match="a fault"):
                begin_and_fail(target, word)
        assert len(words(target)) == 1
    if either_way == "exchange":
        assert not taken_away
    build(target, "last")
    assert words(target) == {"last"}
    assert list(tmp_path.iterdir()) == [target]


def test_killed_between_the_two_renames_the_next_build_puts_the_old_site_back(tmp_path: Path) -> None:
    target = tmp_path / "site"
    build(target, "one")
    workshop = tmp_path / ".site.building"
    (workshop / "site").mkdir(parents=True)
    target.rename(workshop / "previous")
    with pytest.raises(HandbookError, match="a fault"):
        begin_and_fail(target, "one")
    assert words(target) == {"one"}
    assert list(tmp_path.iterdir()) == [target]


def test_when_the_second_rename_fails_the_old_site_comes_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    target = tmp_path / "site"
    build(target, "one")
    rename = Path.rename

    def failing(self: Path, to: Path) -> Path:
        if self.name == "site" and self.parent.name == ".site.building":
            raise OSError(errno.EACCES, "Permission denied", str(self))
        return rename(self, to)

    monkeypatch.setattr(publishing, "_exchange", lambda one, other: False)
    monkeypatch.setattr(Path, "rename", failing)
    with pytest.raises(HandbookError, match="Permission denied"):
        build(target, "two")
    assert words(target) == {"one"}


def test_builds_at_once_take_turns_and_never_mix(tmp_path: Path) -> None:
    target = tmp_path / "site"
    said: list[str] = []
    seen: list[set[str]] = []

    def publish_one(number: int) -> None:
        with fresh_site(target, said.append, patience=30) as folder:
            fill(folder, f"build {number}")
            until(lambda: len(said) == 3)  # the others have begun to wait
        seen.append(words(target) if number == 0 else set())

    threads = [threading.Thread(target=publish_one, args=(number,)) for number in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(seen) == 4
    assert len(words(target)) == 1
    assert len(said) == 3
    assert all(line.startswith("Another build is writing here; waiting") for line in said)
    assert list(tmp_path.iterdir()) == [target]


def test_two_processes_publish_the_same_site_in_turn(tmp_path: Path) -> None:
    target = tmp_path / "site"
    one, two = start(target), start(target)
    assert one.stdout
    assert two.stdout
    for process in (one, two):
        process.stdout.readline()  # type: ignore[union-attr]
    whole = 0
    for _ in range(200):
        try:
            whole += len({path.read_text("utf-8") for path in (target / "deep" / "er").iterdir()}) >= 1
        except FileNotFoundError:
            continue  # a reader of this kind looks at a folder that is exchanged under its hands
    for process in (one, two):
        process.kill()
        process.wait()
        process.stdout.close()  # type: ignore[union-attr]
    assert whole
    assert len(words(target)) == 1
    build(target, "last")
    assert words(target) == {"last"}


def test_waiting_in_vain_ends_with_one_clear_line(tmp_path: Path) -> None:
    said: list[str] = []
    with fresh_site(tmp_path / "site", silent) as folder:
        with (
            pytest.raises(HandbookError, match=r"\.site\.lock: another build has been writing here for 0\.3 seconds"),
            fresh_site(tmp_path / "site", said.append, patience=0.3),
        ):
            pytest.fail("two builds at once")
        fill(folder, "one")
    assert words(tmp_path / "site") == {"one"}
    assert len(said) == 1


@pytest.mark.skipif(os.name != "posix", reason="there are no such pipes")
def test_a_pipe_that_is_called_as_the_lock_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / ".site.lock")
    build(tmp_path / "site", "one")
    assert words(tmp_path / "site") == {"one"}


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a system that forks")
def test_a_child_that_outlives_a_killed_build_does_not_keep_the_lock(tmp_path: Path) -> None:
    script = (
        "import os, sys, time; from pathlib import Path; from generator.build.publishing import fresh_site\n"
        "with fresh_site(Path(sys.argv[1]), print):\n"
        "    child = os.fork()\n"
        "    print(os.getpid(), flush=True) if not child else None\n"
        "    time.sleep(60)\n"
    )
    process = subprocess.Popen(
        [sys.executable, "-c", script, str(tmp_path / "site")], cwd=ROOT, stdout=subprocess.PIPE, text=True
    )
    assert process.stdout
    child = int(process.stdout.readline())
    process.kill()
    process.wait()
    process.stdout.close()
    try:
        build(tmp_path / "site", "one")
    finally:
        os.kill(child, signal.SIGKILL)
    assert words(tmp_path / "site") == {"one"}
