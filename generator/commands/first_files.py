"""First files for people to edit: a lesson, and the settings of a school."""

import textwrap
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

from generator.engine.features import features_of
from generator.engine.sharing import Sharing
from generator.source.fields import Model
from generator.source.models import LessonFile
from generator.source.reading import as_toml
from generator.source.school import School
from generator.words.numbers import place_word
from generator.words.phrases import Grouping, Phrases

_WIDTH = 100
_WORDS = Phrases("en", Grouping(""))


def lesson_text(sharing: Sharing, order: int, reviewed: date) -> str:
    """A lesson file for one division: what is special about it in comments, and a reason to complete."""
    filled = {
        "dividend": sharing.dividend,
        "divisor": sharing.divisor,
        "ribbons": sharing.ribbons,
        "order": order,
        "reason": "",
        "reviewed": reviewed,
    }
    result = _WORDS.say(
        "first-file.lesson-and-rest" if sharing.remainder else "first-file.lesson",
        dividend=sharing.dividend,
        divisor=sharing.divisor,
        quotient=sharing.quotient,
        remainder=sharing.remainder,
    )
    lines = [f"# {result}", *(f"# - {line}" for line in _what_is_special(sharing))]
    for key, field in LessonFile.model_fields.items():
        left_out = "" if field.default is None else field.default
        lines += ["", *_explained(LessonFile, "lesson", key)]
        lines += [f"{key} = {as_toml(filled[key])}" if key in filled else f"# {key} = {as_toml(left_out)}"]
    return "\n".join(lines) + "\n"


def school_text(stock: School, steps: tuple[str, ...]) -> str:
    """A school.toml that explains every setting, each commented out at the stock handbook's value.

    `steps` are the slugs to show where the stock handbook includes all.
    """
    examples = {"steps": steps, "site_url": "https://intranet.example/sharing/"}
    return _WORDS.say("first-file.head") + "\n".join(_settings(stock, "", examples)) + "\n"


def _settings(model: Model, table: str, examples: Mapping[str, Any]) -> Iterator[str]:
    """Every key of a model, its tables last."""
    for key, value in model:
        if not isinstance(value, Model):
            shown = examples[key] if value is None else value
            yield from ("", *_explained(type(model), table, key), f"# {key} = {as_toml(shown)}")
    for key, value in model:
        if isinstance(value, Model):
            yield from ("", "", f"[{key}]", *_settings(value, key, {}))


def _explained(model: type[Model], table: str, key: str) -> Iterator[str]:
    """What a key is for and what may stand there, as comments."""
    purpose = _WORDS.say(f"setting.{table}.{key}" if table else f"setting.{key}")
    words = _WORDS.say("first-file.key", purpose=purpose, right=model.model_fields[key].description or "")
    return (f"# {line}" for line in textwrap.wrap(words, _WIDTH, break_on_hyphens=False))


def _what_is_special(sharing: Sharing) -> Iterator[str]:
    features = features_of(sharing)
    if features.static:
        yield _WORDS.say("first-file.as-it-lies")
    for key, places in (
        ("first-file.exchange-from", features.exchange_from),
        ("first-file.exchange-into-empty", features.exchange_into_empty),
        ("first-file.zeros-in-dividend", features.zeros_in_dividend),
        ("first-file.zeros-inside-quotient", features.zeros_inside_quotient),
        ("first-file.zeros-at-quotient-end", features.zeros_at_quotient_end),
        ("first-file.places-short", features.places_short),
    ):
        if places:
            named = _WORDS.say("list.last").join(place_word(_WORDS, place) for place in places)
            yield _WORDS.say(key, places=named)
    if features.highest_place_short:
        yield _WORDS.say("first-file.highest-place-short")
    if features.nobody_gets_any:
        yield _WORDS.say("first-file.nobody-gets-any")
    yield _WORDS.say("first-file.work", count=sharing.exchanges, sharers=sharing.sharers, handlings=sharing.handlings)
