"""What MkDocs has rendered, kept in a folder: a page whose words are the same is not rendered again.

Other pages count for a page by nothing but their paths and their places in the navigation. So where these, the
settings and all other files are the same too, MkDocs is given only the pages that have changed.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import Any

from pydantic import TypeAdapter, ValidationError

from generator.build.results import Cache, digests
from generator.site.render import Nav, Settings, render
from generator.site.search import INDEX, page_of, read_index


@dataclass(frozen=True)
class Rendered:
    """The digests of all files that were staged, and of all that were made of them, by path."""

    staged: dict[str, str]
    made: dict[str, str]


_JSON = TypeAdapter(Rendered)


def render_changed(cache: Cache, edition: str, docs: Path, folder: Path, nav: Nav, settings: Settings) -> list[str]:
    """Make `folder` the rendered site of all Markdown in `docs`; return the paths of its files.

    `edition` is a key made of everything but the files in `docs` that rendering depends on. Raises SourceError as
    `render` does.
    """
    staged = digests(docs)
    pages = {path: str(PurePosixPath(path).with_suffix(".html")) for path in staged if path.endswith(".md")}
    last = _last(cache, edition)
    kept = _still_right(last, Rendered(staged, digests(folder)), pages) if last else set()
    if kept:
        changed = set(pages.values()) - kept
        found = read_index(folder)["docs"]
        for page in changed:
            (folder / page).unlink(missing_ok=True)
        render(docs, folder, nav, settings, only_missing=True)
        _keep_in_index(folder, [entry for entry in found if page_of(entry) not in changed])
    else:
        if folder.exists():
            shutil.rmtree(folder)
        render(docs, folder, nav, settings)
    made = digests(folder)
    cache.put(edition, _JSON.dump_json(Rendered(staged, made)))
    return sorted(made)


def _last(cache: Cache, edition: str) -> Rendered | None:
    noted = cache.get(edition)
    try:
        return None if noted is None else _JSON.validate_json(noted)
    except ValidationError:
        return None


def _still_right(last: Rendered, now: Rendered, pages: dict[str, str]) -> set[str]:
    """The rendered pages that are as they would be made again; none if anything but pages has changed."""
    same_paths = last.staged.keys() == now.staged.keys()
    same_files = _without(last.staged, pages) == _without(now.staged, pages)
    same_made = _without(last.made, pages.values()) == _without(now.made, pages.values())
    if not (same_paths and same_files and same_made):
        return set()
    return {
        page
        for path, page in pages.items()
        if last.staged[path] == now.staged[path] and last.made[page] == now.made.get(page)
    }


def _without(digests: dict[str, str], paths: Collection[str]) -> dict[str, str]:
    return {path: digest for path, digest in digests.items() if path not in paths}


def _keep_in_index(folder: Path, entries: list[dict[str, Any]]) -> None:
    """Add what the pages that were not rendered again say to the search index."""
    index = read_index(folder)
    again = {page_of(entry) for entry in index["docs"]}
    index["docs"] += [entry for entry in entries if page_of(entry) not in again]
    (folder / INDEX).write_text(json.dumps(index), "utf-8")
