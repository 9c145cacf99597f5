"""From what MkDocs rendered to the files of a site that works from disk, on paper and on a server."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from itertools import chain
from pathlib import Path
from typing import Any

from generator.site import book, dates, paper, policy, scripts, search, servers, sheets
from generator.site.run_mkdocs import Settings


def finished(
    rendered: Path,
    paths: Sequence[str],
    books: Sequence[book.Book],
    settings: Settings,
    built: date,
    on_paper: str,
    handbook: Mapping[str, Any],
) -> Iterator[tuple[str, bytes]]:
    """The files of the site, by path; `paths` are those of the rendered files.

    `built` is the day that pages state; `on_paper` is A4 or Letter; `handbook` is what scripts know of it.
    """
    imprint = f"{settings.site_name}, version {settings.version}, {built.isoformat()}"
    inline = policy.theme_scripts(rendered)
    bound = {each.path: book.bind(rendered, each, imprint, on_paper) for each in books}
    taken = {path: printed.sheets.number for path, printed in bound.items()}
    pages = ((path, (rendered / path).read_text("utf-8")) for path in paths if path.endswith(".html"))
    for path, text in chain(pages, ((path, printed.page) for path, printed in bound.items())):
        text = paper.marked(dates.dated(sheets.told(text, taken), built), imprint, on_paper)
        yield path, policy.guarded(path, text, inline).encode()
    kinds = scripts.listed()
    made = {
        **search.offline(rendered, handbook),
        **scripts.joined(rendered, paths, kinds),
        **servers.files(settings.sub_path, inline),
        **{each.chapter_pages: bound[each.path].chapter_pages.encode() for each in books},
    }
    yield from made.items()
    parts = set(chain.from_iterable(kinds.values()))
    for path in paths:
        if path not in made and path not in parts and not path.endswith(".html"):
            content = (rendered / path).read_bytes()
            yield path, scripts.lean(content.decode()).encode() if path.startswith(scripts.FOLDER) else content
