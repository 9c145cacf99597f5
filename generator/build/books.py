"""Which pages are bound together to be printed: everything, all plans, and the parts that people ask for alone."""

from collections.abc import Iterable

from generator.pages.handbook import Handbook
from generator.pages.kinds.overviews import A_Z
from generator.pages.kinds.today import TODAY
from generator.pages.writing.page import Page, site_address
from generator.site.book import BOOK, Book, BookPart
from generator.source.models import PAGES_OF_A_STEP

_ALONE = ("new-here", "when-it-goes-wrong", "reference")
_AT_A_COMPUTER = (A_Z, TODAY, "for-the-school/")
_OF_A_STEP = tuple(f"/{page}.md" for page in PAGES_OF_A_STEP)


def books(handbook: Handbook, title: str, plans_title: str) -> list[Book]:
    """The book of everything, called by a title, and those of its parts.

    A lesson is bound as its plan: its page is made for the screen. The plans come first, because their sheets are
    known. Left out are cards, which are cut, the first page, which is nothing but links, and what is used at a
    computer.
    """
    lessons, *sections = handbook.sections
    plans = _part(plans_title, [page for page in lessons.pages if page.path.endswith("/plans.md")])
    overviews = _part(lessons.title, [page for page in lessons.pages if page.path.endswith("/index.md")])
    as_plans = {
        site_address(page.path): _plan_of(page.path) for page in lessons.pages if not page.path.endswith(_OF_A_STEP)
    }
    others: dict[str, BookPart] = {}
    for section in sections:
        pages = [page for page in section.pages if not page.path.startswith(_AT_A_COMPUTER)]
        if pages:
            others[pages[0].path.split("/")[0]] = _part(section.title, pages)
    return [
        Book(BOOK, title, [plans, overviews, *others.values()], as_plans),
        Book("book-plans.html", plans_title, [plans], as_plans),
        *(Book(f"book-{folder}.html", others[folder].title, [others[folder]]) for folder in _ALONE if folder in others),
    ]


def _part(title: str, pages: Iterable[Page]) -> BookPart:
    return BookPart(title, tuple(site_address(page.path) for page in pages))


def _plan_of(lesson: str) -> str:
    """Where the plan of the lesson at a path stands."""
    folder, _, name = lesson.rpartition("/")
    return f"{folder}/plans.html#{name.removesuffix('.md')}"
