"""MkDocs run twice at the same time, each time for half of the pages: it is the longest part of a build."""

import os
import shutil
from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import Any

from generator.build.other_processes import Submit
from generator.errors import Faults
from generator.site.run_mkdocs import Nav, Settings, render
from generator.site.search import read_index

_ENOUGH_FOR_ONE = 40  # pages: to begin a second run takes as long as twenty pages do


def render_pages(
    submit: Submit | None, docs: Path, folder: Path, nav: Nav, settings: Settings, pages: Sequence[str]
) -> dict[str, Any]:
    """Make `folder` the site of `pages`, paths of Markdown in `docs`; return its search index.

    Raises SourceError as `render` does.
    """
    run = partial(render, docs, nav=nav, settings=settings)
    if submit is None or len(pages) <= _ENOUGH_FOR_ONE:
        run(folder, pages=pages)
        return read_index(folder)
    aside = folder.with_name("aside")
    end_other_run = submit(partial(run, aside, pages=pages[1::2])).result
    faults = Faults()
    for half in (partial(run, folder, pages=pages[::2]), end_other_run):
        with faults.gathered():
            half()
    faults.raise_if_any()
    index = read_index(folder)
    index["docs"] += read_index(aside)["docs"]
    shutil.copytree(aside, folder, dirs_exist_ok=True, copy_function=os.replace)
    shutil.rmtree(aside)
    return index
