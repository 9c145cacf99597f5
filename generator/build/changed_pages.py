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
    changed = _changed(json.loads(noted), staged) if noted else None
    kept: list[dict[str, Any]] = []
    if changed is None:
        if folder.exists():
            shutil.rmtree(folder)
        changed = set(_html_of(staged).values())
    elif changed:
        kept = read_index(folder)["docs"]
    else:
        return sorted(made)
    for file in changed:
        (folder / file).unlink(missing_ok=True)
    index = render_pages(begin, docs, folder, nav, settings, sorted(changed.intersection(_html_of(staged).values())))
    entries = [entry for entry in kept if page_of(entry) not in changed] + index["docs"]
    index["docs"] = list({entry["location"]: entry for entry in entries}.values())
    (folder / INDEX).write_text(json.dumps(index), "utf-8")
    made = digests(folder)
    results.put(key(sorted(made.items())), json.dumps(staged).encode())
    return sorted(made)


def _changed(before: Mapping[str, str], now: Mapping[str, str]) -> set[str] | None:
    """The files of the site to be made again, from the digests of what was staged and is staged now.

    None where everything must be rendered: files came or went, or every page changed.
    """
    rendered = _html_of(now)
    changed = {rendered.get(path, path) for path, _ in before.items() ^ now.items()}
    return changed if before.keys() == now.keys() and not changed >= set(rendered.values()) else None


def _html_of(docs: Iterable[str]) -> dict[str, str]:
    """The page that is rendered from each Markdown file, by path."""
    return {path: str(PurePosixPath(path).with_suffix(".html")) for path in docs if path.endswith(".md")}
