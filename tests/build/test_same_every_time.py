"""Two builds of the same sources are the same, byte for byte, wherever, whenever and however they are made.

Pages and figures of the whole stock handbook are compared as they are written; whole sites are compared for a small
handbook, which has every kind of page.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from generator import PROJECT
from tests.sampling import only_in_a_whole_run, sample
from tests.small_handbook import check_out_small, contents

EPOCH = "1767225600"

BUILD = """
import sys
from pathlib import Path
from generator.build.straight_line import Request, build
site, workshop, processes = sys.argv[1:]
build(Request(out=Path(site), workshop=Path(workshop), processes=int(processes)), print)
"""

WRITE = """
from hashlib import sha256
from generator import HANDBOOK
from generator.pages.writing.writer import Writer
from generator.pages.handbook import write_handbook
from generator.source.library import load
from tests.in_turn import run_in_turn
sources = load(HANDBOOK)
handbook = write_handbook(sources, Writer(sources.school), run_in_turn)
for page in handbook.pages:
    print(page.path, sha256(page.text.encode()).hexdigest(), sha256(repr(page.pictures).encode()).hexdigest())
print(handbook.nav)
"""

# Name of the checkout's folder, processes, and what else differs. Zones and languages need not be installed.
RUNS = {
    "first": ("one", "1", {"PYTHONHASHSEED": "0", "TZ": "UTC", "LC_ALL": "C"}),
    "warm, with a helper": ("one", "2", {"PYTHONHASHSEED": "1", "TZ": "Pacific/Kiritimati", "LC_ALL": "C.UTF-8"}),
    "elsewhere, with helpers": (
        "another folder, näher",
        "3",
        {"PYTHONHASHSEED": "2", "TZ": "America/Adak", "LC_ALL": "tr_TR.UTF-8", "LANG": "de_DE.UTF-8", "COLUMNS": "20"},
    ),
}


def run(program: str, folder: Path, *arguments: str, **environment: str) -> str:
    """Run a program in a checkout and give what it prints."""
    said = subprocess.run(
        [sys.executable, "-c", program, *arguments],
        cwd=folder,
        env={**os.environ, "SOURCE_DATE_EPOCH": EPOCH, "PYTHONPATH": str(folder), **environment},
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    assert said.returncode == 0, said.stderr
    return said.stdout


@pytest.fixture(scope="module")
def sites(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, bytes]]:
    """The files of one site for each of RUNS, by path."""
    top = tmp_path_factory.mktemp("same")
    built: dict[str, dict[str, bytes]] = {}
    for name in sample(RUNS, 2):
        folder, processes, environment = RUNS[name]
        checkout = top / folder
        if not checkout.exists():
            check_out_small(checkout)
        site = top / f"site {len(built)}"
        run(BUILD, checkout, str(site), str(checkout / "build"), processes, **environment)
        built[name] = contents(site)
    return built


@pytest.mark.parametrize("name", sample(RUNS, 2)[1:])
def test_sites_are_the_same(name: str, sites: dict[str, dict[str, bytes]]) -> None:
    first, other = sites["first"], sites[name]
    assert sorted(first) == sorted(other)
    assert [path for path in first if first[path] != other[path]] == []
    assert any(path.endswith(".svg") for path in first)
    assert len(first) > 100


def test_the_build_date_is_the_one_that_was_stated(sites: dict[str, dict[str, bytes]]) -> None:
    """1767225600 seconds after the start of 1970 are 2026-01-01 in UTC (`date -u -d @1767225600`)."""
    assert b"2026-01-01" in sites["first"]["index.html"]


def test_nothing_says_where_it_was_built(sites: dict[str, dict[str, bytes]]) -> None:
    names = [folder.encode() for folder, _, _ in RUNS.values() if len(folder) > 3]
    assert names
    for path, content in sites["elsewhere, with helpers"].items():
        assert not any(name in content for name in names), path


@only_in_a_whole_run
def test_all_pages_of_the_stock_handbook_are_the_same() -> None:
    first = run(WRITE, PROJECT, PYTHONHASHSEED="0", TZ="UTC", LC_ALL="C")
    assert first == run(WRITE, PROJECT, PYTHONHASHSEED="7", TZ="Pacific/Kiritimati", LC_ALL="C.UTF-8")
    assert first.count("\n") > 100
