"""From what MkDocs rendered to the files of a site that works from disk, on paper and on a server."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from itertools import chain
from pathlib import Path

from generator.pages.run_many import RunMany
from generator.site import book, dates, paper, policy, search, servers
from generator.site.changes import changed
from generator.site.render import Settings


def finished(
    rendered: Path,
    paths: Sequence[str],
    parts: Sequence[book.Part],
    settings: Settings,
    built: date,
    on_paper: str | None,
    run_many: RunMany,
) -> Iterator[tuple[str, bytes]]:
    """The files of the site, by path; `paths` are those of the rendered files, `parts` those of the book of all pages.

    `built` is the day that pages state; `on_paper` is one of paper.PAPERS, or None to leave the choice to the printer.
    """
    imprint = f"{settings.site_name}, version {settings.version}, {built.isoformat()}"
    scripts = policy.theme_scripts(rendered)
    whole, chapter_pages = book.bind(rendered, parts, settings.site_name, imprint, run_many)
    pages = ((path, (rendered / path).read_text("utf-8")) for path in paths if path.endswith(".html"))
    yield from changed(
        chain(pages, [(book.BOOK, whole)]),
        dates.for_day(built),
        paper.for_print(imprint, on_paper),
        policy.for_pages(scripts),
    )
    made = {
        **search.offline(rendered),
        **servers.files(settings.sub_path, scripts),
        book.CHAPTER_PAGES: chapter_pages.encode(),
    }
    yield from made.items()
    yield from (
        (path, (rendered / path).read_bytes()) for path in paths if path not in made and not path.endswith(".html")
    )
