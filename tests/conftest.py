"""What all tests share: one stock handbook for all of them, and a watch over the developer's own builds."""

import os
from pathlib import Path

import pytest

from generator import HANDBOOK, PROJECT
from generator.build.lock import locked
from generator.build.processes import usable_processors
from generator.build.straight_line import Request, build
from tests.sampling import WHOLE, only_in_a_whole_run

OWN_BUILDS = PROJECT / "build"
_BEFORE = pytest.StashKey[dict[Path, tuple[int, int]]]()


def quiet(line: str) -> None:
    """Say nothing."""


@pytest.fixture(scope="session")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder, outside the checkout, that all processes of this run share."""
    own = tmp_path_factory.getbasetemp()
    return own.parent if "PYTEST_XDIST_WORKER" in os.environ else own


@pytest.fixture(scope="session")
def site(shared: Path) -> Path:
    """The folder of the built stock handbook; tests read it and never write into it."""
    return build_once(shared / "stock")


def build_once(folder: Path, handbook: Path = HANDBOOK) -> Path:
    """The site in a folder that test processes share: the first that needs it builds it while the others wait."""
    folder.mkdir(exist_ok=True)
    site = folder / "a site é"
    with locked(folder / "lock", quiet, patience=300):
        if not (site / "index.html").exists():  # a build that fails or is ended leaves none
            build(Request(out=site, handbook=handbook, workshop=folder / "workshop"), quiet)
    return site


def pytest_xdist_auto_num_workers() -> int:
    """One more than there are processors: whoever waits for a browser or for a build leaves one to others."""
    return usable_processors() + 1


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line("markers", f"{only_in_a_whole_run.name}: left out of a sample")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if not WHOLE:
        left_out = [item for item in items if item.get_closest_marker(only_in_a_whole_run.name)]
        config.hook.pytest_deselected(items=left_out)
        items[:] = [item for item in items if item not in left_out]
    _in_order(items)


def _in_order(items: list[pytest.Item]) -> None:
    """The first file builds the handbook that most tests share; meanwhile come those that do without it."""
    first = items[0].path if items else None
    without = ("tests/source/", "tests/script/", "tests/engine/")
    items.sort(key=lambda item: 0 if item.path == first else 1 if item.nodeid.startswith(without) else 2)


def pytest_report_header() -> str:
    return "tests: all of them" if WHOLE else "tests: a fair sample; WHOLE=1 in the environment runs all"


def pytest_sessionstart(session: pytest.Session) -> None:
    session.config.stash[_BEFORE] = files_with_times(OWN_BUILDS)


def pytest_sessionfinish(session: pytest.Session) -> None:
    """Fail a run that made or changed a file among the developer's own builds."""
    before, after = session.config.stash[_BEFORE], files_with_times(OWN_BUILDS)
    changed = sorted(file for file in before.keys() | after.keys() if before.get(file) != after.get(file))
    if changed and not hasattr(session.config, "workerinput"):  # workers of pytest-xdist leave it to the first process
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
        session.config.get_terminal_writer().line(f"\n{len(changed)} files changed in build/, such as {changed[0]}")


def files_with_times(folder: Path) -> dict[Path, tuple[int, int]]:
    """Size and time of the last change, in nanoseconds, of every file below a folder."""
    found = ((file, file.stat()) for file in folder.rglob("*") if file.is_file())
    return {file: (status.st_size, status.st_mtime_ns) for file, status in found}
