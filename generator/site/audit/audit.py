"""The audit of the finished site: what would fail in front of a reader, found in the pages themselves.

Every page is read once, by itself (`page`); here every address is followed, however it came there. Faults name a page
and no line: what stands there was written elsewhere (`pages/authored/origin.py` finds where).

Looks for
    links       to a page, file or anchor that is not there (upper and lower case count), to a folder, to an
                absolute address, out of the handbook, or made of script
    requests    to another host; a plain link to a public page is none
    policy      inline scripts it does not know, event handlers, style attributes, style elements
    reading     images without alternative text, tables without caption or headers, pages without
                language, title or first heading, one id twice in a page, one title on two pages
"""

import posixpath
from collections.abc import Iterator, Mapping, Sequence
from difflib import get_close_matches
from pathlib import Path
from typing import NamedTuple
from urllib.parse import unquote, urlsplit

from generator.errors import Fault, Problem
from generator.site.audit.page import ReadPage
from generator.site.policy import PAGE_FOR_WRONG_ADDRESSES
from generator.source.reading import printable


class Site(NamedTuple):
    """What an address can lead to: files relative to the site, and the path it is published under."""

    files: frozenset[str]
    base: str

    def in_other_case(self, path: str) -> str | None:
        """The file whose path differs from this one in upper and lower case alone; None if there is none."""
        return next((file for file in self.files if file.lower() == path.lower()), None)


def html_files(site: Path) -> list[tuple[str, str]]:
    """Every page of a built site, by path and text."""
    files = sorted((file.relative_to(site).as_posix(), file) for file in site.rglob("*.html"))
    return [(path, file.read_text("utf-8")) for path, file in files]


def audit(site: Path, pages: Sequence[ReadPage], base: str = "/") -> Iterator[Fault]:
    """Everything wrong in a built site.

    `pages` are all of its pages as `read_page` found them; `base` is the path under which the site is published, which
    the page for unknown addresses writes in front of its links.
    """
    whole = Site(frozenset(path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()), base)
    yield from (problem.at(page.path) for page in pages for problem in page.problems)
    yield from _dead_links(pages, whole)
    yield from _repeated_titles(pages)


def _dead_links(pages: Sequence[ReadPage], site: Site) -> Iterator[Fault]:
    """A fault for every address on a page that leads nowhere."""
    by_path = {page.path: page for page in pages}
    for page in pages:
        for link in page.links:
            if problem := _follow(link.address, page, by_path, site):
                yield problem._replace(key=f'{link.attribute}="{link.address}"').at(page.path)


def _follow(link: str, page: ReadPage, by_path: Mapping[str, ReadPage], site: Site) -> Problem | None:
    """What is wrong with an address on a page, if anything is."""
    address, mark, anchor = link.partition("#")
    if not address and not mark:
        return Problem("", "is an empty address", "name the page or file it should lead to")
    target = _find(page.path, unquote(urlsplit(address).path), site) if address[:1] not in ("", "?") else page.path
    if isinstance(target, Problem):
        return target
    return _lacks_anchor(by_path[target], unquote(anchor)) if anchor and target in by_path else None


def _find(page: str, path: str, site: Site) -> str | Problem:
    """The file of the site that a path on a page leads to, or what is wrong with the path."""
    if page == PAGE_FOR_WRONG_ADDRESSES:
        if not path.startswith(site.base):
            remedy = "this page is shown at any depth: write the whole address"
            return Problem("", f"does not begin with {site.base}", remedy)
        target = posixpath.normpath(path.removeprefix(site.base) or "index.html")
    elif path.startswith("/"):
        return Problem("", "is absolute and fails when the handbook is opened as a file", "write it from this page on")
    else:
        target = posixpath.normpath(posixpath.join(posixpath.dirname(page), path))
    if target in site.files:
        return target
    if target == ".." or target.startswith("../"):
        return Problem("", "leads out of the handbook", "link to a page or file of the handbook")
    if target == "." or any(file.startswith(f"{target}/") for file in site.files):
        return Problem("", "names a folder", "name the page in it: opened as a file, a folder shows a bare list")
    if file := site.in_other_case(target):
        return Problem("", "differs from the file in upper and lower case", f"write {file}")
    shown = printable(target, most=200)  # an address may stand for any character, a line break too
    return Problem("", f"leads to {shown}, which is not there", _what_to_write(page, path, target, site))


def _what_to_write(page: str, path: str, target: str, site: Site) -> str:
    """The remedy for a path on a page that leads to no file."""
    stem, ending = posixpath.splitext(target)
    if ending == ".md" and f"{stem}.html" in site.files:
        return "within HTML write .html in place of .md"  # in Markdown it is written so by the renderer
    if meant := site.in_other_case(f"{stem}.html") or _nearly_called(f"{stem[:200]}.html", site):
        written = posixpath.relpath(meant, posixpath.dirname(page)).removesuffix(".html")
        return f"did you mean {written}{'.html' if ending == '.html' else '.md'}?"
    if ending not in ("", ".md", ".html") or path.startswith("www."):
        return "mend the address; that of another site or of a document begins with https://"
    return "mend the address, or add what it should lead to"


def _nearly_called(target: str, site: Site) -> str | None:
    """A page in the same folder with nearly the same name; None if there is none."""
    folder, name = posixpath.split(target)
    pages = (posixpath.split(file) for file in site.files if file.endswith(".html"))
    near = get_close_matches(name, [page for beside, page in pages if beside == folder], n=1, cutoff=0.9)
    return posixpath.join(folder, near[0]) if near else None


def _lacks_anchor(page: ReadPage, anchor: str) -> Problem | None:
    """A problem if a page lacks an anchor; `number=4327&children=6` is none, but data for a script of the page."""
    if anchor == "top" or anchor in page.anchors or "=" in anchor:
        return None
    remedy = f"link to one of the anchors of {page.path}, or to the page alone"
    return Problem("", f"finds no anchor {printable(anchor)!r} on {page.path}", remedy)


def _repeated_titles(pages: Sequence[ReadPage]) -> Iterator[Fault]:
    """A fault for every page with the title of an earlier one."""
    first: dict[str, str] = {}
    for page in pages:
        if page.title and first.setdefault(page.title, page.path) != page.path:
            problem = f"{page.title!r} is also the title of {first[page.title]}"
            yield Fault(page.path, 0, "title", problem, "begin it with what differs")
