"""A small handbook with every kind of page part, built the way the real one is."""

from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

from generator.site.book import BOOK, Book, BookPart
from generator.site.finish import finished
from generator.site.run_mkdocs import Nav, Settings, render
from generator.site.school_look import STOCK_LOGO
from generator.site.staging import write_files
from generator.words.phrases import Phrases

DOCS = Path(__file__).parent / "sample"

NAV: Nav = [
    {"Start": "index.md"},
    {"I am new here": [{"The material and the rules": "learn/index.md"}, {"Dealing in rounds": "learn/rounds.md"}]},
    {"Lessons": [{"Something is left over": "lessons/uneven/index.md"}]},
    {"When it goes wrong": "trouble/index.md"},
    {"Reference": [{"A-Z of situations": "reference/a-z.md"}]},
]

SETTINGS = Settings("Hazel Lane sharing handbook", "1.2.3", "/handbook/", STOCK_LOGO)
BUILT = date(2026, 3, 1)
KNOWN = {"words": Phrases("en").as_data(), "lessons": []}


def build(folder: Path, docs: Path = DOCS, nav: Nav = NAV, settings: Settings = SETTINGS) -> Path:
    """Write a whole site into `folder` and return it."""
    with TemporaryDirectory() as name:
        rendered = Path(name)
        render(docs, rendered, nav, settings)
        write_files(rendered, [("js/our-handbook.js", b"")])  # what only a whole handbook says to its scripts
        paths = [file.relative_to(rendered).as_posix() for file in rendered.rglob("*") if file.is_file()]
        pages = sorted(path for path in paths if path.endswith(".html") and path not in ("404.html", "index.html"))
        parts = [BookPart("First", ("index.html",)), BookPart("Others", tuple(pages))]
        books = [Book(BOOK, settings.site_name, parts)]
        write_files(folder, finished(rendered, paths, books, settings, BUILT, "A4", KNOWN))
    return folder
