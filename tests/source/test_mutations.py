"""Valid files, damaged at random: they are read and written, or refused with lines that each name a file.

A hundred damaged folders in a sample, 300 in a whole run; or as many as MUTATIONS in the environment says. What an
accident has not touched is kept from one to the next, as builds keep it.
"""

import os
import re
import shutil
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.build.processes import several_processes
from generator.build.results_file import Results
from generator.errors import SourceError
from generator.pages.handbook import write_handbook
from generator.pages.run_many import RunMany
from generator.pages.writing.writer import Writer
from generator.source.library import load, readable
from tests.sampling import only_in_a_whole_run, times
from tests.source.cases import HERE, STOCK, lay_out, needs_posix

BATCHES = 4
EXAMPLES = int(os.environ.get("MUTATIONS", times(whole=300, sampled=100))) // BATCHES
STUCK = timedelta(seconds=30)

FILES = sorted(
    path.relative_to(HERE / "valid" / "everything" / "school").as_posix()
    for path in (HERE / "valid" / "everything" / "school").rglob("*")
    if path.is_file()
)
SPLINTERS = (
    *(b'"', b"'", b'"""', b"[", b"]", b"{", b"}", b"=", b":", b"#", b".", b",", b"- ", b"---\n"),
    *(b"\n", b"\r", b"\r\n", b"\t", b"\x00", b"\x1b", b"\x7f", b"\xff", b"\xc3", "é".encode()),
    *("\u2028".encode(), "\ufeff".encode(), "\u202e".encode(), b"\\ud800", b"\\u0000"),
    *(b"9" * 30, b"9" * 5000, b"-1", b"0", b"1e999", b"nan", b"inf", b"0x_", b"true", b"null", b"~"),
    *(b"2026-02-30", b"12:60", b"[" * 3000, b"a." * 500, b"../", b"<script>", b"{{ 1/0 }}", b"{% for %}"),
    *(b"&a", b"*a", b"!!python/name:os.system", b"<<: 1", b"? [x]", b"%YAML 9.9\n"),
    *(b"[shelf]\n", b"[[shelf]]\n", b"shelf.tens = 1\n", b"steps = []\n", b"ribbons = true\n"),
)


@pytest.fixture(scope="module")
def school(tmp_path_factory: pytest.TempPathFactory) -> Path:
    laid = lay_out(HERE / "valid" / "everything", tmp_path_factory.mktemp("mutations") / "case")
    assert laid.school is not None
    settings = laid.school / "school.toml"
    few, count = re.subn(r"(?m)^sizes = \[2, 3, .*", "sizes = [2, 3]", settings.read_text("utf-8"))
    assert count == 1
    settings.write_text(few, "utf-8")  # each size of group has a page that takes more time than all else
    load(STOCK, laid.school)
    return laid.school


@pytest.fixture(scope="module")
def run_many(tmp_path_factory: pytest.TempPathFactory) -> Iterator[RunMany]:
    with several_processes(Results(tmp_path_factory.mktemp("kept") / "results", "tests"), 1) as (run_many, _):
        yield run_many


@st.composite
def _damaged(draw: st.DrawFn, data: bytes) -> bytes:
    """The bytes of a file after one to four accidents."""
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(data)))
        end = min(len(data), at + draw(st.integers(0, 40)))
        match draw(st.sampled_from(("cut", "double", "splinter", "noise", "value", "lines", "end"))):
            case "cut":
                data = data[:at] + data[end:]
            case "double":
                data = data[:end] + data[at:]
            case "splinter":
                data = data[:at] + draw(st.sampled_from(SPLINTERS)) + data[end if draw(st.booleans()) else at :]
            case "noise":
                data = data[:at] + draw(st.binary(max_size=20)) + data[at:]
            case "value":
                lines = data.split(b"\n")
                line = draw(st.integers(0, len(lines) - 1))
                sign = b"=" if b"=" in lines[line] else b":"
                lines[line] = lines[line].partition(sign)[0] + sign + b" " + draw(st.sampled_from(SPLINTERS))
                data = b"\n".join(lines)
            case "lines":
                data = b"\n".join(draw(st.permutations(data.split(b"\n"))))
            case "end":
                data = data[:at]
    return data


def _check(school: Path, run_many: RunMany) -> None:
    """Read it and write its pages, as every build begins."""
    try:
        sources = readable(STOCK, school)
        write_handbook(sources, Writer(sources.school), run_many)
    except SourceError as refused:
        lines = str(refused).splitlines()
        assert lines
        for line in lines:
            assert line.startswith(("school/", "stock/"))
            assert "; " in line
            assert line.isprintable()


@pytest.mark.parametrize("batch", range(BATCHES))
def test_damaged_files(batch: int, school: Path, run_many: RunMany) -> None:
    @settings(max_examples=EXAMPLES, deadline=STUCK, suppress_health_check=list(HealthCheck), database=None)
    @given(data=st.data())
    def damage(data: st.DataObject) -> None:
        path = school / data.draw(st.sampled_from(FILES[batch::BATCHES]))
        whole = path.read_bytes()
        try:
            path.write_bytes(data.draw(_damaged(whole)))
            _check(school, run_many)
        finally:
            path.write_bytes(whole)

    damage()


@only_in_a_whole_run
@needs_posix
@settings(
    max_examples=times(whole=150, sampled=12), deadline=STUCK, suppress_health_check=list(HealthCheck), database=None
)
@given(
    folder=st.sampled_from(("lessons/static", "lessons", "pages", "pages/more", "notes", "theme", ".")),
    name=st.text(min_size=1, max_size=60).filter(lambda name: not {"/", "\0"} & set(name) and name not in (".", "..")),
    ending=st.sampled_from(("", ".toml", ".md", ".png")),
)
def test_files_of_any_name(folder: str, name: str, ending: str, school: Path, run_many: RunMany) -> None:
    path = school / folder / os.fsdecode((name + ending).encode("utf-8", "surrogatepass"))
    if path.exists():
        return
    shutil.copyfile(school / "pages/more/mine.md", path)
    try:
        _check(school, run_many)
    finally:
        path.unlink()
