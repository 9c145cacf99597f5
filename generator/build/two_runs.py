"""MkDocs run twice at the same time, each time for half of the pages: it is the longest part of a build.

Each run finds the other's pages written already, as empty files that are newer than their sources, and passes them
over as MkDocs does in a preview.
"""

import shutil
from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import Any

from generator.build.processes import Begin
from generator.errors import Faults
from generator.site.run_mkdocs import Nav, Settings, render
from generator.site.search import read_index
from generator.site.staging import write_files

_ENOUGH_FOR_ONE = 40  # pages: to begin a second run takes as long as twenty pages do


def render_pages(
    begin: Begin | None, docs: Path, folder: Path, nav: Nav, settings: Settings, pages: Sequence[str]
) -> dict[str, Any]:
    """Render `pages`, paths of the site that `folder` lacks; return the search index of what was rendered.

    Where sources are newer than the clock says, both runs render all, and each page stands in the index twice. Raises
    SourceError as `render` does.
    """
    own_run = partial(render, docs, folder, nav, settings)
    if begin is None or len(pages) <= _ENOUGH_FOR_ONE:
        own_run()
        return read_index(folder)
    own, others = pages[::2], pages[1::2]
    aside = folder.with_name("aside")
    shutil.rmtree(aside, ignore_errors=True)
    kept = [file.relative_to(folder).as_posix() for file in folder.rglob("*") if file.is_file()]
    write_files(aside, ((path, b"") for path in (*kept, *own)))
    write_files(folder, ((path, b"") for path in others))
    end_other_run = begin(partial(render, docs, aside, nav, settings))
    faults = Faults()
    for run in (own_run, end_other_run):
        with faults.gathered():
            run()
    faults.raise_if_any()
    index = read_index(folder)
    index["docs"] += read_index(aside)["docs"]
    for page in others:
        (aside / page).replace(folder / page)
    shutil.rmtree(aside)
    return index
