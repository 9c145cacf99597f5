"""The templates' surroundings: every value printed is made safe, and nothing but these names can be reached."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from jinja2 import FileSystemLoader, StrictUndefined
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup

from generator.engine.buying import purchases
from generator.engine.diagnosis import diagnose, telling_slips
from generator.engine.kinds import kind_of
from generator.engine.numbers import best_first, numbers_of_kind
from generator.engine.places import place_name
from generator.engine.sharing import Sharing, share
from generator.engine.shelf import needs, shortages
from generator.engine.steps import Action
from generator.pages import titles, views, words
from generator.pages.page import Picture, address, from_page
from generator.pages.settings import settings
from generator.pages.slip_words import explain
from generator.pages.text import grouped, plain

TEMPLATES = Path(__file__).parent / "templates"

Size = tuple[float, float]


@dataclass(frozen=True)
class Shown:
    """A figure as a page shows it: its address from that page, and its size in CSS pixels."""

    src: str
    width: int
    height: int


class Writer:
    """Renders templates for one school.

    `size_of` tells the width and height of a figure before it is drawn, so that a page keeps its place free.
    """

    def __init__(self, school: Any, size_of: Callable[[Picture], Size]) -> None:
        self.school = school
        self._size_of = size_of

    def render(self, template: str, page: str, data: Mapping[str, Any]) -> tuple[str, tuple[Picture, ...]]:
        """The Markdown of a template for the page at a path, and the figures it shows."""
        return self._fill(self._environment.get_template(template), page, data)

    def render_text(self, source: str, page: str, data: Mapping[str, Any]) -> tuple[str, tuple[Picture, ...]]:
        """The same for Markdown that somebody wrote."""
        return self._fill(self._environment.from_string(source), page, data)

    def number(self, number: int) -> str:
        """A number as this school writes it."""
        settings = self.school.numbers
        return grouped(number, settings.grouping, settings.group_four_digits)

    def _fill(self, template: Any, page: str, data: Mapping[str, Any]) -> tuple[str, tuple[Picture, ...]]:
        pictures: dict[Picture, None] = {}

        def picture(kind: str, sharing: Sharing | None = None, rows: Iterable[tuple[Any, ...]] = ()) -> Shown:
            if sharing:
                wanted = Picture(kind, sharing.dividend, sharing.divisor, sharing.ribbons)
            else:
                wanted = Picture(kind, rows=tuple(rows))
            pictures[wanted] = None
            width, height = self._size_of(wanted)
            return Shown(from_page(page, wanted.path), round(width), round(height))

        text = template.render(
            picture=picture,
            to=lambda target: from_page(page, target),
            href=lambda target: from_page(page, address(target)),
            **data,
        )
        return text, tuple(pictures)

    @cached_property
    def _environment(self) -> ImmutableSandboxedEnvironment:
        environment = ImmutableSandboxedEnvironment(
            loader=FileSystemLoader(TEMPLATES),
            autoescape=True,
            finalize=self._printed,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            keep_trailing_newline=True,
        )
        environment.filters |= {
            "capital": words.capital,
            "listing": words.listing,
            "lower_first": words.lower_first,
            "name": place_name,
            "words": words.number_words,
            "small": words.small_number,
        }
        environment.globals |= {
            "Action": Action,
            "count": words.count,
            "diagnose": diagnose,
            "division_name": lambda sharing: titles.division_name(sharing, self.number),
            "explain": explain,
            "kind_of": kind_of,
            "lesson_title": lambda sharing: titles.lesson_title(sharing, self.number),
            "names": words.names,
            "needs": needs,
            "piece": words.piece,
            "pieces": words.pieces,
            "purchases": purchases,
            "ready_numbers": self._ready_numbers,
            "school": self.school,
            "settings": settings,
            "shape": words.shape,
            "share": share,
            "shortages": shortages,
            "telling_slips": telling_slips,
            "views": views,
        }
        return environment

    def _ready_numbers(self, divisor: int, kind: str) -> tuple[int, ...]:
        """Four-digit numbers of one of KINDS, best for a lesson first; of those the shelf allows, if it allows any."""
        allowed = numbers_of_kind(divisor, kind, self.school.shelf.owned)
        return best_first(divisor, allowed or numbers_of_kind(divisor, kind))

    def _printed(self, value: Any) -> Any:
        if isinstance(value, Markup):
            return value
        if isinstance(value, int) and not isinstance(value, bool):
            return plain(self.number(value))
        return plain(str(value))
