"""Pages that lead to others: the first page, the path and its steps, and every page from A to Z."""

import re
from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import date
from math import inf

from generator.engine.shelf import needs, shortages
from generator.pages.writing.links import LessonLink, StepLink, lesson_link, step_link
from generator.pages.writing.page import Page, front_matter
from generator.pages.writing.writer import Writer
from generator.source.models import PathStep
from generator.words.numbers import capital, first_sentence

HOME = "index.md"
_THE_PATH = "lessons/index.md"
A_Z = "reference/a-z.md"


def write_home(writer: Writer, links: Sequence[LessonLink], first_step: PathStep, reviewed: date) -> Page:
    """The first page: numbers and a very first lesson for each size of group, and links to all other parts.

    `links` are all lessons in teaching order; the first with ribbons gives the step that leads to them. A very first
    lesson belongs to the first step, has no exchange, ribbons or remainder, and the shelf has all that it takes.
    """
    firsts: dict[int, LessonLink] = {}
    for link in links[: len(first_step.lessons)]:
        plain = not (link.sharing.exchanges or link.sharing.remainder or link.ribbons)
        lacking = shortages(needs(link.sharing), writer.school.shelf.owned)
        if link.divisor in writer.school.groups.sizes and plain and not lacking:
            firsts.setdefault(link.divisor, link)
    ribbons = next((link.path.rpartition("/")[0] + "/index.md" for link in links if link.ribbons), "")
    data = {"lessons": len(links), "firsts": [firsts[size] for size in sorted(firsts)], "ribbons": ribbons}
    return writer.page("home", HOME, data, reviewed, scripts="ask")


def write_path(writer: Writer, steps: tuple[StepLink, ...], links: Sequence[LessonLink], reviewed: date) -> Page:
    """The whole path: all steps in teaching order; `links` are all lessons."""
    say = writer.phrases.say
    data = {
        "steps": steps,
        "names_and_counts": [say("alternative.path-step", step=step.title, lessons=step.lessons) for step in steps],
        "rows": [(step.short, step.lessons) for step in steps],
        "ribbons": any(link.ribbons for link in links),
        "begins_with_ribbons": links[0].ribbons,
    }
    return writer.page("path", _THE_PATH, data, reviewed)


def write_step(given: tuple[Writer, tuple[StepLink, ...]], step: PathStep) -> Page:
    """The overview of one step; `given` holds all steps in teaching order besides the writer."""
    writer, steps = given
    link = step_link(step)
    at = steps.index(link)
    data = {
        "step": step,
        "link": link,
        "position": at + 1,
        "of": len(steps),
        "lessons": [(lesson_link(lesson, writer), lesson.reason) for lesson in step.lessons],
        "previous": steps[at - 1] if at else None,
        "next": steps[at + 1] if at + 1 < len(steps) else None,
    }
    body, pictures = writer.render("step.md.jinja", link.path, data)
    meta = front_matter(first_sentence(step.new), (*step.tags, step.short), step.reviewed, writer.school.review.months)
    return Page(link.path, step.title, meta, body, pictures)


def write_a_z(writer: Writer, every: Iterable[Page], reviewed: date) -> Page:
    """Pages by title and tags in the order of the alphabet; what begins with a number comes first, by its value.

    A tag without a letter is for the search field alone.
    """
    pages: dict[str, dict[str, Page]] = defaultdict(dict)
    for page in every:
        for word in (page.title, *(tag for tag in page.meta["tags"] if any(map(str.isalpha, tag)))):
            pages[capital(word)][page.path] = page
    letters: dict[str, list[tuple[str, tuple[Page, ...]]]] = defaultdict(list)
    mark = writer.school.numbers.mark
    for word in sorted(pages, key=lambda word: _sort_key(word, mark)):
        first = _without_marks(word)[:1].upper()
        letters[first if first.isalpha() else "0-9"].append((word, tuple(pages[word].values())))
    return writer.page("a-z", A_Z, {"letters": letters}, reviewed)


def _sort_key(word: str, mark: str) -> tuple[float, str, str]:
    """The order "9 children", "10 children", "2,047 for 20", "bank"; `mark` stands between the digits of numbers."""
    number = re.match(r"\d+", word.replace(mark, ""))
    return int(number[0]) if number else inf, _without_marks(word).casefold(), word


def _without_marks(word: str) -> str:
    """A word without the quotation mark or bracket that it may begin with."""
    return re.sub(r"^\W+", "", word)
