"""Where templates run: they read the values they are given and call what they are given, and no more.

The sandbox of jinja keeps names with underscores and what changes lists from templates. Two things are added to it:
of a model only its keys can be reached (the models' library hangs methods on them that read files), and of a module
only its own functions. Numbers and texts are kept from growing without end by multiplication.
"""

from __future__ import annotations

from collections.abc import Sized
from inspect import getattr_static
from types import FunctionType, ModuleType
from typing import Any

from jinja2.exceptions import SecurityError
from jinja2.runtime import Context
from jinja2.sandbox import ImmutableSandboxedEnvironment
from pydantic import BaseModel

_MOST_BITS = 4096
_MOST_ITEMS = 100_000


class Sandbox(ImmutableSandboxedEnvironment):
    """An environment for templates of the handbook and of schools alike."""

    intercepted_binops = frozenset(("*", "**"))

    def __init__(self, **options: Any) -> None:
        super().__init__(**options)
        self._answers: dict[tuple[type, str], bool] = {}

    def is_safe_attribute(self, obj: Any, attr: str, value: Any) -> bool:
        if isinstance(obj, ModuleType):
            own = isinstance(value, FunctionType) and value.__module__ == obj.__name__
            return own and super().is_safe_attribute(obj, attr, value)
        # The answer depends on the type alone. Templates ask a hundred thousand times, but of few types.
        asked = type(obj), attr
        if asked not in self._answers:
            safe = super().is_safe_attribute(obj, attr, value)
            self._answers[asked] = safe and (not isinstance(obj, BaseModel) or _is_key(type(obj), attr))
        return self._answers[asked]

    def call_binop(self, context: Context, operator: str, left: Any, right: Any) -> Any:
        if _grows(operator, left, right):
            raise SecurityError(f"a result of {operator} that is too large")
        return super().call_binop(context, operator, left, right)


def _is_key(model: type[BaseModel], attr: str) -> bool:
    own_property = isinstance(getattr_static(model, attr, None), property) and not attr.startswith("model_")
    return attr in model.model_fields or own_property


def _grows(operator: str, left: Any, right: Any) -> bool:
    """Whether a product or power would take a machine long to hold."""
    if isinstance(left, int) and isinstance(right, int):
        bits = left.bit_length() * right if operator == "**" else left.bit_length() + right.bit_length()
        return bits > _MOST_BITS
    if isinstance(left, int):
        left, right = right, left
    return isinstance(left, Sized) and isinstance(right, int) and len(left) * right > _MOST_ITEMS
