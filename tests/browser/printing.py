"""Print pages with headless Chromium and read the sheets back with the Poppler tools."""

import re
import subprocess
from collections import defaultdict
from collections.abc import Iterable
from html import unescape
from pathlib import Path
from typing import NamedTuple

from playwright.sync_api import Page

PAPERS = {"A4": (595, 842), "Letter": (612, 792)}  # ISO 216 and ANSI/ASME Y14.1, in points of 1/72 inch
MARGIN = 34  # points, as the style sheet for print leaves them above and below
OFF_BY = 0.15  # how far the sheets that a book states may be from those that are printed, as a part of these
WHOLE = ":is(figure, tbody tr, .card, .checklist li, .admonition, .glance)"

_WORD = re.compile(r'<word xMin="(.*?)" yMin="(.*?)" xMax="(.*?)" yMax="(.*?)">(.*?)</word>')
_MARK = re.compile(r"zq(\d+)(top|bottom)")

# Writes a tiny word at the upper and the lower edge of everything that must not be cut, without moving anything.
_WRITE_MARKS = """(selector) => {
  const marked = [...document.querySelectorAll(selector)].filter((element) => element.getClientRects().length);
  marked.forEach((element, number) => {
    const host = element.matches("tr") ? element.cells[0] : element;
    host.style.position = "relative";
    for (const edge of ["top", "bottom"]) {
      const mark = document.createElement("span");
      mark.textContent = `zq${number}${edge}`;
      Object.assign(mark.style, { position: "absolute", right: 0, [edge]: 0, font: "3px/1 monospace" });
      host.append(mark);
    }
  });
  return marked.length;
}"""


class Word(NamedTuple):
    """A word on a sheet, with its box in points from the upper left corner."""

    left: float
    top: float
    right: float
    bottom: float
    text: str


class Sheet(NamedTuple):
    """One printed sheet; `text` is what stands on it, spaces run together."""

    width: float
    height: float
    words: tuple[Word, ...]

    @property
    def text(self) -> str:
        return " ".join(word.text for word in self.words)

    @property
    def head(self) -> str:
        """What stands in the upper margin, from left to right."""
        return _in_line(word for word in self.words if word.bottom < MARGIN)

    @property
    def foot(self) -> str:
        """What stands in the lower margin, from left to right."""
        return _in_line(word for word in self.words if word.top > self.height - MARGIN)


def _in_line(words: Iterable[Word]) -> str:
    return " ".join(word.text for word in sorted(words) if not _MARK.fullmatch(word.text))


def mark(page: Page, within: str = "body") -> int:
    """Mark the edges of everything that must stay whole on paper, inside what a selector finds; return how many."""
    page.emulate_media(media="print")
    count = page.evaluate(_WRITE_MARKS, f"{within} {WHOLE}")
    assert isinstance(count, int)
    return count


def print_to(pdf: Path, page: Page, paper: str | None = None) -> tuple[Sheet, ...]:
    """Print what the page shows, on a paper of PAPERS or on the one that the page itself asks for.

    A page that asks for another paper would be laid out for that and made smaller.
    """
    if paper:
        page.evaluate("(paper) => { document.documentElement.dataset.paper = paper; }", paper)
    page.pdf(path=pdf, format=paper or "A4", prefer_css_page_size=paper is None)
    found = subprocess.run(["pdftotext", "-bbox", pdf, "-"], capture_output=True, check=True, text=True).stdout
    sheets = []
    for part in found.split("<page ")[1:]:
        size = re.match(r'width="(.*?)" height="(.*?)"', part)
        assert size
        words = tuple(
            Word(float(left), float(top), float(right), float(bottom), unescape(text))
            for left, top, right, bottom, text in _WORD.findall(part)
        )
        sheets.append(Sheet(float(size[1]), float(size[2]), words))
    return tuple(sheets)


def stated(page: Page) -> int:
    """How many sheets a book says that it takes."""
    return int(page.locator(".book-sheets").text_content() or "")


def cut(sheets: tuple[Sheet, ...], marked: int) -> list[int]:
    """The numbers of the marked things that do not begin and end on one sheet."""
    edges: dict[int, list[int]] = defaultdict(list)
    for number, sheet in enumerate(sheets):
        for thing, _edge in _MARK.findall(sheet.text):
            edges[int(thing)].append(number)
    return [thing for thing in range(marked) if len(edges[thing]) != 2 or len(set(edges[thing])) != 1]


def links(pdf: Path) -> list[tuple[str, int]]:
    """The text of every link inside a PDF and the number of the sheet it leads to, counted from 1."""
    found = subprocess.run(
        ["pdftohtml", "-xml", "-i", "-stdout", pdf], capture_output=True, check=True, text=True
    ).stdout
    inside = re.findall(r'<a href="[^":]*#(\d+)">(.*?)</a>', found)
    return [(" ".join(unescape(re.sub("<.*?>", "", text)).split()), int(sheet)) for sheet, text in inside]
