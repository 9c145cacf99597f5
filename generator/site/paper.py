"""What a printed page says in its margins, and on which paper.

The margins of a page can read nothing but the outermost tag of a document, so this writes it there:
`data-title` (the page's heading), `data-imprint` and, if the school has chosen one, `data-paper`. The style
sheet for print does the rest.
"""

from __future__ import annotations

from html import escape

from generator.site.changes import Change
from generator.site.html import tags, words

PAPERS = ("A4", "Letter")


def for_print(imprint: str, paper: str | None = None) -> Change:
    """Mark finished pages for print. `paper` is one of PAPERS, or None to leave the choice to the printer."""

    def mark(_: str, text: str) -> str:
        start = text.index("<html") + len("<html")
        said = {"data-title": _heading(text), "data-imprint": imprint} | ({"data-paper": paper} if paper else {})
        written = "".join(f' {name}="{escape(value)}"' for name, value in said.items())
        return f"{text[:start]}{written}{text[start:]}"

    return mark


def _heading(text: str) -> str:
    """The text of the first heading of the first level; nothing if there is none, which the audit reports."""
    heading = next(tags(text, text.find("<h1")), None) if "<h1" in text else None
    return words(text[heading.end : text.find("</h1", heading.end)]) if heading else ""
