"""What a printed page says in its margins, and on which paper.

The margins of a page can read nothing but the outermost tag of a document, so this writes it there:
`data-title` (the page's heading), `data-imprint` and, if the school has chosen one, `data-paper`. The style
sheet for print does the rest.
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from pathlib import Path

from generator.site.html import tags, words

PAPERS = ("A4", "Letter")


def prepare_for_print(pages: Iterable[Path], imprint: str, paper: str | None = None) -> None:
    """Mark finished pages for print. `paper` is one of PAPERS, or None to leave the choice to the printer."""
    for page in pages:
        text = page.read_text("utf-8")
        start = text.index("<html")
        said = {"data-title": _heading(text), "data-imprint": imprint} | ({"data-paper": paper} if paper else {})
        written = "".join(f' {name}="{escape(value)}"' for name, value in said.items())
        page.write_text(f"{text[: start + 5]}{written}{text[start + 5 :]}", "utf-8", newline="\n")


def _heading(text: str) -> str:
    """The text of the first heading of the first level; nothing if there is none, which the audit reports."""
    heading = next(tags(text, text.find("<h1")), None) if "<h1" in text else None
    return words(text[heading.end : text.find("</h1", heading.end)]) if heading else ""
