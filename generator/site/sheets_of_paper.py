"""How many sheets of paper a chapter of a book takes, exactly or about, without a browser.

A chapter of plans has one sheet for each plan: that is known. The height of any other text is added up from what it
holds, at the sizes that the style sheet for print gives; tests compare it with books that a browser has printed.
A page leaves room for the sheets of a book by `<span data-sheets="book.html"></span>`.
"""

import re
from collections.abc import Mapping
from math import ceil
from typing import NamedTuple

from generator.site.html import Element, words

_PAGES = {"A4": (186, 273), "Letter": (191, 255)}
"""Width and height in millimetres that the margins of a sheet leave."""

_LINE, _TABLE_LINE, _LETTER, _TABLE_LETTER = 4.7, 4.0, 1.75, 1.5
"""In millimetres: the heights of lines of text and of tables, and the widths of their letters."""

_HEADINGS = {"h1": 14, "h2": 14, "h3": 12, "h4": 11, "h5": 9, "h6": 9}
_TEXTS = frozenset({"p", "li", "dt", "dd", "blockquote", "figcaption", "caption", "summary", "pre"})
_BETWEEN = 1.7
_ROOM_FOR_SHEETS = re.compile(r'(<span data-sheets="([^"]*)">)(?=</span>)')
_TALLEST_PICTURE = 90.0
_WITH_GAPS = 1.05  # because what belongs together is kept on one sheet, which leaves gaps on others

_PIXEL = 25.4 / 96


class Sheets(NamedTuple):
    """How many sheets, and whether that is known or only about right."""

    number: int
    known: bool


def sheets(article: Element, paper: str) -> Sheets:
    """The sheets of one chapter on A4 or Letter."""
    plans = plans_in(article)
    if plans:
        return Sheets(len(plans), True)
    width, height = _PAGES[paper]
    filled = _WITH_GAPS * sum(_height(element, width) for element in article.iter())
    return Sheets(ceil(filled / height), False)


def with_sheets(text: str, taken: Mapping[str, int]) -> str:
    """A page with the number of sheets of each book where it leaves room; `taken` has these by the books' paths."""
    return _ROOM_FOR_SHEETS.sub(lambda found: f"{found[1]}{taken.get(found[2], '')}", text)


def plans_in(article: Element) -> list[Element]:
    """The plans of a chapter, each of which is made to fill one sheet."""
    return article.findall(".//section[@class='plan']")


def _height(element: Element, width: float) -> float:
    """What an element adds to the height of its chapter; what it holds adds its own."""
    tag = str(element.tag)
    if tag in _HEADINGS:
        return _HEADINGS[tag]
    if tag == "img":
        return _height_of_picture(element, width) + _BETWEEN
    if tag == "tr":
        cells = [len(words(cell)) * _TABLE_LETTER for cell in element]
        return max(ceil(cell * len(cells) / width) for cell in cells) * _TABLE_LINE + _BETWEEN if cells else 0
    in_a_row = next(element.iterancestors("tr"), None) is not None
    if tag not in _TEXTS or in_a_row or any(inner.tag in _TEXTS for inner in element.iterdescendants()):
        return 0
    return ceil(len(words(element)) * _LETTER / width) * _LINE + (0 if tag == "li" else _BETWEEN)


def _height_of_picture(element: Element, width: float) -> float:
    """The height on paper, where a picture is no wider than its sheet; the tallest if it states no size in pixels."""
    try:
        wide, high = (float(element.get(side, "")) * _PIXEL for side in ("width", "height"))
    except ValueError:
        return _TALLEST_PICTURE
    return min(_TALLEST_PICTURE, high * min(1, width / max(wide, 1)))
