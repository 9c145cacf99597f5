"""What is kept between builds of one handbook: a folder (the workshop) in which one build works at a time.

Kept are results of pure functions (`results_file.py`), the staged Markdown and the rendered pages. The folder may be
deleted at any time; then everything is worked out again.
"""

import json
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from generator import HANDBOOK, PROJECT
from generator.build import publishing
from generator.build.lock import locked
from generator.build.processes import several_processes
from generator.build.results_file import Results, digests, key_of
from generator.pages.other_processes import Submit
from generator.pages.run_many import RunMany
from generator.site.run_mkdocs import MKDOCS_YML

_PATIENCE = 120.0  # seconds to wait for another build


@dataclass(frozen=True)
class Workshop:
    """Where a handbook is built, by several processes; `submit` is None if there is only one."""

    docs: Path
    rendered: Path
    results: Results
    run_many: RunMany
    submit: Submit | None

    def note(self, edition: object, site: Path, pages: int, figures: int) -> None:
        """Note what a site that is about to be published holds; editions that differ must differ in their repr."""
        self.results.put(key_of("site", edition), json.dumps([pages, figures, digests(site)]).encode())

    def published(self, edition: object, site: Path) -> tuple[int, int] | None:
        """The numbers of pages and figures noted for an edition, if `site` holds exactly its files; otherwise None."""
        noted = self.results.get(key_of("site", edition))
        if noted is None:
            return None
        pages, figures, files = json.loads(noted)
        found = digests(site)
        return (pages, figures) if found.pop(publishing.MARKER, None) and found == files else None


@contextmanager
def workshop(top: Path, school: Path | None, processes: int, say: Callable[[str], None]) -> Iterator[Workshop]:
    """The workshop of the stock handbook, or of a school's, below a folder; another build in it is waited for.

    Raises HandbookError if it takes too long, or if the disk is full or may not be written.
    """
    folder = top / name_of(school)
    with publishing.disk_faults(folder):
        folder.mkdir(parents=True, exist_ok=True)
        with (
            locked(folder / ".lock", say, _PATIENCE),
            Results(folder / "results", made_by()) as results,
            several_processes(results, processes) as (run_many, submit),
        ):
            yield Workshop(folder / "docs", folder / "rendered", results, run_many, submit)


def name_of(school: Path | None) -> str:
    """The name of a folder for the stock handbook, or for a school's; each has its own."""
    if school is None:
        return "stock"
    place = Path(os.path.realpath(school))  # also of a link that leads to itself
    return f"{place.name[:40]}-{key_of(str(place))[:8]}"


def made_by() -> str:
    """A digest of all that results depend on besides sources: code, look, templates, phrases, mkdocs.yml, packages."""
    folders = (PROJECT / "generator", HANDBOOK / "theme", *sorted(HANDBOOK.glob("*/templates")))
    files = (MKDOCS_YML, *sorted(HANDBOOK.glob("*/phrases.toml")))
    # The folders of packages say their versions: much faster than asking each package.
    packages = {info.name for folder in map(Path, sys.path) for info in folder.glob("*.dist-info")}
    return key_of([*map(digests, folders)], [file.read_bytes() for file in files], sys.version, sorted(packages))
