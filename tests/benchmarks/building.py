"""The stock handbook: built from nothing, with nothing changed, and with one lesson changed; and MkDocs alone."""

import json
import os
import re
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from generator import HANDBOOK
from generator.build.processes import usable_processors
from generator.engine.choosing_numbers import numbers_of_kind
from tests.benchmarks.measuring import Measured, python

_ROUNDS = 4
_MEMORY, _ENOUGH = Path("/dev/shm"), 2**31  # bytes
_LESSON = "lessons/several-exchanges/5724-among-4.toml"

Times = dict[str, float]


class Built(NamedTuple):
    """What one build took: seconds by part, and the most memory of its own process and of any other."""

    seconds: Times
    megabytes: float
    megabytes_of_another: float


def run(what: str, handbook: Path, workshop: Path, out: Path) -> Built:
    """`build`, or `mkdocs` alone, in a process of its own."""
    processes = str(usable_processors())
    said = json.loads(python("-m", "tests.benchmarks.one_build", what, *map(str, (handbook, workshop, out)), processes))
    return Built(said["seconds"], said["megabytes"], said["megabytes of another process"])


def stock_handbook() -> Iterator[Measured]:
    """Rounds of the same four builds, so that what else the machine does falls on all of them alike.

    Of each the quickest counts: other work on the machine only makes them slower. They work in memory where Linux
    offers it, or in the folder that TMPDIR names: some disks are slow to make new files just after a build has deleted
    the site before it.
    """
    found: dict[str, list[Times]] = {name: [] for name in ("MkDocs alone", *_CHANGES)}
    in_memory = _MEMORY.is_dir() and shutil.disk_usage(_MEMORY).free > _ENOUGH and "TMPDIR" not in os.environ
    with tempfile.TemporaryDirectory(dir=_MEMORY if in_memory else None) as top:
        handbook = Path(top, "handbook")
        shutil.copytree(HANDBOOK, handbook)
        for turn in range(_ROUNDS):
            workshop, site = Path(top, f"workshop {turn}"), Path(top, f"site {turn}")
            for name, change in _CHANGES.items():
                change(handbook / _LESSON, turn)
                found[name].append(run("build", handbook, workshop, site).seconds)
            found["MkDocs alone"].append(run("mkdocs", handbook, workshop, Path(top, f"only {turn}")).seconds)
    best = {name: min(times, key=lambda each: each["whole"]) for name, times in found.items()}
    floor = best["MkDocs alone"]["whole"]
    for name, times in best.items():
        for part in times:
            yield Measured(name if part == "whole" else f"  {name}: {part}", times[part], "s")
    cold, unchanged, words, number = (best[name]["whole"] / floor for name in _CHANGES)
    yield Measured("cold: what is added to MkDocs alone", cold - 1, "x", "0.9 or less")
    yield Measured("nothing changed: all of it (MkDocs is not run)", unchanged, "x", "0.2 or less")
    yield Measured("words of one lesson changed: all of it", words, "x", "0.6 or less")
    yield Measured("number of one lesson changed: all of it", number, "x", "0.8 or less")


def _leave(lesson: Path, turn: int) -> None:
    """Change nothing."""


def _change_words(lesson: Path, turn: int) -> None:
    text = re.sub(r'(?m)^reason = "', f'reason = "Round {turn}: ', lesson.read_text(encoding="utf-8"))
    lesson.write_text(text, encoding="utf-8")


def _change_number(lesson: Path, turn: int) -> None:
    """Another number of the same kind: the lesson's title, its figures and all that names it change."""
    _, divisor = lesson.stem.split("-among-")
    number = numbers_of_kind(int(divisor), "exchange-several")[-1 - turn]
    text = re.sub(r"dividend = \d+", f"dividend = {number}", lesson.read_text(encoding="utf-8"))
    lesson.write_text(text, encoding="utf-8")


_CHANGES = {
    "cold": _leave,
    "nothing changed": _leave,
    "words of one lesson changed": _change_words,
    "number of one lesson changed": _change_number,
}
