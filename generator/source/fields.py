"""The kinds of value that the handbook's files hold, and the base of every model.

The description of a field says in one line what is right there ("a whole number from 1 to 9999"); it ends every
fault about that field. It is the field's docstring, or stands with its kind of value; that of a table follows from
its name.

Text is data. It may hold any character people write with, `<` and `&` among them: pages escape it.
Refused are characters that cannot be seen or printed: control characters, lone surrogates and
marks that turn the direction of the text around them by force.
"""

import re
import unicodedata
from datetime import date
from typing import Annotated, Any

from pydantic import AfterValidator, BaseModel, ConfigDict, Field
from pydantic_core import PydanticCustomError

_SLUG = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_LONGEST_SLUG = 60
LARGEST_ORDER = 999

_RESERVED_BY_WINDOWS = frozenset(
    ("con", "prn", "aux", "nul", *(f"{port}{number}" for port in ("com", "lpt") for number in range(10)))
)
_SPELLED_OUT = str.maketrans({"ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th"})
_UNSEEN = frozenset(("Cc", "Cs", "Zl", "Zp"))
_FORCED_DIRECTION = frozenset("\u202a\u202b\u202d\u202e")


class Model(BaseModel):
    """Frozen, strict about types, and closed to keys it does not know."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, use_attribute_docstrings=True)


def fault_in_value(problem: str, remedy: str = "") -> PydanticCustomError:
    """The error that a validator raises; without a remedy, the description of the field says what is right."""
    return PydanticCustomError("plain", "{problem}", {"problem": problem, "remedy": remedy})


def unprintable(text: str) -> str:
    """The first character of a text that is refused, as 'U+0007'; "" if there is none."""
    if text.isprintable():  # much faster than looking at each, and True for no text with a refused character
        return ""
    for character in text:
        code = ord(character)
        hidden = unicodedata.category(character) in _UNSEEN or character in _FORCED_DIRECTION
        if hidden or code & 0xFFFE == 0xFFFE:
            return f"U+{code:04X}"
    return ""


def slug_fault(name: str) -> str:
    """What is wrong with a name that becomes part of an address; "" if nothing is."""
    if name in _RESERVED_BY_WINDOWS:
        return "is a name that Windows keeps for itself"
    if len(name) > _LONGEST_SLUG:
        return f"has {len(name)} characters, more than {_LONGEST_SLUG}"
    if not _SLUG.fullmatch(name):
        return "is not a plain name: small letters a to z, digits, and single hyphens between them"
    return ""


def slug_like(name: str) -> str:
    """A name that `slug_fault` accepts, as near as can be to what somebody wrote."""
    spelled_out = unicodedata.normalize("NFKD", name.lower().translate(_SPELLED_OUT))
    ascii_only = spelled_out.encode("ascii", "ignore").decode()
    plain = "-".join(re.findall("[a-z0-9]+", ascii_only))[:_LONGEST_SLUG].strip("-")
    return f"my-{plain}" if plain in _RESERVED_BY_WINDOWS else plain or "my-page"


def whole_number(least: int, most: int) -> Any:
    return Field(ge=least, le=most, description=f"a whole number from {least} to {most}")


def text(least: int, most: int, what: str = "one line") -> tuple[AfterValidator, Any]:
    """One line of text, for `Annotated[str, *text(1, 40)]`."""

    def one_line(value: str) -> str:
        if "\n" in value.strip():
            raise fault_in_value("has more than one line", "write it on one line")
        return _checked(value.strip(), least, most)

    return AfterValidator(one_line), Field(description=f"{what} of {least} to {most} characters")


def paragraph(least: int, most: int) -> tuple[AfterValidator, Any]:
    """A paragraph: line breaks count as spaces."""
    joined = AfterValidator(lambda value: _checked(" ".join(value.split()), least, most))
    return joined, Field(description=f"text of {least} to {most} characters")


def _checked(value: str, least: int, most: int) -> str:
    if hidden := unprintable(value):
        raise fault_in_value(f"holds the hidden character {hidden}", "take it out")
    if not value:
        raise fault_in_value("is empty")
    if not least <= len(value) <= most:
        raise fault_in_value(f"has {len(value)} characters")
    return value


Flag = Annotated[bool, Field(description="true or false, without quotes")]
Order = Annotated[int, whole_number(1, LARGEST_ORDER)]
Tags = Annotated[
    tuple[Annotated[str, *text(1, 60)], ...],
    Field(max_length=60, description='a list of words such as ["left over", "rest"]'),
]
ReviewDate = Annotated[
    date,
    Field(ge=date(2000, 1, 1), le=date(2099, 12, 31), description="a date such as 2026-01-31, without quotes"),
]
