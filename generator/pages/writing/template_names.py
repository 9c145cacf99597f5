"""The names that every template may use; a page adds its own (`_fill` in `writer.py`, `fill.py` of authored pages).

Nothing else can be reached, and every value printed is made safe (`sandbox.py`, `printed.py`).
"""

from collections.abc import Callable
from functools import lru_cache, partial
from typing import Any

from jinja2 import FileSystemLoader, StrictUndefined

from generator import HANDBOOK
from generator.engine.choosing_numbers import best_first, numbers_of_kind
from generator.engine.diagnosis import diagnose, telling_slips
from generator.engine.features import features_of
from generator.engine.length import lesson_length
from generator.engine.places import place_name
from generator.engine.sharing import share
from generator.engine.shelf import most_needed, needs, purchases, shortages
from generator.pages.writing.printed import printed
from generator.pages.writing.sandbox import Sandbox
from generator.pages.writing.settings import settings
from generator.source.school import School
from generator.words import hands, material, numbers, spoken, stages, titles
from generator.words.lesson import rounds_with_ribbons
from generator.words.phrases import Phrases
from generator.words.slips import explain, symptom_row

_PLAIN = (diagnose, lesson_length, most_needed, needs, purchases, shortages, telling_slips)
"""Functions that templates call as they are."""

_WITH_PHRASES: tuple[Callable[..., Any], ...] = (
    explain,
    hands.hands,
    material.card_values,
    material.cards_alternative,
    material.cards_named,
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
    numbers.shape,
    rounds_with_ribbons,
    settings,
    stages.end_alternative,
    stages.stage_alternative,
    stages.stage_heading,
    spoken.opening,
    symptom_row,
    titles.division_name,
)
"""Functions that templates call without the first argument, the phrases."""


@lru_cache(maxsize=2)
def environment(school: School, words: Phrases) -> Sandbox:
    """Where templates are compiled for a school: the names that they may use, and no others."""
    sandbox = Sandbox(
        loader=FileSystemLoader(HANDBOOK / "en" / "templates"),
        autoescape=True,
        finalize=partial(printed, words.grouping),
        undefined=StrictUndefined,
        optimized=False,  # looking for constants takes longer than it saves in one build
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    sandbox.filters |= {
        "capital": numbers.capital,
        "first_sentence": numbers.first_sentence,
        "id": place_name,
        "listing": _with_phrases(words, numbers.listing),
        "lower_first": numbers.lower_first,
        "name": _with_phrases(words, numbers.place_word),
        "words": _with_phrases(words, numbers.number_words),
        "small": _with_phrases(words, numbers.small_number),
    }
    sandbox.globals |= {
        "count": _with_phrases(words, numbers.counted),
        "kind_of": features_of,
        "names": _with_phrases(words, numbers.place_words),
        "phrase": words.say,
        "ready_numbers": lambda divisor, kind: _ready_numbers(school, divisor, kind),
        "school": school,
        "share": lambda *given, **named: share(*given, look_first=school.look_first, **named),
    }
    sandbox.globals |= {function.__name__: function for function in _PLAIN}
    sandbox.globals |= {function.__name__: _with_phrases(words, function) for function in _WITH_PHRASES}
    return sandbox


def _with_phrases(words: Phrases, function: Callable[..., Any]) -> Callable[..., Any]:
    """The function with the phrases filled in as its first argument."""
    return lambda *given, **named: function(words, *given, **named)


def _ready_numbers(school: School, divisor: int, kind: str) -> tuple[int, ...]:
    """Four-digit numbers of one of NUMBER_KINDS, best first; of those the shelf allows, if it allows any."""
    allowed = numbers_of_kind(divisor, kind, school.shelf.owned)
    return best_first(divisor, allowed or numbers_of_kind(divisor, kind))
