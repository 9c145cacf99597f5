"""From what MkDocs rendered to the files of a site that works from disk, on paper and on a server."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from itertools import chain
from pathlib import Path
from typing import Any

from generator.site import book, dates, paper, policy, search, servers
from generator.site.render import Settings


def finished(
    rendered: Path,
    paths: Sequence[str],
    parts: Sequence[book.BookPart],
    settings: Settings,
    built: date,
    on_paper: str | None,
    handbook: Mapping[str, Any],
) -> Iterator[tuple[str, bytes]]:
    """The files of the site, by path; `paths` are those of the rendered files, `parts` those of the book of all pages.

    `built` is the day that pages state; `on_paper` is one of paper.PAPERS, or None to leave the choice to the printer;
    `handbook` is what scripts know of it.
    """
    imprint = f"{settings.site_name}, version {settings.version}, {built.isoformat()}"
    scripts = policy.theme_scripts(rendered)
    whole_book, chapter_pages = book.bind(rendered, parts, settings.site_name, imprint)
    pages = ((path, (rendered / path).read_text("utf-8")) for path in paths if path.endswith(".html"))
    for path, text in chain(pages, [(book.BOOK, whole_book)]):
        text = paper.marked(dates.dated(text, built), imprint, on_paper)
        yield path, policy.guarded(path, text, scripts).encode()
    made = {
        **search.offline(rendered, handbook),
        **servers.files(settings.sub_path, scripts),
        book.CHAPTER_PAGES: chapter_pages.encode(),
    }
    yield from made.items()
    yield from (
        (path, (rendered / path).read_bytes()) for path in paths if path not in made and not path.endswith(".html")
    )
