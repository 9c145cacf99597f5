"""The stock handbook: built from nothing, with nothing changed, and with one lesson changed; and MkDocs alone."""

from __future__ import annotations

import json
import os
import re
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from typing import NamedTuple

from generator.build import HANDBOOK
from generator.engine.numbers import numbers_of_kind
from tests.benchmarks.measuring import Measured, python

_TIMES = 3
_CHANGED = "lessons/several-exchanges/9724-among-4.toml"

Times = dict[str, float]


class Built(NamedTuple):
    """What one build took: seconds by part, and the most memory of its own process and of any other."""

    seconds: Times
    megabytes: float
    megabytes_of_another: float


def run(what: str, handbook: Path, workshop: Path, out: Path) -> Built:
    """`build`, or `mkdocs` alone, in a process of its own."""
    processes = str(os.cpu_count() or 1)
    said = json.loads(python("-m", "tests.benchmarks.one_build", what, *map(str, (handbook, workshop, out)), processes))
    return Built(said["seconds"], said["megabytes"], said["megabytes of another process"])


def stock_handbook() -> Iterator[Measured]:
    """Rounds of the same four builds, so that what else the machine does falls on all of them alike."""
    found: dict[str, list[Times]] = {"MkDocs alone": [], "cold": [], "nothing changed": [], "one lesson changed": []}
    with tempfile.TemporaryDirectory() as top:
        handbook = Path(top, "handbook")
        shutil.copytree(HANDBOOK, handbook)
        lesson = handbook / _CHANGED
        for turn in range(_TIMES):
            workshop, site = Path(top, f"workshop {turn}"), Path(top, "site")
            for name in ("cold", "nothing changed", "one lesson changed"):
                if name == "one lesson changed":
                    _change(lesson, turn)
                found[name].append(run("build", handbook, workshop, site).seconds)
            found["MkDocs alone"].append(run("mkdocs", handbook, workshop, Path(top, f"only {turn}")).seconds)
            shutil.rmtree(workshop)
    floor = median(times["MkDocs"] for times in found["MkDocs alone"])
    yield Measured("MkDocs alone, on the same staged pages", floor, "s")
    for name, aim in (("cold", 0.8), ("nothing changed", 0.08)):
        yield from _parts(name, found[name])
        outside = median(times["whole"] - times.get("MkDocs", 0) for times in found[name])
        yield Measured("  all but MkDocs, against MkDocs alone", outside / floor, "x", f"{aim} or less")
    changed = found["one lesson changed"]
    yield from _parts("one lesson changed", changed)
    whole = median(times["whole"] for times in changed)
    yield Measured("  all of it, against MkDocs alone", whole / floor, "x", "1.15 or less")


def _parts(name: str, times: list[Times]) -> Iterator[Measured]:
    for part in times[0]:
        shown = name if part == "whole" else f"  {name}: {part}"
        yield Measured(shown, median(each[part] for each in times), "s")


def _change(lesson: Path, turn: int) -> None:
    """Another number of the same kind: the lesson's title, its figures and all that names it change."""
    _, divisor = lesson.stem.split("-among-")
    number = numbers_of_kind(int(divisor), "exchange-several")[-1 - turn]
    text = re.sub(r"dividend = \d+", f"dividend = {number}", lesson.read_text(encoding="utf-8"))
    lesson.write_text(text, encoding="utf-8")
