"""Whole builds that are killed, interrupted, out of disk or two at once: readers always find one whole site."""

import os
import random
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from multiprocessing import get_context
from multiprocessing.process import BaseProcess
from pathlib import Path
from typing import NamedTuple

import pytest

from generator.build.straight_line import Request, build
from generator.errors import HandbookError
from tests.conftest import quiet
from tests.sampling import only_in_a_whole_run
from tests.small_handbook import contents, write_small_handbook
from tests.waiting import is_gone, until

KILLS = 12  # after every third a build is let be
EDITIONS = ("amber", "birch")

needs_signals = pytest.mark.skipif(os.name != "posix", reason="these signals are of POSIX systems")

Site = dict[str, bytes]


class Place(NamedTuple):
    """Where builds happen: a small handbook, two schools, and what the finished site of each is."""

    handbook: Path
    schools: dict[str, Path]
    right: dict[str, Site]

    def request(self, edition: str, folder: Path, processes: int = 2) -> Request:
        return Request(self.schools[edition], folder / "site", processes, self.handbook, folder / "workshop")

    def edition_in(self, folder: Path) -> str:
        """Which edition the published site is, byte by byte; fails if it is none of them."""
        found = contents(folder / "site")
        return next(edition for edition in EDITIONS if found == self.right[edition])


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Place]:
    folder = tmp_path_factory.mktemp("interrupted")
    schools = {edition: folder / edition for edition in EDITIONS}
    for edition, school in schools.items():
        school.mkdir()
        (school / "school.toml").write_text(f'name = "The house of {edition}"', "utf-8")
    handbook = write_small_handbook(folder / "handbook")
    with pytest.MonkeyPatch.context() as environment:
        environment.setenv("SOURCE_DATE_EPOCH", "1767225600")
        right: dict[str, Site] = {}
        place = Place(handbook, schools, right)
        for edition in EDITIONS:
            build(place.request(edition, folder / "right"), quiet)
            right[edition] = contents(folder / "right" / "site")
        assert right["amber"] != right["birch"]
        yield place


def begin(request: Request) -> BaseProcess:
    """A build in another process that has loaded everything already, so that every moment is one of the build."""
    process = get_context("fork").Process(target=_build, args=(request,))
    process.start()
    return process


def _build(request: Request) -> None:
    try:
        build(request, quiet)
    except HandbookError:
        sys.exit(1)


def helpers_of(process: BaseProcess) -> list[int]:
    """The processes that a process has started."""
    listed = Path(f"/proc/{process.pid}/task/{process.pid}/children")
    return [int(number) for number in listed.read_text("ascii").split()] if listed.exists() else []


def seconds(action: Callable[[], object]) -> float:
    begun = time.monotonic()
    action()
    return time.monotonic() - begun


@only_in_a_whole_run
@needs_signals
def test_killed_at_any_moment_the_site_is_whole_and_the_next_build_is_right(place: Place, tmp_path: Path) -> None:
    moments = random.Random(7)
    build(place.request("amber", tmp_path), quiet)
    usual = {
        "from scratch": seconds(lambda: build(place.request("birch", tmp_path / "other"), quiet)),
        "with what was kept": seconds(lambda: build(place.request("birch", tmp_path), quiet)),
    }
    assert place.edition_in(tmp_path) == "birch"
    in_time, helpers = 0, set[int]()
    for number in range(KILLS):
        before = place.edition_in(tmp_path)
        after = EDITIONS[1 - EDITIONS.index(before)]
        way = "from scratch" if number % 3 == 0 else "with what was kept"
        if way == "from scratch":
            shutil.rmtree(tmp_path / "workshop")
        process = begin(place.request(after, tmp_path))
        process.join(moments.uniform(0, usual[way]))
        helpers.update(helpers_of(process))
        in_time += process.is_alive()
        process.kill()
        process.join()
        assert place.edition_in(tmp_path) in (before, after)
        if number % 3 == 2:
            build(place.request(before, tmp_path), quiet)
            assert place.edition_in(tmp_path) == before
    assert in_time >= KILLS // 2
    assert {path.name for path in tmp_path.iterdir()} <= {"site", "workshop", "other"}
    until(lambda: all(map(is_gone, helpers)))


@only_in_a_whole_run
def test_what_a_killed_build_left_is_cleared_up_also_where_nothing_has_changed(place: Place, tmp_path: Path) -> None:
    build(place.request("amber", tmp_path), quiet)
    (tmp_path / ".site.building" / "site").mkdir(parents=True)
    (tmp_path / ".site.building" / "site" / "half.html").write_text("half", "utf-8")
    (tmp_path / ".site.lock").touch()
    said: list[str] = []
    build(place.request("amber", tmp_path), said.append)
    assert said[-1] == "Nothing has changed since the last build"
    assert not list(tmp_path.glob(".site.*"))


@only_in_a_whole_run
@needs_signals
def test_interrupted_the_old_site_is_as_it_was_and_nothing_is_left_beside_it(place: Place, tmp_path: Path) -> None:
    build(place.request("amber", tmp_path), quiet)
    for wait in (0.1, 0.4, 0.8):
        shutil.rmtree(tmp_path / "workshop")
        process = begin(place.request("birch", tmp_path))
        process.join(wait)
        if process.pid and process.is_alive():
            os.kill(process.pid, signal.SIGINT)
        process.join()
        assert place.edition_in(tmp_path) == ("amber" if process.exitcode else "birch")
        assert not list(tmp_path.glob(".site.*"))
        build(place.request("amber", tmp_path), quiet)


@only_in_a_whole_run
@needs_signals
@pytest.mark.parametrize("editions", [EDITIONS, EDITIONS[:1] * 2], ids=["two schools", "one school"])
def test_two_builds_at_once_take_turns(editions: tuple[str, ...], place: Place, tmp_path: Path) -> None:
    requests = [place.request(edition, tmp_path) for edition in editions]
    for _ in range(3):
        processes = list(map(begin, requests))
        for process in processes:
            process.join()
        assert [process.exitcode for process in processes] == [0, 0]
        assert place.edition_in(tmp_path) in EDITIONS
        assert not list(tmp_path.glob(".site.*"))


@pytest.fixture
def disk(tmp_path: Path) -> Iterator[Path]:
    """A real disk with room for one site and the workshop, but not for two sites."""
    folder = tmp_path / "disk"
    folder.mkdir()
    if sys.platform != "linux" or mount(folder, "size=12m"):
        pytest.skip("no small disk can be mounted here")
    yield folder
    subprocess.run(["umount", str(folder)], check=True)


def mount(folder: Path, options: str) -> int:
    order = ["mount", "-t", "tmpfs", "-o", options, "tmpfs", str(folder)]
    return subprocess.run(order, capture_output=True, check=False).returncode


def fill(file: Path) -> None:
    """Write until there is no more room, to the last byte."""
    with file.open("wb", buffering=0) as filler, suppress(OSError):
        while filler.write(bytes(4096)):
            pass


@only_in_a_whole_run
@pytest.mark.parametrize("full", ["in the end", "from the beginning", "without a workshop"])
def test_a_full_disk_leaves_the_old_site_and_the_next_build_is_right(full: str, place: Place, disk: Path) -> None:
    build(place.request("amber", disk), quiet)
    if full == "without a workshop":
        shutil.rmtree(disk / "workshop")
    if full != "in the end":
        fill(disk / "filler")
    with pytest.raises(HandbookError, match="No space left on device") as refused:
        build(place.request("birch", disk), quiet)
    assert "\n" not in str(refused.value)
    assert place.edition_in(disk) == "amber"
    (disk / "filler").unlink(missing_ok=True)
    mount(disk, "remount,size=40m")
    build(place.request("birch", disk), quiet)
    assert place.edition_in(disk) == "birch"
