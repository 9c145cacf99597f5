"""What MkDocs has rendered, kept in a folder: a page whose words are the same is not rendered again.

What a page looks like depends on other files only by their paths, and on other pages only by their places in the
navigation. So where these and the settings are the same, MkDocs is given only what has changed.
"""

import json
import shutil
from functools import partial
from pathlib import Path
from typing import Any

from generator.build.results_file import Results, digests, key_of
from generator.build.two_runs import render_pages
from generator.pages.other_processes import Submit
from generator.pages.writing.page import site_address
from generator.site.offline_search import INDEX, page_of, read_index
from generator.site.run_mkdocs import Nav, Settings


def render_changed(
    results: Results, submit: Submit | None, docs: Path, folder: Path, nav: Nav, settings: Settings
) -> list[str]:
    """Make `folder` the rendered site of all Markdown in `docs`; return the paths of its files.

    Raises SourceError as `render` does.
    """
    key = partial(key_of, "rendered", nav, settings)
    staged, made = digests(docs), digests(folder)
    noted = results.get(key(made))  # what was staged when exactly these files were made
    before = json.loads(noted) if noted else {}
    if before == staged:
        return list(made)
    changed = set(staged)
    kept: list[dict[str, Any]] = []  # of the search index
    if before.keys() == staged.keys():
        changed = {path for path, _ in before.items() ^ staged.items()}
        made_anew = set(map(site_address, changed))
        kept = [entry for entry in read_index(folder)["docs"] if page_of(entry) not in made_anew]
    elif folder.exists():
        shutil.rmtree(folder)
    pages = sorted(path for path in changed if path.endswith(".md"))
    index = render_pages(submit, docs, folder, nav, settings, pages)
    index["docs"] += kept
    (folder / INDEX).write_text(json.dumps(index), "utf-8")
    made = digests(folder)
    results.put(key(made), json.dumps(staged).encode())
    return list(made)
