"""Where templates run: they can read and call what they are given, and nothing else.

The sandbox of jinja keeps names with underscores and what changes lists from templates. Added to it: of a model only
its keys can be reached (the models' library hangs methods on them that read files); of texts, numbers, lists and
dictionaries only a few methods; only filters that give the same every time; and no single operation can make a text or
a list of more than _MOST_ITEMS, so that a text cannot fill the memory before anybody notices.
"""

import re
import tomllib
from collections.abc import Iterable, Sized
from inspect import getattr_static
from pathlib import Path
from typing import Any

from jinja2 import nodes
from jinja2.compiler import CodeGenerator, Frame
from jinja2.exceptions import SecurityError
from jinja2.runtime import Context, markup_join
from jinja2.sandbox import ImmutableSandboxedEnvironment
from pydantic import BaseModel

_MOST_BITS = 4096
_MOST_ITEMS = 100_000
_MOST_PLACES_TO_FILL = 20
_WIDE = re.compile(r"%[^A-Za-z%]*(?:\*|\d{3})")
_ALLOWED: dict[str, list[str]] = tomllib.loads(Path(__file__).with_suffix(".toml").read_text("utf-8"))


class _BoundedText(CodeGenerator):
    """Writes a ~ b so that the environment puts it together."""

    def visit_Concat(self, node: nodes.Concat, frame: Frame) -> None:  # noqa: N802 - named by the library
        self.write("environment.joined((")
        for part in node.nodes:
            self.visit(part, frame)
            self.write(", ")
        self.write("))")


class Sandbox(ImmutableSandboxedEnvironment):
    """An environment for templates of the handbook and of schools alike."""

    code_generator_class = _BoundedText
    intercepted_binops = frozenset(("+", "*", "**", "%"))

    def __init__(self, **options: Any) -> None:
        super().__init__(**options)
        self.filters = {name: self.filters[name] for name in _ALLOWED["filters"]}
        self.filters |= {"format": lambda text, *values: self._filled_in(text, values), "join": self._listed}
        self.globals = {name: self.globals[name] for name in _ALLOWED["globals"]}

    def is_safe_attribute(self, obj: Any, attr: str, value: Any) -> bool:
        return super().is_safe_attribute(obj, attr, value) and _is_open(type(obj), attr)

    def wrap_str_format(self, value: Any) -> None:
        """No text is formatted by its own method, so there is none to make safe."""

    def call_binop(self, context: Context, operator: str, left: Any, right: Any) -> Any:
        if operator == "%" and isinstance(left, str):
            return self._filled_in(left, right)
        if _grows(operator, left, right):
            raise SecurityError(f"a result of {operator} that is too large")
        return super().call_binop(context, operator, left, right)

    def joined(self, parts: Iterable[Any]) -> str:
        """Values as one text."""
        texts = [part if isinstance(part, str) else str(part) for part in parts]
        if sum(map(len, texts)) > _MOST_ITEMS:
            raise SecurityError("a text that is too large")
        return markup_join(texts)

    def _listed(self, parts: Iterable[Any], between: str = "", attribute: str | None = None) -> str:
        values = [self.getattr(part, attribute) if attribute else part for part in parts]
        return self.joined(values[:1] + [part for value in values[1:] for part in (between, value)])

    def _filled_in(self, text: str, values: Any) -> str:
        if _WIDE.search(text) or text.count("%") > _MOST_PLACES_TO_FILL:
            raise SecurityError("a format that is too large")
        return str(text % values)


def _is_open(kind: type, attr: str) -> bool:
    """Whether templates may reach an attribute of values of this type."""
    if issubclass(kind, BaseModel):
        own_property = isinstance(getattr_static(kind, attr, None), property) and not attr.startswith("model_")
        return attr in kind.model_fields or own_property
    owner = next((owner for owner in kind.__mro__ if attr in vars(owner)), kind)
    return owner.__module__ not in ("builtins", "datetime", "markupsafe") or attr in _ALLOWED["methods_of_values"]


def _grows(operator: str, left: Any, right: Any) -> bool:
    """Whether a sum, product or power would have more than _MOST_ITEMS items or about _MOST_BITS bits."""
    if operator == "+":
        return isinstance(left, Sized) and isinstance(right, Sized) and len(left) + len(right) > _MOST_ITEMS
    if isinstance(left, int) and isinstance(right, int):
        bits = left.bit_length() * right if operator == "**" else left.bit_length() + right.bit_length()
        return bits > _MOST_BITS
    if isinstance(left, int):
        left, right = right, left
    return isinstance(left, Sized) and isinstance(right, int) and len(left) * right > _MOST_ITEMS
