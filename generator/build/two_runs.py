"""MkDocs run twice at the same time, each time for half of the pages: it is the longest part of a build."""

import os
import shutil
from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import Any

from generator.errors import Faults
from generator.pages.other_processes import Submit
from generator.site.offline_search import read_index
from generator.site.run_mkdocs import Nav, Settings, render

_ENOUGH_FOR_ONE = 40  # pages: to begin a second run takes as long as twenty pages do


def render_pages(
    submit: Submit | None, docs: Path, folder: Path, nav: Nav, settings: Settings, pages: Sequence[str]
) -> dict[str, Any]:
    """Render `pages` (paths of Markdown in `docs`) and all other files into `folder`; return their search index.

    Raises SourceError as `render` does.
    """
    own, other = folder.with_name("own-run"), folder.with_name("other-run")
    run = partial(render, docs, nav=nav, settings=settings)
    if submit is None or len(pages) <= _ENOUGH_FOR_ONE:
        run(own, pages=pages)
        return _moved(own, folder)
    end_other_run = submit(partial(run, other, pages=pages[1::2])).result
    faults = Faults()
    for half in (partial(run, own, pages=pages[::2]), end_other_run):
        with faults.gathered():
            half()
    faults.raise_if_any()
    index = _moved(own, folder)
    index["docs"] += _moved(other, folder)["docs"]
    return index


def _moved(rendered: Path, folder: Path) -> dict[str, Any]:
    """Put what a run has rendered into `folder`; return its search index."""
    index = read_index(rendered)
    shutil.copytree(rendered, folder, dirs_exist_ok=True, copy_function=os.replace)
    shutil.rmtree(rendered)
    return index
