"""What MkDocs has rendered, kept in a folder: a page whose words are the same is not rendered again.

Other pages count for a page by nothing but their paths and their places in the navigation. So where these, the
settings and all other files are the same too, MkDocs is given only the pages that have changed.
"""

from __future__ import annotations

import json
import shutil
from pathlib import Path, PurePosixPath

from generator.build.results import Results, digests, key_of
from generator.site.render import Nav, Settings, render
from generator.site.search import INDEX, page_of, read_index

Digests = dict[str, str]


def render_changed(results: Results, docs: Path, folder: Path, nav: Nav, settings: Settings) -> list[str]:
    """Make `folder` the rendered site of all Markdown in `docs`; return the paths of its files.

    Raises SourceError as `render` does.
    """
    key = key_of("rendered", nav, settings)
    staged, made = digests(docs), digests(folder)
    noted = results.get(key)
    changed = _changed(json.loads(noted), (staged, made)) if noted else None
    if changed is None:
        shutil.rmtree(folder, ignore_errors=True)
        render(docs, folder, nav, settings)
    elif changed:
        entries = read_index(folder)["docs"]
        for page in changed:
            (folder / page).unlink(missing_ok=True)
        render(docs, folder, nav, settings, only_missing=True)
        index = read_index(folder)
        again = changed.union(map(page_of, index["docs"]))
        index["docs"] += [entry for entry in entries if page_of(entry) not in again]
        (folder / INDEX).write_text(json.dumps(index), "utf-8")
    else:
        return sorted(made)
    made = digests(folder)
    results.put(key, json.dumps([staged, made]).encode())
    return sorted(made)


def _changed(before: tuple[Digests, Digests], now: tuple[Digests, Digests]) -> set[str] | None:
    """The rendered pages that are not as they would be made again; None if all have, or anything but pages.

    `before` and `now` are the digests of what was staged, and of what was rendered from it.
    """
    (old_docs, old_made), (docs, made) = before, now
    pages = {path: str(PurePosixPath(path).with_suffix(".html")) for path in docs if path.endswith(".md")}
    changed = {pages.get(path, path) for path, _ in old_docs.items() ^ docs.items()}
    changed |= {path for path, _ in old_made.items() ^ made.items()}
    return changed if old_docs.keys() == docs.keys() and changed < set(pages.values()) else None
