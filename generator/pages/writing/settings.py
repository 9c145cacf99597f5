"""Every key of school.toml, for the page that lists them and the first file of a school."""

from collections.abc import Iterator
from typing import NamedTuple

from generator.source.fields import Model
from generator.source.reading import as_toml
from generator.source.school import School
from generator.words.phrases import Phrases


class Setting(NamedTuple):
    """One key of school.toml.

    table: the table it stands in, or ""
    right: what may be written
    left_out: the value, as TOML writes it, when the key is left out; "" if that is none
    here: the value in this school
    """

    table: str
    key: str
    purpose: str
    right: str
    left_out: str
    here: str


def settings(words: Phrases, school: School) -> tuple[Setting, ...]:
    """Every key in the order of the file: those of no table first."""
    tables = [("", school), *((key, value) for key, value in school if isinstance(value, Model))]
    return tuple(setting for table, model in tables for setting in _keys(words, table, model))


def _keys(words: Phrases, table: str, model: Model) -> Iterator[Setting]:
    for key, field in type(model).model_fields.items():
        value = getattr(model, key)
        if not isinstance(value, Model):
            purpose = words.say(f"setting.{table}.{key}" if table else f"setting.{key}")
            yield Setting(table, key, purpose, field.description or "", _shown(field.default), _shown(value))


def _shown(value: object) -> str:
    return "" if value is None else as_toml(value)
