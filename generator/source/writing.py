"""First files for people to edit: a lesson, and the settings of a school."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

from pydantic.fields import FieldInfo

from generator.engine.features import features_of
from generator.engine.places import place_name
from generator.engine.sharing import Sharing
from generator.source.fields import Model
from generator.source.models import LessonFile
from generator.source.school import School

_WIDTH = 100
_HEAD_OF_SETTINGS = """\
# The settings of one school. Write only what differs from the stock handbook:
# take away the # before a key, and change what stands after it.
#
# Beside this file there may be, all of it optional:
#   lessons/<step>/<name>.toml   a lesson of your own, or one in the place of ours of that name
#   pages/<section>/<name>.md    a page of your own, or one in the place of ours of that name
#   notes/<section>/<name>.md    a note that is added to our page of that name
#   theme/logo.png               your logo
#   theme/colours.toml           header = "#2f5d50" and links = "#224466", dark enough on white
"""


def lesson_text(sharing: Sharing, order: int, reviewed: date) -> str:
    """A lesson file for one division: what is special about it in comments, and a reason to complete."""
    left = f", and {sharing.remainder} left over" if sharing.remainder else ""
    lines = [f"# {sharing.dividend} among {sharing.divisor}: {sharing.quotient} for each{left}."]
    lines += [f"# - {words}" for words in _what_is_special(sharing)]
    filled = {
        "dividend": sharing.dividend,
        "divisor": sharing.divisor,
        "ribbons": sharing.ribbons,
        "order": order,
        "reason": "",
        "reviewed": reviewed,
    }
    for key, field in LessonFile.model_fields.items():
        lines += ["", *_explained(field)]
        left_out = "" if field.default is None else field.default
        lines += [f"{key} = {_toml(filled[key])}" if key in filled else f"# {key} = {_toml(left_out)}"]
    return "\n".join(lines) + "\n"


def school_text(stock: School, steps: tuple[str, ...]) -> str:
    """A school.toml that explains every setting, each commented out at the stock handbook's value.

    `steps` are the slugs to show where the stock handbook includes all.
    """
    examples = {"steps": steps, "site_url": "https://intranet.example/sharing/"}
    return _HEAD_OF_SETTINGS + "\n".join(_settings(stock, examples)) + "\n"


def _settings(model: Model, examples: Mapping[str, Any]) -> Iterator[str]:
    """Every key of a model, its tables last."""
    values = {key: getattr(model, key) for key in type(model).model_fields}
    for key, field in type(model).model_fields.items():
        if not isinstance(values[key], Model):
            value = examples[key] if values[key] is None else values[key]
            yield from ("", *_explained(field), f"# {key} = {_toml(value)}")
    for key, value in values.items():
        if isinstance(value, Model):
            yield from ("", "", f"[{key}]", *_settings(value, {}))


def _explained(field: FieldInfo) -> Iterator[str]:
    """What a key is for and what may stand there, as comments."""
    right, _, purpose = (field.description or "").partition("\n")
    words = f"{' '.join(purpose.split())} Write {right}."
    return (f"# {line}" for line in textwrap.wrap(words, _WIDTH, break_on_hyphens=False))


def _toml(value: object) -> str:
    if isinstance(value, tuple):
        return f"[{', '.join(map(_toml, value))}]"
    return value.isoformat() if isinstance(value, date) else json.dumps(value, ensure_ascii=False)


def _what_is_special(sharing: Sharing) -> Iterator[str]:
    features = features_of(sharing)
    places = {
        "goes to the bank from": features.exchange_from,
        "fills from the bank the empty": features.exchange_into_empty,
        "a zero in the number at the": features.zeros_in_dividend,
        "a zero inside the share at the": features.zeros_inside_quotient,
        "a zero at the end of the share at the": features.zeros_at_quotient_end,
        "too few pieces to go round at the": features.places_short,
    }
    if features.static:
        yield "every piece is dealt as it lies: nothing goes to the bank"
    yield from (f"{words} {' and '.join(map(place_name, held))}" for words, held in places.items() if held)
    if features.highest_place_short:
        yield "begins at the bank: the largest pieces do not go round"
    if features.nobody_gets_any:
        yield "nobody gets a bead: all of it is left over"
    exchanges = f"{sharing.exchanges} exchange{'' if sharing.exchanges == 1 else 's'}"
    yield f"{sharing.sharers} children, {exchanges}, {sharing.handlings} pieces moved"
