"""From a template and its data to the Markdown of a page, and the figures that it shows."""

import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from typing import Any

from jinja2 import Template

from generator.engine.limits import LARGEST_DIVIDEND, LARGEST_DIVISOR, MOST_CHILDREN
from generator.engine.places import place_name
from generator.engine.sharing import Sharing
from generator.errors import HandbookError
from generator.figures.gallery import size
from generator.figures.picture import OF_A_DIVISION, OF_A_PLAN, OVERVIEWS, PART, Picture
from generator.pages.writing.page import Page, from_page, front_matter, site_address
from generator.pages.writing.printed import LARGEST_PAGE, as_address
from generator.pages.writing.template_names import environment
from generator.source.school import School
from generator.words.phrases import Grouping, Phrases

_OVERVIEWS_FOR_ALL = ("pieces",)
_COMMENT_BEHIND_WORDS = re.compile(r"(?<=\S)(?<![%#]})([ \t]*{#(?:(?!#}).)*)(?<![-+])#}$", re.MULTILINE)
"""A comment at the end of a line of words. Jinja takes away the line end after it, which would join two lines."""


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
        return self._fill(environment(self.school, self.phrases).get_template(template), page, data, OVERVIEWS)

    def page(
        self, name: str, path: str, data: Mapping[str, Any], reviewed: date, /, scripts: str = "", **places: str
    ) -> Page:
        """A page from the template of a name, with the title, description and tags that are phrases of that name."""
        body, pictures = self.render(f"{name}.md.jinja", path, data)
        title, description, tags = (
            self.phrases.say(f"page.{name}.{part}", **places) for part in ("title", "description", "tags")
        )
        meta = front_matter(description, tags.splitlines(), reviewed, self.school.review.months)
        return Page(path, title, meta, body, pictures, scripts)

    def render_text(
        self, source: str, page: str, data: Mapping[str, Any], file: str
    ) -> tuple[str, tuple[Picture, ...]]:
        """The same for Markdown that somebody wrote into a file.

        It may fill to LARGEST_PAGE characters. A comment behind words leaves them the end of their line. Whatever is
        raised is what `template_fault` tells of that file.
        """
        sandbox = environment(self.school, self.phrases)
        code = sandbox.compile(_COMMENT_BEHIND_WORDS.sub(r"\1+#}", source), filename=file)
        template = Template.from_code(sandbox, code, sandbox.make_globals(None))
        return self._fill(template, page, data, _OVERVIEWS_FOR_ALL, LARGEST_PAGE)

    def _fill(
        self,
        template: Template,
        page: str,
        data: Mapping[str, Any],
        overviews: tuple[str, ...],
        room: float = math.inf,
    ) -> tuple[str, tuple[Picture, ...]]:
        pictures: dict[Picture, None] = {}

        def picture(kind: str, sharing: Sharing | None = None, rows: Iterable[tuple[Any, ...]] = ()) -> dict[str, Any]:
            """Its address from the page, its width and height in CSS pixels, and `narrow`: the drawing for phones."""
            if sharing:
                wanted = _of_a_division(kind, sharing)
            elif kind in overviews:
                wanted = Picture(kind, rows=tuple(rows))
            else:
                raise HandbookError(f'the figure "{kind}" needs a sharing')
            wide = shown(wanted)
            return wide if kind.startswith(OF_A_PLAN) else wide | {"narrow": shown(replace(wanted, narrow=True))}

        def shown(wanted: Picture) -> dict[str, Any]:
            pictures[wanted] = None
            width, height = size(self.phrases, wanted)
            return {"src": from_page(page, wanted.path), "width": round(width), "height": round(height)}

        names = {
            "picture": picture,
            "to": lambda target: as_address(from_page(page, target)),
            "href": lambda target: as_address(from_page(page, site_address(target))),
            **data,
        }
        chunks: list[str] = []
        for chunk in template.generate(names):
            chunks.append(chunk)
            room -= len(chunk)
            if room < 0:
                raise HandbookError(f"it grows to more than {LARGEST_PAGE} characters")
        return "".join(chunks), tuple(pictures)


def _of_a_division(kind: str, sharing: Sharing) -> Picture:
    """A figure of one division. HandbookError if there is no such figure, or if no mat could show the division."""
    places = {place_name(stage.level): stage for stage in sharing.stages}
    kinds = (*OF_A_DIVISION, *places)
    of_a_plan = [OF_A_PLAN + place for place in places]
    parts = [f"{place}{PART}{number + 1}" for place, stage in places.items() for number in range(len(stage.parts))]
    if kind not in (*kinds, *of_a_plan, *parts):
        raise HandbookError(f'there is no figure "{kind}" of it; there are {", ".join(kinds[:-1])} and {kinds[-1]}')
    if not (1 <= sharing.dividend <= LARGEST_DIVIDEND and sharing.sharers <= MOST_CHILDREN):
        raise HandbookError(f"a figure shows numbers from 1 to {LARGEST_DIVIDEND} and {MOST_CHILDREN} children at most")
    if sharing.divisor > LARGEST_DIVISOR:
        raise HandbookError(f"a figure shows ribbons for numbers to {LARGEST_DIVISOR} at most")
    return Picture(kind, sharing.dividend, sharing.divisor, sharing.ribbons)
