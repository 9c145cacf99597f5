"""From an exception in a template to one line in plain words that names the file and the line."""

import re
from traceback import walk_tb

from jinja2.exceptions import SecurityError, TemplateNotFound, TemplateSyntaxError, UndefinedError
from jinja2.sandbox import MAX_RANGE

from generator.errors import Fault
from generator.source.reading import printable

_LEFT_OUT = re.compile(r"generator\.(?:\w+\.)+|(?:\w+\.)+<locals>\.|\. (?:Jinja was|You probably) .*")
"""Parts of a message that are left out: the modules of our names, and guesses of the template library."""
_NOT_ENDED = re.compile(r"(?:Unexpected end|Encountered unknown tag 'end).* closed is '(\w+)'")
_BRACES = "mend what stands between the braces"
_IN_WORDS: tuple[tuple[type[BaseException], str, str], ...] = (
    (TemplateNotFound, "uses a template that is not there, {0.name}", "use one that the handbook has"),
    (TemplateSyntaxError, "has braces that cannot be read: {0.message}", _BRACES),
    (UndefinedError, "uses a name that is not known: {0.message}", _BRACES),
    (SecurityError, "uses what is kept from templates: {0}", "take it out"),
    (KeyError, "cannot be filled in: there is no {0}", _BRACES),
    (AttributeError, "uses a value of the wrong kind", _BRACES),
    (ZeroDivisionError, "divides by 0", _BRACES),
    (OverflowError, "counts too far", f"count to {MAX_RANGE:,} at most"),
    (MemoryError, "takes too much memory", "take out what repeats so often, or write smaller numbers"),
    (RecursionError, "goes deeper and deeper", "take out what calls itself, or leave empty lines within a long list"),
    (KeyboardInterrupt, "takes too long", "take out what repeats so often"),
)


def template_fault(error: BaseException, file: str, first_line: int) -> Fault:
    """The fault for an exception that was raised while the template of a file was compiled or filled.

    The template was compiled under the file's name; it begins on `first_line` of that file.
    """
    others = "cannot be filled in: {0}" if str(error) else "cannot be filled in"
    known = ((problem, remedy) for kind, problem, remedy in _IN_WORDS if isinstance(error, kind))
    problem, remedy = next(known, (others, _BRACES))
    if isinstance(error, TemplateSyntaxError) and error.message == "Missing end of comment tag":
        problem, remedy = 'begins a comment with "{{#" and does not end it', "for the name of a heading write { #name }"
    if isinstance(error, TemplateSyntaxError) and (tag := _NOT_ENDED.match(error.message or "")):
        problem, remedy = "has a {{% " + tag[1] + " %}} without its end", "write {% end" + tag[1] + " %}"
    problem = _LEFT_OUT.sub("", problem.format(error)).rstrip(".")
    line = _line(error, file)
    return Fault(file, line and line + first_line - 1, "", printable(problem, most=200), remedy)


def _line(error: BaseException, file: str) -> int:
    """The last line of the template that was being worked on; 0 if none was."""
    if isinstance(error, TemplateSyntaxError) and file in (error.filename, error.name):  # the lexer says it as the name
        return error.lineno
    line = 0
    for frame, position in walk_tb(error.__traceback__):
        if frame.f_code.co_filename == file:
            template = frame.f_globals.get("__jinja_template__")
            line = template.get_corresponding_lineno(position) if template else position
    return line
