"""The names that a template may use: every value printed is made safe, and nothing but these can be reached."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property, lru_cache, partial
from html import escape
from typing import Any
from urllib.parse import quote

from jinja2 import FileSystemLoader, StrictUndefined, Template
from markupsafe import Markup

from generator import HANDBOOK
from generator.engine.buying import most_needed, purchases
from generator.engine.diagnosis import diagnose, telling_slips
from generator.engine.features import features_of
from generator.engine.numbers import best_first, numbers_of_kind
from generator.engine.places import place_name
from generator.engine.sharing import Sharing, share
from generator.engine.shelf import needs, shortages
from generator.errors import HandbookError, SourceError
from generator.figures.gallery import size
from generator.figures.picture import OF_A_DIVISION, OF_A_PLAN, OVERVIEWS, Picture
from generator.pages.writing.page import Page, address, from_page, front_matter
from generator.pages.writing.sandbox import Sandbox
from generator.pages.writing.settings import settings
from generator.pages.writing.template_faults import template_fault
from generator.pages.writing.views import places_of_the_bank, stage_views
from generator.source.models import MOST_CHILDREN
from generator.source.school import School
from generator.words import material, numbers, spoken, stages, titles
from generator.words.lesson import rounds_with_ribbons
from generator.words.phrases import Grouping, Phrases
from generator.words.slips import explain, symptom_row

LARGEST_PAGE = 1_000_000
_OVERVIEWS_FOR_ALL = ("pieces",)
_LARGEST_NUMBER = 9999
_LARGEST_DIVISOR = 999
_PLACE_IN_MEMORY = " at 0x"  # how Python shows what has no words of its own
# Marks that mean something to a Markdown reader anywhere, and those that do at the start of a line only.
_MARKS = re.compile(r"[\\`*_{}\[\]!|~^]|(?<!&)#|^\s*[+\-=:]|^\s*\d+[.)]", re.MULTILINE)
_SIGN = re.compile(r"\D")
_AS_IT_IS = (diagnose, most_needed, needs, places_of_the_bank, purchases, shortages, stage_views, telling_slips)
"""What templates call by its name."""

_SAYING: tuple[Callable[..., Any], ...] = (
    explain,
    material.card_values,
    material.cards_alternative,
    material.cards_named,
    material.cards_to_fetch,
    material.layout_alternative,
    material.on_our_shelf,
    material.product,
    material.ribbons_worn,
    material.shortage,
    material.small_cards,
    material.to_buy,
    material.trays,
    material.what_is_seen,
    numbers.piece,
    numbers.pieces,
    numbers.pieces_in_a_row,
    numbers.shape,
    rounds_with_ribbons,
    settings,
    stages.end_alternative,
    stages.hands,
    stages.stage_alternative,
    stages.stage_caption,
    stages.stage_heading,
    spoken.opening,
    symptom_row,
    titles.division_name,
)
"""The same, called without the phrases that it is given first."""


@dataclass(frozen=True)
class ShownFigure:
    """A figure as a page shows it: its address from that page, its size in CSS pixels, and its drawing for phones."""

    src: str
    width: int
    height: int
    narrow: ShownFigure | None = None


@dataclass(frozen=True)
class Writer:
    """Renders templates for one school."""

    school: School

    @cached_property
    def phrases(self) -> Phrases:
        """The sentences of the school's language, with numbers as the school writes them."""
        numbers = self.school.numbers
        return Phrases(self.school.language, Grouping(numbers.mark, numbers.group_four_digits))

    def render(self, template: str, page: str, data: Mapping[str, Any]) -> tuple[str, tuple[Picture, ...]]:
        """The Markdown of a template for the page at a path, and the figures it shows."""
        return self._fill(_environment(self).get_template(template), page, data, OVERVIEWS)

    def page(self, name: str, path: str, data: Mapping[str, Any], reviewed: date, /, **places: str) -> Page:
        """A page of ours; the name is that of its template, and of its title and tags among the phrases."""
        body, pictures = self.render(f"{name}.md.jinja", path, data)
        title, description, tags = (
            self.phrases.say(f"page.{name}.{part}", **places) for part in ("title", "description", "tags")
        )
        meta = front_matter(description, tags.splitlines(), reviewed, self.school.review.months)
        return Page(path, title, meta, body, pictures)

    def render_text(
        self, source: str, page: str, data: Mapping[str, Any], file: str, first_line: int = 1
    ) -> tuple[str, tuple[Picture, ...]]:
        """The same for Markdown that somebody wrote into a file from `first_line` on.

        Raises SourceError with what is wrong in its template, or if it fills to more than LARGEST_PAGE characters.
        """
        environment = _environment(self)
        try:
            code = environment.compile(source, filename=file)
            template = Template.from_code(environment, code, environment.make_globals(None))
            return self._fill(template, page, data, _OVERVIEWS_FOR_ALL, LARGEST_PAGE)
        except Exception as error:
            raise SourceError([template_fault(error, file, first_line)]) from None

    def _fill(
        self,
        template: Template,
        page: str,
        data: Mapping[str, Any],
        overviews: tuple[str, ...],
        room: float = math.inf,
    ) -> tuple[str, tuple[Picture, ...]]:
        pictures: dict[Picture, None] = {}

        def picture(kind: str, sharing: Sharing | None = None, rows: Iterable[tuple[Any, ...]] = ()) -> ShownFigure:
            if sharing:
                wanted = _of_a_division(kind, sharing)
            elif kind in overviews:
                wanted = Picture(kind, rows=tuple(rows))
            else:
                raise HandbookError(f'the figure "{kind}" needs a sharing')
            wide = shown(wanted)
            return wide if kind.startswith(OF_A_PLAN) else replace(wide, narrow=shown(replace(wanted, narrow=True)))

        def shown(wanted: Picture) -> ShownFigure:
            pictures[wanted] = None
            width, height = size(self.phrases, wanted)
            return ShownFigure(from_page(page, wanted.path), round(width), round(height))

        names = {
            "picture": picture,
            "to": lambda target: _as_address(from_page(page, target)),
            "href": lambda target: _as_address(from_page(page, address(target))),
            **data,
        }
        chunks: list[str] = []
        for chunk in template.generate(names):
            chunks.append(chunk)
            room -= len(chunk)
            if room < 0:
                raise HandbookError(f"it grows to more than {LARGEST_PAGE} characters")
        return "".join(chunks), tuple(pictures)


@lru_cache(maxsize=2)
def _environment(writer: Writer) -> Sandbox:
    environment = Sandbox(
        loader=FileSystemLoader(HANDBOOK / "en" / "templates"),
        autoescape=True,
        finalize=partial(_printed, writer),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    words = writer.phrases
    environment.filters |= {
        "capital": numbers.capital,
        "id": place_name,
        "listing": _saying(words, numbers.listing),
        "lower_first": numbers.lower_first,
        "name": _saying(words, numbers.place_word),
        "words": _saying(words, numbers.number_words),
        "small": _saying(words, numbers.small_number),
    }
    environment.globals |= {
        "count": _saying(words, numbers.counted),
        "kind_of": features_of,
        "names": _saying(words, numbers.place_words),
        "phrase": words.say,
        "ready_numbers": lambda divisor, kind: _ready_numbers(writer.school, divisor, kind),
        "school": writer.school,
        "share": lambda *given, **named: share(*given, look_first=writer.school.look_first, **named),
    }
    environment.globals |= {function.__name__: function for function in _AS_IT_IS}
    environment.globals |= {function.__name__: _saying(words, function) for function in _SAYING}
    return environment


def _saying(words: Phrases, function: Callable[..., Any]) -> Callable[..., Any]:
    """A function of words/ for templates, which have no phrases of their own to hand over."""
    return lambda *given, **named: function(words, *given, **named)


def _ready_numbers(school: School, divisor: int, kind: str) -> tuple[int, ...]:
    """Four-digit numbers of one of NUMBER_KINDS, best first; of those the shelf allows, if it allows any."""
    allowed = numbers_of_kind(divisor, kind, school.shelf.owned)
    return best_first(divisor, allowed or numbers_of_kind(divisor, kind))


def _as_address(path: str) -> Markup:
    """A path as an address that a Markdown reader takes as it is."""
    return Markup(quote(path, safe="/#"))


def _printed(writer: Writer, value: Any) -> Markup:
    """What a template prints; never more than a page holds, nor anything that is different every time."""
    is_number = isinstance(value, int) and not isinstance(value, bool)
    text = writer.phrases.grouping.written(value) if is_number else str(value)
    if len(text) > LARGEST_PAGE:
        raise HandbookError(f"it grows to more than {LARGEST_PAGE} characters")
    if _PLACE_IN_MEMORY in text:
        raise HandbookError("it prints something that is neither a text nor a number")
    return value if isinstance(value, Markup) else _plain(text)


@lru_cache(maxsize=5000)
def _plain(text: str) -> Markup:
    """Any text as words: neither HTML nor Markdown in it means anything.

    Character references say the same to a browser and nothing to a Markdown reader. Most of what pages print are
    numbers, and the same ones again and again.
    """
    return Markup(_MARKS.sub(lambda mark: _SIGN.sub(_reference, mark[0]), escape(text)))


def _reference(sign: re.Match[str]) -> str:
    return f"&#{ord(sign[0])};"


def _of_a_division(kind: str, sharing: Sharing) -> Picture:
    """A figure of one division, if there is such a figure and a mat could show it."""
    places = [place_name(stage.level) for stage in sharing.stages]
    kinds = (*OF_A_DIVISION, *places)
    if kind.removeprefix(OF_A_PLAN) not in (places if kind.startswith(OF_A_PLAN) else kinds):
        raise HandbookError(f'there is no figure "{kind}" of it; there are {", ".join(kinds[:-1])} and {kinds[-1]}')
    if not (1 <= sharing.dividend <= _LARGEST_NUMBER and sharing.sharers <= MOST_CHILDREN):
        raise HandbookError(f"a figure shows numbers to {_LARGEST_NUMBER} and {MOST_CHILDREN} children at most")
    if sharing.divisor > _LARGEST_DIVISOR:
        raise HandbookError(f"a figure shows ribbons for numbers to {_LARGEST_DIVISOR} at most")
    return Picture(kind, sharing.dividend, sharing.divisor, sharing.ribbons)
