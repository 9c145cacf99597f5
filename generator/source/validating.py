"""From a table to a model; what does not fit becomes faults in plain words."""

from collections.abc import Iterable, Iterator
from datetime import date
from difflib import get_close_matches
from typing import TypeVar

from pydantic import ValidationError

from generator.errors import Fault, SourceError
from generator.source.fields import Model
from generator.source.reading import KeyPath, Table, printable

M = TypeVar("M", bound=Model)


def validated(model: type[M], table: Table) -> M:
    """The model a table describes. Raises SourceError with every fault of the table."""
    try:
        return model.model_validate(table.values, strict=table.typed)
    except ValidationError as error:
        raise SourceError(_faults(model, table, error)) from None


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A remedy for a name that is not known."""
    options = sorted(known)
    close = get_close_matches(word[:100], options, n=1)
    return f"did you mean {close[0]}?" if close else f"known are {', '.join(options)}"


def rename_or_move(name: str, known: Iterable[str]) -> str:
    """A remedy for a file or folder whose name is not one of those known."""
    plain = name.lower()
    meant = next((right for right in known if plain == right or ("." in right and plain.startswith(f"{right}."))), "")
    return f"rename it {meant}, or move it elsewhere" if meant else f"move it elsewhere; {did_you_mean(name, known)}"


def _faults(model: type[Model], table: Table, error: ValidationError) -> Iterator[Fault]:
    errors = error.errors(include_url=False)
    inside = {found["loc"][:length] for found in errors for length in range(len(found["loc"]))}
    for found in errors:
        path: KeyPath = found["loc"]
        if found["type"] == "too_short" and path in inside:
            continue
        known, right = _described(model, path)
        problem, remedy = f"is {_shown(found['input'])}", f"write {right}"
        match found["type"]:
            case "missing":
                problem, remedy = "is missing", f"add it: {right}"
            case "extra_forbidden":
                problem, remedy = "is not known here", _its_table(model, path) or did_you_mean(str(path[-1]), known)
            case "plain":
                problem, remedy = found["ctx"]["problem"], found["ctx"]["remedy"] or remedy
            case "too_short" | "too_long":
                problem = f"has {found['ctx']['actual_length']} items"
            case "string_type" if isinstance(found["input"], int | float | date):
                remedy += ', in "quotes"'
            case "int_type" | "float_type" if isinstance(found["input"], str):
                remedy += ", without quotes"
        yield table.fault(path, problem, remedy)


def _its_table(model: type[Model], path: KeyPath) -> str:
    """The remedy for a key that is known in another table of the file; empty for any other key."""
    key = str(path[-1])
    if key in model.model_fields:
        return "move it above the first [table]"
    tables = {
        name: type(field.default) for name, field in model.model_fields.items() if isinstance(field.default, Model)
    }
    return next((f"move it below [{name}]" for name, inner in tables.items() if key in inner.model_fields), "")


def _described(model: type[Model], path: KeyPath) -> tuple[Iterable[str], str]:
    """The keys of the innermost table on a path, and what is right for the key of that table that it names."""
    key, *deeper = path
    field = model.model_fields.get(str(key))
    if field and isinstance(field.default, Model):
        return _described(type(field.default), tuple(deeper)) if deeper else (model.model_fields, f"a table [{key}]")
    return model.model_fields, (field.description or "") if field else ""


def _shown(value: object) -> str:
    """A value as people write it, on one line and short."""
    match value:
        case bool():
            return "true" if value else "false"
        case int() if abs(value) >= 10**15:
            return "a number of more than 15 digits"
        case "":
            return "empty"
        case str():
            return f'"{printable(value)}"'
        case date():
            return f"the date {value.isoformat()}"
        case tuple() | list():
            return "a list"
        case dict():
            return "a table"
        case _:
            return printable(str(value))
