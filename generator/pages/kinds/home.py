"""The first page: where to begin."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from generator.pages.writing.links import LessonLink
from generator.pages.writing.page import Page
from generator.pages.writing.writer import Writer
from generator.source.models import Step

HOME = "index.md"


def write_home(writer: Writer, links: Sequence[LessonLink], first_step: Step, reviewed: date) -> Page:
    """Leads to numbers for each size of group, to its very first lesson if it has one, and to all other parts.

    `links` are all lessons in teaching order. Ribbons are reached through the step that begins them.
    """
    firsts: dict[int, LessonLink] = {}
    for link in links[: len(first_step.lessons)]:
        firsts.setdefault(link.divisor, link)
    ribbons = next((link.path.rpartition("/")[0] + "/index.md" for link in links if link.ribbons), "")
    data = {"lessons": len(links), "firsts": [firsts[size] for size in sorted(firsts)], "ribbons": ribbons}
    page = writer.page("home", HOME, data, reviewed)
    return replace(page, meta={**page.meta, "scripts": "ask"})
