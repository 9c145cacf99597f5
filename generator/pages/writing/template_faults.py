"""What went wrong in a template -> one line in plain words that names the file and the line."""

from __future__ import annotations

import re
from traceback import walk_tb

from jinja2.exceptions import SecurityError, TemplateNotFound, TemplateSyntaxError, UndefinedError

from generator.errors import Fault, HandbookError
from generator.source.reading import printable

_OUR_NAMES = re.compile(r"generator\.(?:\w+\.)+")
_BRACES = "mend what stands between the braces"


def template_fault(error: BaseException, file: str, first_line: int = 1) -> Fault:
    """The fault that an exception from compiling or filling the template of a file is.

    The template was compiled under the file's name; it begins on `first_line` of that file.
    """
    problem, remedy = _in_words(error)
    problem = _OUR_NAMES.sub("", problem).rstrip(".")
    line = _line(error, file)
    return Fault(file, line and line + first_line - 1, "", printable(problem, most=200), remedy)


def _in_words(error: BaseException) -> tuple[str, str]:
    match error:
        case TemplateNotFound():
            return f"uses a template that is not there, {error.name}", "use one that the handbook has"
        case TemplateSyntaxError():
            return f"has braces that cannot be read: {error.message}", _BRACES
        case UndefinedError():
            return f"uses a name that is not known: {error.message}", _BRACES
        case SecurityError():
            return f"uses what is kept from templates: {error}", "take it out"
        case HandbookError():
            return f"cannot be filled in: {error}", _BRACES
        case KeyError():
            return f"cannot be filled in: there is no {error}", _BRACES
        case MemoryError():
            return "takes too much memory", "take out what repeats so often"
        case RecursionError():
            return "goes deeper and deeper", "take out what calls itself"
        case KeyboardInterrupt():
            return "takes too long", "take out what repeats so often"
        case _:
            return f"cannot be filled in: {error}" if str(error) else "cannot be filled in", _BRACES


def _line(error: BaseException, file: str) -> int:
    """The last line of the template that was being worked on; 0 if none was."""
    if isinstance(error, TemplateSyntaxError) and error.filename == file:
        return error.lineno
    line = 0
    for frame, position in walk_tb(error.__traceback__):
        if frame.f_code.co_filename == file:
            template = frame.f_globals.get("__jinja_template__")
            line = template.get_corresponding_lineno(position) if template else position
    return line
