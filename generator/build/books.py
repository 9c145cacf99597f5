"""Which pages are bound together to be printed: everything, all plans, and the parts that people ask for alone."""

from __future__ import annotations

from collections.abc import Iterable

from generator.pages.handbook import Handbook, Section
from generator.pages.kinds.a_z import PATH as A_Z
from generator.pages.kinds.today import PATH as TODAY
from generator.pages.writing.page import Page, address
from generator.site.book import BOOK, Book, BookPart

_ALONE = ("new-here", "when-it-goes-wrong", "reference")
_AT_A_COMPUTER = (A_Z, TODAY, "for-the-school/")
_OF_A_STEP = ("/index.md", "/plans.md", "/cards.md")


def books(handbook: Handbook, title: str, plans_title: str) -> list[Book]:
    """The book of everything, called by a title, and those of its parts.

    A lesson is bound as its plan: its page is made for the screen. The plans come first, because their sheets are
    known. Left out are cards, which are cut, the first page, which is nothing but links, and what is used at a
    computer.
    """
    lessons, *sections = handbook.sections
    kept = [
        (each.title, [page for page in each.pages if not page.path.startswith(_AT_A_COMPUTER)]) for each in sections
    ]
    others = [Section(title, tuple(pages)) for title, pages in kept if pages]
    plans = BookPart(plans_title, _addresses(page for page in lessons.pages if page.path.endswith("/plans.md")))
    overviews = BookPart(lessons.title, _addresses(page for page in lessons.pages if page.path.endswith("/index.md")))
    as_plans = {address(page.path): _plan_of(page.path) for page in lessons.pages if not page.path.endswith(_OF_A_STEP)}
    parts = [plans, overviews, *map(_part, others)]
    alone = {section.pages[0].path.split("/")[0]: _part(section) for section in others}
    return [
        Book(BOOK, title, parts, as_plans),
        Book("book-plans.html", plans_title, [plans], as_plans),
        *(Book(f"book-{folder}.html", alone[folder].title, [alone[folder]]) for folder in _ALONE if folder in alone),
    ]


def _part(section: Section) -> BookPart:
    return BookPart(section.title, _addresses(section.pages))


def _addresses(pages: Iterable[Page]) -> tuple[str, ...]:
    return tuple(address(page.path) for page in pages)


def _plan_of(lesson: str) -> str:
    """Where the plan of the lesson at a path stands."""
    folder, _, name = lesson.rpartition("/")
    return f"{folder}/plans.html#{name.removesuffix('.md')}"
