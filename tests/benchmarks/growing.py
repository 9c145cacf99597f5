"""What grows with the number of lessons: time, memory and bytes."""

import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median

from tests.benchmarks.building import run
from tests.benchmarks.made_up import write_handbook
from tests.benchmarks.measuring import Measured

_FEW, _SOME, _MANY = 60, 300, 1000
_TIMES = 2


def many_lessons() -> Iterator[Measured]:
    whole: dict[int, float] = {}
    with tempfile.TemporaryDirectory() as top:
        for lessons in (_FEW, _SOME, _MANY):
            folder = Path(top, str(lessons))
            write_handbook(folder / "handbook", lessons)
            builds = [
                run("build", folder / "handbook", folder / f"workshop {turn}", folder / f"site {turn}")
                for turn in range(_TIMES)
            ]
            least = min(builds, key=lambda built: built.seconds["whole"])
            whole[lessons] = least.seconds["whole"]
            for part, time_taken in least.seconds.items():
                yield Measured(f"{lessons} lessons: {part}", time_taken, "s")
            yield Measured(f"{lessons} lessons: most memory of one process", least.megabytes, "MB", "under 1,024")
            yield Measured(f"{lessons} lessons: most memory of another", least.megabytes_of_another, "MB")
            yield from _bytes(lessons, folder / "site 0")
        yield Measured("1,000 lessons against 60", whole[_MANY] / whole[_FEW], "x", "20 or less; linear is 16.7")


def _bytes(lessons: int, site: Path) -> Iterator[Measured]:
    sizes = {file.relative_to(site): file.stat().st_size for file in site.rglob("*") if file.is_file()}
    pages = [size for file, size in sizes.items() if file.match("lessons/*/[0-9]*.html")]
    largest, name = max((size, file.as_posix()) for file, size in sizes.items() if file.suffix == ".html")
    index = max(size for file, size in sizes.items() if file.match("search/search_index.*"))
    yield Measured(f"{lessons} lessons: whole site", sum(sizes.values()) / 1e6, "MB")
    yield Measured(f"{lessons} lessons: page of a lesson", median(pages) / 1e3, "kB")
    yield Measured(f"{lessons} lessons: largest page, {name}", largest / 1e3, "kB")
    yield Measured(f"{lessons} lessons: search index", index / 1e6, "MB", "under 1.5")
