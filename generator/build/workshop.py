"""What makes a build fast and safe, behind one small interface: a workshop.

A build finds in it what earlier builds of the same handbook left there: results of pure functions, the staged Markdown,
the rendered pages. The folder may be deleted at any time; then everything is worked out again.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from generator import HANDBOOK, PROJECT
from generator.build import publishing
from generator.build.lock import locked
from generator.build.processes import Processes
from generator.build.rendering import render_changed
from generator.build.results import Results, digests, fingerprint, installed, key_of
from generator.pages.run_many import RunMany
from generator.site.render import MKDOCS_YML, Nav, Settings

_PATIENCE = 120.0  # seconds to wait for another build


class Made(NamedTuple):
    """How much a published site holds."""

    pages: int
    figures: int


@dataclass(frozen=True)
class Workshop:
    """Where a handbook is built; `run_many` does so on several processes."""

    docs: Path
    rendered: Path
    run_many: RunMany
    _results: Results

    def render(self, nav: Nav, settings: Settings) -> list[str]:
        """Make `rendered` the site of all Markdown in `docs`; return the paths of its files."""
        return render_changed(self._results, self.docs, self.rendered, nav, settings)

    def note(self, edition: object, site: Path, made: Made) -> Made:
        """Note what a site that is about to be published holds; its repr tells an edition from all others."""
        self._results.put(key_of("site", edition), json.dumps([made, digests(site)]).encode())
        return made

    def published(self, edition: object, site: Path) -> Made | None:
        """What was noted about an edition, if `site` holds exactly that: every file, byte by byte, and no other."""
        noted = self._results.get(key_of("site", edition))
        if noted is None:
            return None
        made, files = json.loads(noted)
        found = digests(site)
        return Made(*made) if found.pop(publishing.MARKER, None) and found == files else None


@contextmanager
def workshop(top: Path, school: Path | None, processes: int, say: Callable[[str], None]) -> Iterator[Workshop]:
    """The workshop of the stock handbook, or of a school's, below a folder; another build in it is waited for.

    Raises HandbookError if it takes too long, or if the disk is full or may not be written.
    """
    folder = top / _name(school)
    with publishing.disk_faults(folder):
        folder.mkdir(parents=True, exist_ok=True)
        with (
            locked(folder / ".lock", say, _PATIENCE),
            Results(folder / "results", made_by()) as results,
            Processes(results, processes) as shared,
        ):
            yield Workshop(folder / "docs", folder / "rendered", shared.run_many, results)


def made_by() -> str:
    """Code, look, templates, phrases, settings of MkDocs and packages: a result outlives none of them."""
    folders = (PROJECT / "generator", HANDBOOK / "theme", *sorted(HANDBOOK.glob("*/templates")))
    files = (MKDOCS_YML, *sorted(HANDBOOK.glob("*/phrases.toml")))
    return key_of([*map(fingerprint, folders)], [file.read_bytes() for file in files], installed())


def _name(school: Path | None) -> str:
    """The name of a school's workshop: its folder's, with a digest of where that lies."""
    if school is None:
        return "stock"
    place = school.resolve()
    return f"{place.name}-{sha256(str(place).encode('utf-8', 'surrogateescape')).hexdigest()[:8]}"
