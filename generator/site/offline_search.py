"""Search for pages that are opened from disk, where a browser lets a page load scripts but no data and no worker."""

import json
from collections.abc import Mapping
from html import escape
from pathlib import Path
from typing import Any

from generator.errors import HandbookError

INDEX = "search/search_index.json"

_WORKERS = Path("assets", "javascripts", "workers")
_OF_PAGES = ("js/sharing/places.js", "js/sharing/limits.js", "js/words/phrases.js")
_OURS = Path(__file__).with_name("search-worker")
_BEFORE = ("near-words.js", "numbers.js", "todays-number.js", "answers.js")
_AFTER = "theme-mended.js"


def read_index(rendered: Path) -> dict[str, Any]:
    """The search index of a rendered site; `docs` holds an entry for each page and each heading."""
    found: dict[str, Any] = json.loads((rendered / INDEX).read_text(encoding="utf-8"))
    return found


def page_of(entry: dict[str, Any]) -> str:
    """The path of the page that an entry of the index leads to."""
    return str(entry["location"]).partition("#")[0]


def offline(rendered: Path, for_scripts: Mapping[str, Any]) -> dict[str, bytes]:
    """The search index and the search worker of a rendered site, also as scripts: files of the site, by path.

    `for_scripts` is what the scripts in pages know: its phrases (`words`) and its `lessons`.
    Pages stand in the index by path, in whatever order they were rendered. Tags in it are words, and the theme reads
    them as HTML: they are escaped first. The worker is the theme's own between scripts of ours,
    also where it stands in the site for pages on a server.
    """
    index = read_index(rendered)
    index["docs"].sort(key=page_of)
    for found in index["docs"]:
        if "tags" in found:
            found["tags"] = [escape(tag, quote=False) for tag in found["tags"]]
    text = json.dumps(index, ensure_ascii=False, separators=(",", ":"))
    path, source = _worker(rendered, _known(for_scripts))
    made = {
        INDEX: text,
        "search/search_index.js": f"var __index = {text};\n",
        "js/search-worker.js": f"window.searchWorker = {json.dumps(source)};\n",
        path: source,
    }
    return {path: text.encode() for path, text in made.items()}


def _known(for_scripts: Mapping[str, Any]) -> dict[str, Any]:
    """The data from which the worker answers questions about numbers."""
    words = for_scripts["words"]
    phrases = {key: phrase for key, phrase in words["phrases"].items() if key.startswith(("number.", "search."))}
    return {"words": {**words, "phrases": phrases}, "lessons": for_scripts["lessons"]}


def _worker(folder: Path, known: Mapping[str, Any]) -> tuple[str, str]:
    """The path of the search worker in the site, and its script: ours to read a question, the theme's own, our fix."""
    found = sorted((folder / _WORKERS).glob("search.*.js"))
    if len(found) != 1:
        raise HandbookError(
            f"{folder / _WORKERS}: {len(found)} search workers where the theme should have put one; "
            "install the version of mkdocs-material that pyproject.toml asks for"
        )
    lines = found[0].read_text(encoding="utf-8").splitlines(keepends=True)
    without_source_map = "".join(line for line in lines if not line.startswith("//# sourceMappingURL="))
    scripts = [
        f"(globalThis.sharing ??= {{}}).handbook = {json.dumps(known, ensure_ascii=False)};",
        *((folder / name).read_text(encoding="utf-8") for name in _OF_PAGES),
        *((_OURS / name).read_text(encoding="utf-8") for name in _BEFORE),
        without_source_map,
        (_OURS / _AFTER).read_text(encoding="utf-8"),
    ]
    return found[0].relative_to(folder).as_posix(), "\n".join(scripts)
