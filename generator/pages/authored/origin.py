"""From a fault in a page or in the finished site to the file and line where a person wrote what is wrong.

Pages are traced by their path: to the authored page, to a school's note on them, or to the TOML of their lesson or
step. The line is that of the address or name in question; 0 where a template made it.
"""

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from html import escape
from itertools import product
from posixpath import dirname, join, normpath
from urllib.parse import unquote

from generator.errors import Fault, SourceError
from generator.pages.writing.links import lesson_path, step_link
from generator.pages.writing.page import site_address
from generator.source.library import A_BOOK, Sources
from generator.source.reading import printable

_ENDED, _WITHIN_MORE = r"""(?=[)"'>#\s]|$)""", ""
_BEFORE_AN_ADDRESS = ("](", '="', '("', "('", "]: ", "<")
_IN_MARKDOWN = {"<img": "![", "<th": "|"}


@dataclass(frozen=True)
class SourceText:
    """Markdown as it stands in a file from a line on; `text` is empty where no line of the file can be named."""

    text: str
    file: str
    first_line: int = 1

    def line_of(self, sought: str, ends: Iterable[str] = (_ENDED, _WITHIN_MORE)) -> int:
        """The first line that holds some text, or what Markdown writes for it, whatever its case; 0 if none does."""
        text, sought = self.text.casefold(), sought.casefold()
        for wanted, end in product((sought, sought.partition(">")[0], _IN_MARKDOWN.get(sought)), ends):
            if wanted and (found := re.search(re.sub(r"(\\ )+", r"\\s+", re.escape(wanted)) + end, text)):
                return self.first_line + text.count("\n", 0, found.start())
        return 0


@contextmanager
def faults_at_their_origin(sources: Sources) -> Iterator[None]:
    """In faults raised inside, replace a page's path (below the handbook or the site) by what people wrote for it."""
    try:
        yield
    except SourceError as error:
        raise SourceError(_at_their_origin(error.faults, sources)) from None


def _at_their_origin(faults: Iterable[Fault], sources: Sources) -> list[Fault]:
    written = _written(sources)
    read = {text.file for texts in written.values() for text in texts}
    own = {page.path: page.file for page in sources.pages if page.from_school}
    traced = [
        fault if fault.file in read else _traced(fault, written.get(_markdown(fault.file), []), own) for fault in faults
    ]
    traced = [fault._replace(key=printable(fault.key, most=100)) for fault in traced]
    # What is wrong on a page is wrong in the books that repeat it.
    return [fault for fault in traced if not A_BOOK.fullmatch(_markdown(fault.file))] or traced


def _written(sources: Sources) -> dict[str, list[SourceText]]:
    """What people wrote for each page, by its path; notes first."""
    written: dict[str, list[SourceText]] = defaultdict(list)
    for note in sources.notes:
        written[note.path].append(SourceText(note.text, note.file))
    for page in sources.pages:
        written[page.path].append(SourceText(page.body, page.file, page.body_line))
    for step in sources.steps:
        for path in (step_link(step).path, step_link(step).plans_path, step_link(step).cards_path):
            written[path].append(SourceText("", step.file))
        for lesson in step.lessons:
            written[lesson_path(lesson)].append(SourceText("", lesson.file))
    return written


def _traced(fault: Fault, texts: list[SourceText], own: dict[str, str]) -> Fault:
    page = _markdown(fault.file)
    for end, sought, text in product((_ENDED, _WITHIN_MORE), _ways_to_write(fault.key, page), texts):
        if line := text.line_of(sought, (end,)):
            return fault._replace(file=text.file, line=line)
    target, anchor = _target(fault.key, page)
    if anchor and page not in own and target in own:
        problem, remedy = "is missing, and other pages lead to it", f"give a heading {{ #{anchor} }}"
        return Fault(own[target], 0, f'id="{anchor}"', problem, remedy)
    return fault._replace(file=texts[-1].file, line=0) if texts else fault


def _ways_to_write(key: str, page: str) -> Iterator[str]:
    """How the thing that a fault's key names may be written in the source of a page, the likeliest first."""
    name, is_attribute, value = key.partition('="')
    address = value.removesuffix('"')
    if not address:
        yield "]()" if is_attribute else name and f"<{name}"
        return
    target, anchor = _target(key, page)
    mark = f"#{anchor}" if anchor else ""
    spellings = (address, address.replace(".html", ".md"), target + mark, site_address(target) + mark)
    ways = [way for spelling in spellings for way in (spelling, escape(spelling), unquote(spelling))]
    yield from (before + way for before in (*_BEFORE_AN_ADDRESS, "") for way in ways)


def _target(key: str, page: str) -> tuple[str, str]:
    """The page of the handbook that an address in a fault's key leads to, and the anchor on it."""
    path, _, anchor = key.partition('="')[2].removesuffix('"').partition("#")
    return _markdown(normpath(join(dirname(page), unquote(path))) if path else page), anchor


def _markdown(path: str) -> str:
    return path.removesuffix(".html") + ".md" if path.endswith(".html") else path
