"""Every key of school.toml, as the models that read it explain it, for the page that lists them."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import NamedTuple

from generator.source.fields import Model
from generator.source.school import School


class Setting(NamedTuple):
    """One key of school.toml.

    table: the table it stands in, or nothing
    right: what may stand there
    left_out: what stands when the key is left out, as TOML writes it; nothing where there is no value
    here: what stands in this school
    """

    table: str
    key: str
    purpose: str
    right: str
    left_out: str
    here: str


def settings(school: School) -> tuple[Setting, ...]:
    """Every key in the order of the file: those of no table first."""
    tables = {key: value for key, value in school if isinstance(value, Model)}
    return (*_keys("", school), *(row for table, model in tables.items() for row in _keys(table, model)))


def _keys(table: str, model: Model) -> Iterator[Setting]:
    for key, field in type(model).model_fields.items():
        value = getattr(model, key)
        if not isinstance(value, Model):
            right, _, purpose = (field.description or "").partition("\n")
            yield Setting(table, key, " ".join(purpose.split()), right, _toml(field.default), _toml(value))


def _toml(value: object) -> str:
    """JSON writes text, numbers, truth and lists as TOML does."""
    return "" if value is None else json.dumps(value, ensure_ascii=False)
