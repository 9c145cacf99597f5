"""What a printed page says in its margins, and on which paper.

The margins of a page can read nothing but the outermost tag of a document, so this writes it there:
`data-title` (the page's heading), `data-imprint` and `data-paper`. The style sheet for print does the rest.
"""

from __future__ import annotations

from html import escape

from generator.site.html import parse, words


def marked(text: str, imprint: str, paper: str) -> str:
    """A finished page marked for print. `paper` is A4 or Letter."""
    said = {"data-title": _heading(text), "data-imprint": imprint, "data-paper": paper}
    return text.replace("<html", "<html" + "".join(f' {name}="{escape(value)}"' for name, value in said.items()), 1)


def _heading(text: str) -> str:
    """The text of the first heading of the first level; nothing if there is none, which the audit reports."""
    start = text.find("<h1")
    return words(parse(text[start : text.find("</h1", start)])) if start >= 0 else ""
