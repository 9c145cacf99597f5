"""The contents of a book: its parts, chapters and plans, with the sheet on which each begins, where that is known.

No browser can write a page number into a list, so the numbers are counted: a title, the contents, then chapters for
as long as each has a known number of sheets.
"""

from collections.abc import Iterator, Sequence
from math import ceil
from typing import NamedTuple

from generator.site.sheets_of_paper import Sheets

_LETTERS_IN_A_LINE = 44
_LINES_ON_A_SHEET = 96
"""Of the contents, which stand in two columns."""


class Chapter(NamedTuple):
    """One page in the book, numbered from 1 through all parts. Its anchor stands in front of every id inside it.

    plans: the anchors and titles of its plans, a sheet for each
    """

    number: int
    anchor: str
    title: str
    content: str
    sheets: Sheets
    plans: Sequence[tuple[str, str]]


class Entry(NamedTuple):
    """A line of the contents: a chapter or a plan with its anchor, or a part. `page` is its first sheet, if known."""

    title: str
    anchor: str = ""
    number: str = ""
    page: int | None = None

    @property
    def lines(self) -> int:
        return ceil(len(self.title) / _LETTERS_IN_A_LINE)


def contents_of(parts: Sequence[tuple[str, Sequence[Chapter]]]) -> list[list[Entry]]:
    """The lines of the contents, sheet by sheet; they follow the sheet of the title."""
    sheets = len(_on_sheets(_entries(parts, first=0)))
    return _on_sheets(_entries(parts, first=2 + sheets))


def _entries(parts: Sequence[tuple[str, Sequence[Chapter]]], first: int) -> Iterator[Entry]:
    """The lines of the contents; `first` is the sheet on which the first chapter begins."""
    page = first if parts[0][1][0].sheets.known else None
    for title, chapters in parts:
        yield Entry(title)
        for chapter in chapters:
            yield Entry(chapter.title, chapter.anchor, str(chapter.number), page)
            for sheet, (anchor, plan) in enumerate(chapter.plans):
                yield Entry(plan, anchor, page=page + sheet if page else None)
            page = page + chapter.sheets.number if page and chapter.sheets.known else None


def _on_sheets(entries: Iterator[Entry]) -> list[list[Entry]]:
    """The lines of the contents, as many on each sheet as it holds."""
    filled: list[list[Entry]] = [[]]
    for entry in entries:
        if sum(line.lines for line in filled[-1]) + entry.lines > _LINES_ON_A_SHEET:
            filled.append([])
        filled[-1].append(entry)
    return filled
