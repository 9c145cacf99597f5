"""From what MkDocs rendered to the files of a site that works from disk, on paper and on a server.

The margins of a printed page can read nothing but the outermost tag of a document, so what they say is written there:
`data-title` (the page's heading), `data-imprint` and `data-paper`. The style sheet for print does the rest.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from html import escape
from itertools import chain
from pathlib import Path
from typing import Any

from generator.site import book, dates, offline_search, policy, scripts, servers, sheets_of_paper
from generator.site.html import parse, words
from generator.site.run_mkdocs import Settings

_IMPRINT = '<span class="imprint"></span>'  # where a page leaves room for it


def finished(
    rendered: Path,
    paths: Sequence[str],
    books: Sequence[book.Book],
    settings: Settings,
    built: date,
    on_paper: str,
    for_scripts: Mapping[str, Any],
) -> Iterator[tuple[str, bytes]]:
    """The files of the site, by path; `paths` are those of the rendered files.

    `built` is the day that pages state; `on_paper` is A4 or Letter; `for_scripts` is what the scripts in pages know.
    """
    imprint = f"{settings.site_name}, version {settings.version}, {built.isoformat()}"
    inline = policy.theme_scripts(rendered)
    bound = {each.path: book.bind(rendered, each, imprint, on_paper) for each in books}
    taken = {path: printed.sheets.number for path, printed in bound.items()}
    pages = ((path, (rendered / path).read_text("utf-8")) for path in paths if path.endswith(".html"))
    for path, text in chain(pages, ((path, printed.page) for path, printed in bound.items())):
        text = marked(dates.dated(sheets_of_paper.with_sheets(text, taken), built), imprint, on_paper)
        yield path, policy.with_policy(path, text, inline).encode()
    made = {
        **offline_search.offline(rendered, for_scripts),
        **scripts.joined(rendered),
        **servers.files(settings.sub_path, inline),
        **{each.chapter_pages: bound[each.path].chapter_pages.encode() for each in books},
    }
    yield from made.items()
    joined = set(chain(*scripts.listed().values()))
    for path in paths:
        if path not in made and path not in joined and not path.endswith(".html"):
            content = (rendered / path).read_bytes()
            yield path, scripts.lean(content.decode()).encode() if path.startswith(scripts.FOLDER) else content


def marked(text: str, imprint: str, paper: str) -> str:
    """A finished page marked for print, also where it leaves room for an imprint. `paper` is A4 or Letter."""
    said = {"data-title": _heading(text), "data-imprint": imprint, "data-paper": paper}
    text = text.replace(_IMPRINT, _IMPRINT.replace("><", f">{escape(imprint)}<"))
    return text.replace("<html", "<html" + "".join(f' {name}="{escape(value)}"' for name, value in said.items()), 1)


def _heading(text: str) -> str:
    """The text of the first heading of the first level; "" if there is none, which the audit reports."""
    start = text.find("<h1")
    return words(parse(text[start : text.find("</h1", start)])) if start >= 0 else ""
