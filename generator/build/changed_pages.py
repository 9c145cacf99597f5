"""What MkDocs has made of each page is kept: a page whose words are the same is not rendered again.

What a page looks like depends on other files only by their paths, and on other pages only by their places in the
navigation. So where these and the settings are the same, MkDocs is given only what has changed.
"""

import json
from collections import defaultdict
from pathlib import Path, PurePosixPath

from generator.build.kept_results import Results, digests, key_of
from generator.build.other_processes import Submit
from generator.build.two_runs import render_pages
from generator.site.run_mkdocs import Nav, Settings
from generator.site.search import INDEX, page_of
from generator.site.staging import write_files


def render_changed(
    results: Results, submit: Submit | None, docs: Path, folder: Path, nav: Nav, settings: Settings
) -> list[str]:
    """Make `folder` the rendered site of all Markdown in `docs`; return the paths of its files.

    Raises SourceError as `render` does.
    """
    staged = digests(docs)
    common = key_of("rendered", nav, settings, sorted(staged))
    keys = {page: key_of(common, page, staged[page]) for page in sorted(staged) if page.endswith(".md")}
    kept = {page: results.get(key) for page, key in keys.items()}
    index = render_pages(submit, docs, folder, nav, settings, [page for page, known in kept.items() if known is None])
    entries = defaultdict(list)
    for entry in index["docs"]:
        entries[page_of(entry)].append(entry)
    for page, known in kept.items():
        file = str(PurePosixPath(page).with_suffix(".html"))
        if known is None:
            made = json.dumps([(folder / file).read_bytes().decode(), entries[file]])
            results.put(keys[page], made.encode())
        else:
            text, found = json.loads(known)
            write_files(folder, [(file, text.encode())])
            index["docs"] += found
    (folder / INDEX).write_text(json.dumps(index), "utf-8")
    return sorted(file.relative_to(folder).as_posix() for file in folder.rglob("*") if file.is_file())
