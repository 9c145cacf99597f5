"""MkDocs run twice at the same time, each time for some of the pages: it is the longest part of a build.

Each run finds the other's pages written already, as empty files that are newer than their sources, and passes them
over as MkDocs does in a preview.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterable, Sequence
from functools import partial
from pathlib import Path

from generator.build.processes import Begin
from generator.site.run_mkdocs import Nav, Settings, render
from generator.site.search import INDEX, page_of, read_index
from generator.source.overlay import Faults

_ENOUGH_FOR_ONE = 40  # pages: to begin a second run takes as long as twenty pages do


def render_pages(
    begin: Begin | None, docs: Path, folder: Path, nav: Nav, settings: Settings, pages: Sequence[str]
) -> None:
    """Render `pages`, paths of the site that `folder` lacks.

    It leaves the search index of these pages alone, and raises SourceError, as `render` does.
    """
    if begin is None or len(pages) <= _ENOUGH_FOR_ONE:
        render(docs, folder, nav, settings, only_missing=True)
        return
    own, others = pages[::2], frozenset(pages[1::2])
    aside = folder.with_name("aside")
    shutil.rmtree(aside, ignore_errors=True)
    kept = [file.relative_to(folder).as_posix() for file in folder.rglob("*") if file.is_file()]
    _write_empty(aside, [*kept, *own])
    _write_empty(folder, others)
    faults = Faults()
    end_second_run = begin(partial(render, docs, aside, nav, settings, only_missing=True))
    for run in (partial(render, docs, folder, nav, settings, only_missing=True), end_second_run):
        with faults.gathered():
            run()
    faults.raise_if_any()
    index = read_index(folder)
    index["docs"] = [entry for entry in index["docs"] if page_of(entry) not in others]
    index["docs"] += [entry for entry in read_index(aside)["docs"] if page_of(entry) in others]
    (folder / INDEX).write_text(json.dumps(index), "utf-8")
    for page in others:
        (aside / page).replace(folder / page)
    shutil.rmtree(aside)


def _write_empty(folder: Path, paths: Iterable[str]) -> None:
    for path in paths:
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).touch()
