"""Which pages are bound together to be printed: everything, all plans, and the parts that people ask for alone."""

from collections.abc import Callable, Iterable

from generator.pages.handbook import Handbook
from generator.pages.kinds.overviews import A_Z
from generator.pages.kinds.today import TODAY
from generator.pages.writing.page import Page, site_address
from generator.site.book import BOOK, Book, BookPart
from generator.source.models import PAGES_OF_A_STEP

_ALONE = ("new-here", "when-it-goes-wrong", "reference")
_AT_A_COMPUTER = (A_Z, TODAY, "for-the-school/")
_LAST = ("reference/cautions.md", "when-it-goes-wrong/emergency.md")
_OF_A_STEP = tuple(f"/{page}.md" for page in PAGES_OF_A_STEP)


def books(handbook: Handbook, say: Callable[[str], str]) -> list[Book]:
    """The book of everything and those of its parts, with titles by the keys of their phrases.

    A lesson is bound as its plan: its page is made for the screen. The plans come first, because their sheets are
    known. Cautions and emergency end the book of everything: found without a number, and no sheet before them moves.
    Left out are cards, which are cut, the first page, which is nothing but links, and what is used at a computer.
    """
    lessons, *sections = handbook.sections
    plans = _part(say("plans.part"), [page for page in lessons.pages if page.path.endswith("/plans.md")])
    overviews = _part(lessons.title, [page for page in lessons.pages if page.path.endswith("/index.md")])
    as_plans = {
        site_address(page.path): _plan_of(page.path) for page in lessons.pages if not page.path.endswith(_OF_A_STEP)
    }
    others: dict[str, BookPart] = {}
    for section in sections:
        pages = [page for page in section.pages if not page.path.startswith(_AT_A_COMPUTER)]
        if pages:
            others[pages[0].path.split("/")[0]] = _part(section.title, pages)
    by_path = {page.path: page for page in handbook.pages}
    last = _part(say("book.last"), [by_path[path] for path in _LAST if path in by_path])
    whole = [plans, overviews, *others.values()]
    without_last = [part._replace(pages=tuple(page for page in part.pages if page not in last.pages)) for part in whole]
    return [
        Book(BOOK, say("home.heading"), [*without_last, last], as_plans, last.title),
        Book("book-plans.html", plans.title, [plans], as_plans),
        *(Book(f"book-{folder}.html", others[folder].title, [others[folder]]) for folder in _ALONE if folder in others),
    ]


def _part(title: str, pages: Iterable[Page]) -> BookPart:
    return BookPart(title, tuple(site_address(page.path) for page in pages))


def _plan_of(lesson: str) -> str:
    """Where the plan of the lesson at a path stands."""
    folder, _, name = lesson.rpartition("/")
    return f"{folder}/plans.html#{name.removesuffix('.md')}"
