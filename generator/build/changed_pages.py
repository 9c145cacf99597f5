"""What MkDocs has rendered, kept in a folder: a page whose words are the same is not rendered again.

What a page looks like depends on other files only by their paths, and on other pages only by their places in the
navigation. So where these and the settings are the same, MkDocs is given only what has changed.
"""

import json
import shutil
from collections.abc import Iterable, Mapping
from functools import partial
from pathlib import Path, PurePosixPath
from typing import Any

from generator.build.kept_results import Results, digests, key_of
from generator.build.processes import Begin
from generator.build.two_runs import render_pages
from generator.site.run_mkdocs import Nav, Settings
from generator.site.search import INDEX, page_of, read_index


def render_changed(
    results: Results, begin: Begin | None, docs: Path, folder: Path, nav: Nav, settings: Settings
) -> list[str]:
    """Make `folder` the rendered site of all Markdown in `docs`; return the paths of its files.

    Raises SourceError as `render` does.
    """
    key = partial(key_of, "rendered", nav, settings)
    staged, made = digests(docs), digests(folder)
    noted = results.get(key(sorted(made.items())))  # what was staged when exactly these files were made
    changed = _changed(json.loads(noted) if noted else {}, staged)
    if not changed:
        return sorted(made)
    rendered = set(_html_of(staged).values())
    pages = changed & rendered
    kept: list[dict[str, Any]] = []  # of the search index
    if pages < rendered:
        kept = _without(changed, folder)
    elif folder.exists():
        shutil.rmtree(folder)
    index = render_pages(begin, docs, folder, nav, settings, sorted(pages))
    index["docs"] = list({entry["location"]: entry for entry in kept + index["docs"]}.values())
    (folder / INDEX).write_text(json.dumps(index), "utf-8")
    made = digests(folder)
    results.put(key(sorted(made.items())), json.dumps(staged).encode())
    return sorted(made)


def _changed(before: Mapping[str, str], now: Mapping[str, str]) -> set[str]:
    """The files of the site to be made again, from the digests of what was staged and is staged now.

    Every page where files came or went.
    """
    rendered = _html_of(now)
    if before.keys() != now.keys():
        return set(rendered.values())
    return {rendered.get(path, path) for path, _ in before.items() ^ now.items()}


def _without(changed: set[str], folder: Path) -> list[dict[str, Any]]:
    """Delete what has changed; return what the search index has of all other pages."""
    for file in changed:
        (folder / file).unlink(missing_ok=True)
    return [entry for entry in read_index(folder)["docs"] if page_of(entry) not in changed]


def _html_of(docs: Iterable[str]) -> dict[str, str]:
    """The page that is rendered from each Markdown file, by path."""
    return {path: str(PurePosixPath(path).with_suffix(".html")) for path in docs if path.endswith(".md")}
