"""What MkDocs has rendered, kept in a folder: a page whose words are the same is not rendered again.

Other files count for a page by nothing but their paths, and pages by their places in the navigation too. So where
these and the settings are the same, MkDocs is given only what has changed.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterable
from pathlib import Path, PurePosixPath

from generator.build.kept_results import Results, digests, key_of
from generator.build.processes import Begin
from generator.build.two_runs import render_pages
from generator.site.run_mkdocs import Nav, Settings
from generator.site.search import INDEX, page_of, read_index

Digests = dict[str, str]


def render_changed(
    results: Results, begin: Begin | None, docs: Path, folder: Path, nav: Nav, settings: Settings
) -> list[str]:
    """Make `folder` the rendered site of all Markdown in `docs`; return the paths of its files.

    Raises SourceError as `render` does.
    """
    key = key_of("rendered", nav, settings)
    staged, made = digests(docs), digests(folder)
    noted = results.get(key)
    changed = _changed(json.loads(noted), (staged, made)) if noted else None
    if changed is None:
        if folder.exists():
            shutil.rmtree(folder)
        changed = set(_pages(staged).values())
    elif not changed:
        return sorted(made)
    kept = read_index(folder)["docs"] if folder.exists() else []
    for file in changed:
        (folder / file).unlink(missing_ok=True)
    render_pages(begin, docs, folder, nav, settings, sorted(changed.intersection(_pages(staged).values())))
    index = read_index(folder)
    entries = [entry for entry in kept if page_of(entry) not in changed] + index["docs"]
    index["docs"] = list({entry["location"]: entry for entry in entries}.values())
    (folder / INDEX).write_text(json.dumps(index), "utf-8")
    made = digests(folder)
    results.put(key, json.dumps([staged, made]).encode())
    return sorted(made)


def _changed(before: tuple[Digests, Digests], now: tuple[Digests, Digests]) -> set[str] | None:
    """The files of the site to be made again. None where everything must be rendered: files came or went, anything
    but a page was damaged, or every page changed.

    `before` and `now` are the digests of what was staged, and of what was rendered from it.
    """
    (old_docs, old_made), (docs, made) = before, now
    rendered = _pages(docs)
    pages = set(rendered.values())
    changed = {rendered.get(path, path) for path, _ in old_docs.items() ^ docs.items()}
    harmed = {path for path, _ in old_made.items() ^ made.items()}
    as_before = old_docs.keys() == docs.keys() and harmed <= pages and not pages <= changed | harmed
    return changed | harmed if as_before else None


def _pages(docs: Iterable[str]) -> dict[str, str]:
    """The path of the page that is rendered from each Markdown file."""
    return {path: str(PurePosixPath(path).with_suffix(".html")) for path in docs if path.endswith(".md")}
