"""The twenty longest sentences of a built handbook, as a report: `python -m tests.longest_sentences [SITE]`."""

import re
import sys
from html.parser import HTMLParser
from pathlib import Path

from generator.build.straight_line import WORKSHOP
from tests.pages.reading import is_book

SHOWN = 20
TOLD = frozenset(
    ["p", "li", "td", "th", "dd", "dt", "h1", "h2", "h3", "summary", "figcaption", "caption", "label", "option", "pre"]
)


class Texts(HTMLParser):
    """The text of every paragraph, list item and cell of a page's article."""

    def __init__(self) -> None:
        super().__init__()
        self.texts: list[str] = []
        self._inside = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._inside |= tag == "article"
        if tag in TOLD:
            self.texts.append("")

    def handle_endtag(self, tag: str) -> None:
        self._inside &= tag != "article"
        if tag in TOLD:
            self.texts.append("")

    def handle_data(self, data: str) -> None:
        if self._inside and self.texts:
            self.texts[-1] += data


def sentences(page: Path) -> set[str]:
    """Every sentence of a page, with single spaces."""
    reader = Texts()
    reader.feed(page.read_text("utf-8"))
    parts = (part for text in reader.texts for part in re.split(r"(?<=[.?!])\s+", " ".join(text.split())))
    return {part for part in parts if part.endswith((".", "?", "!"))}


def main(site: Path) -> None:
    """Print the longest sentences with the number of their words and a page that has them."""
    found: dict[str, str] = {}
    for page in sorted(site.rglob("*.html")):
        if not is_book(page.name):
            found |= dict.fromkeys(sentences(page) - found.keys(), page.relative_to(site).as_posix())
    for sentence in sorted(found, key=lambda text: (-len(text.split()), text))[:SHOWN]:
        print(f"{len(sentence.split()):3} words, {found[sentence]}: {sentence}")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else WORKSHOP / "site")
