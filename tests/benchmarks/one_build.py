"""One build in this process, and how long each part of it took, as JSON; the other benchmarks run it as a program.

python -m tests.benchmarks.one_build build HANDBOOK WORKSHOP OUT [PROCESSES]
python -m tests.benchmarks.one_build mkdocs HANDBOOK WORKSHOP OUT     only MkDocs, on what a build has staged
"""

import json
import resource
import sys
import time
from pathlib import Path

from generator.build import straight_line
from generator.build.results_file import digests
from generator.pages.handbook import write_handbook
from generator.pages.writing.writer import Writer
from generator.site import run_mkdocs
from generator.site.school_look import STOCK_LOGO
from generator.source.library import load
from tests.in_turn import run_in_turn

# A build says what it begins; these are the parts as the tables call them.
PHASES = {"Rea": "read", "Wor": "write", "Ren": "MkDocs", "Fin": "finish", "Dra": "figures", "Aud": "audit"}


def whole_build(handbook: Path, workshop: Path, out: Path, processes: int) -> dict[str, float]:
    """Seconds by part of the build; `whole` is all of it."""
    begun: list[tuple[str, float]] = []

    def say(line: str) -> None:
        if line[:3] in PHASES:
            begun.append((PHASES[line[:3]], time.perf_counter()))

    start = time.perf_counter()
    straight_line.build(straight_line.Request(None, out, processes, handbook, workshop), say)
    end = time.perf_counter()
    parts = {name: after - at for (name, at), (_, after) in zip(begun, [*begun[1:], ("", end)], strict=True)}
    return parts | {"whole": end - start}


def only_mkdocs(handbook: Path, workshop: Path, out: Path) -> dict[str, float]:
    """Seconds that MkDocs takes for the pages that the last build has staged."""
    sources = load(handbook)
    nav = write_handbook(sources, Writer(sources.school), run_in_turn).nav
    settings = run_mkdocs.Settings(sources.school.name, "1", "/handbook/", STOCK_LOGO)
    docs = workshop / "stock" / "docs"
    before = digests(docs)
    out.mkdir(parents=True)
    start = time.perf_counter()
    run_mkdocs.render(docs, out, nav, settings)
    end = time.perf_counter()
    assert digests(docs) == before
    return {"whole": end - start}


def main(what: str, handbook: str, workshop: str, out: str, processes: str = "2") -> None:
    folders = Path(handbook), Path(workshop), Path(out)
    times = only_mkdocs(*folders) if what == "mkdocs" else whole_build(*folders, int(processes))
    own, others = (resource.getrusage(who).ru_maxrss / 1024 for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    print(json.dumps({"seconds": times, "megabytes": own, "megabytes of another process": others}))


if __name__ == "__main__":
    main(*sys.argv[1:])
