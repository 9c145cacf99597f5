"""OPEN FIRST: the whole story of a build, from what people wrote to the finished site.

load      TOML and Markdown -> frozen, validated objects
write     lessons worked out by the engine, authored pages -> Markdown
draw      figures the pages ask for -> SVG, by other processes while MkDocs is at work
render    MkDocs + Material -> HTML, only of pages that have changed
finish    search without a server, print, content policy, server files, audit
publish   the finished site is swapped in; a failed build leaves the old one as it was

Pages, figures and what is read from finished pages are made by pure functions, so `Work` takes from the cache what an
earlier build has worked out already. When nothing has changed at all, the published site stays as it is.
"""

from __future__ import annotations

import gc
import os
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from itertools import chain
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from generator import HANDBOOK, PROJECT, VERSION
from generator.build import publishing
from generator.build.lock import locked
from generator.build.published import Published, remember, still_whole
from generator.build.rendering import render_changed
from generator.build.results import Cache, fingerprint, installed, key_of
from generator.build.work import Work
from generator.errors import HandbookError, SourceError
from generator.figures.gallery import drawing
from generator.figures.picture import FIGURES, Picture
from generator.pages.authored.origin import told_at_their_origin
from generator.pages.handbook import Handbook, write_handbook
from generator.pages.run_many import RunMany
from generator.pages.writing.environment import TEMPLATES, Writer
from generator.pages.writing.page import address
from generator.site import book, policy, render, school_look
from generator.site.audit.audit import audit
from generator.site.dates import build_date
from generator.site.finish import finished
from generator.site.staging import fill, stage
from generator.source.library import Sources, load

GENERATOR = PROJECT / "generator"
THEME = HANDBOOK / "theme"
PHRASES = HANDBOOK / "en" / "phrases.toml"
WORKSHOP = PROJECT / "build"
_PATIENCE = 120.0  # seconds to wait for another build
_MOST_PROCESSES = 8  # more than these find nothing to do


@dataclass(frozen=True)
class Request:
    """What to build: a school's folder to lay over the handbook, where the site goes, and how.

    `workshop` keeps what later builds can use again; it may be deleted at any time. `processes` is how many
    work at the same time.
    """

    school_folder: Path | None = None
    out: Path = WORKSHOP / "site"
    processes: int = min(os.cpu_count() or 1, _MOST_PROCESSES)
    handbook: Path = HANDBOOK
    workshop: Path = WORKSHOP


@dataclass(frozen=True)
class Summary:
    """What a build made, and how long it took."""

    lessons: int
    pages: int
    figures: int
    seconds: float
    replaced: tuple[str, ...]
    index: Path


def build(request: Request, say: Callable[[str], None]) -> Summary:
    """Build and publish the handbook. Raises HandbookError with every fault; then the old site is as it was."""
    begun = time.monotonic()
    say("Reading lessons, pages and settings")
    sources = load(request.handbook, request.school_folder)
    settings = _settings(sources)
    built = build_date(os.environ)
    with (
        _writing_in(request.workshop),
        locked(request.workshop / ".lock", say, _PATIENCE),
        kept_results(request.workshop) as cache,
    ):
        publishing.clear_up(request.out, say)
        edition = key_of("site", sources, settings, built)
        published = still_whole(cache, edition, request.out)
        if published:
            say("Nothing has changed since the last build")
        else:
            with Work(cache, request.processes) as work:
                published = _make(edition, sources, settings, built, request, cache, work, say)
    seconds = time.monotonic() - begun
    index = request.out.resolve() / "index.html"
    return Summary(len(sources.lessons), published.pages, published.figures, seconds, sources.replaced, index)


class _Outline(NamedTuple):
    """What has to be known of a handbook once its pages are staged; they themselves take much room."""

    pages: int
    nav: render.Nav
    parts: Sequence[book.BookPart]
    pictures: Sequence[Picture]


def _make(
    edition: str,
    sources: Sources,
    settings: render.Settings,
    built: date,
    request: Request,
    cache: Cache,
    work: Work,
    say: Callable[[str], None],
) -> Published:
    """From what was read to a published site, which is noted under its `edition`."""
    docs, rendered = request.workshop / "docs", request.workshop / "rendered"
    with publishing.fresh_site(request.out, say) as site, told_at_their_origin(sources):
        with _nothing_collected():
            say(f"Working out {len(sources.lessons)} lessons")
            outline = _write(sources, docs, work.run_many)
            # Figures are drawn by other processes while MkDocs renders the pages: it needs only their names.
            drawings = work.run_many(drawing, Writer(sources.school).phrases, outline.pictures)
            say(f"Rendering {outline.pages} pages")
            around = key_of("rendered", outline.nav, settings)
            paths = render_changed(cache, around, docs, rendered, outline.nav, settings)
        say("Finishing: search, print, policy, servers")
        on_paper = sources.school.print.paper
        fill(site, finished(rendered, paths, outline.parts, settings, built, on_paper), like=request.out)
        say(f"Drawing {len(outline.pictures)} figures")
        figures = zip((picture.file for picture in outline.pictures), drawings, strict=True)
        fill(site / FIGURES, figures, like=request.out / FIGURES)
        say("Auditing the whole site")
        faults = audit(site, policy.theme_scripts(site), settings.sub_path)
        if faults:
            raise SourceError(faults)
        return remember(cache, edition, site, outline.pages, len(outline.pictures))


def _write(sources: Sources, docs: Path, run_many: RunMany) -> _Outline:
    """From what was read to pages in Markdown."""
    handbook = write_handbook(sources, Writer(sources.school), run_many)
    pages = ((page.path, page.text.encode()) for page in handbook.pages)
    stage(docs, chain(pages, school_look.files(sources.theme).items()))
    return _Outline(len(handbook.pages), handbook.nav, _parts(handbook), handbook.pictures)


def check(school_folder: Path | None = None) -> Sources:
    """Everything that a build would refuse: a build into a folder that is thrown away. Raises HandbookError."""
    sources = load(HANDBOOK, school_folder)
    with TemporaryDirectory() as folder:
        place = Path(folder)
        build(
            Request(school_folder, place / "site", handbook=HANDBOOK, workshop=place / "workshop"), lambda words: None
        )
    return sources


@contextmanager
def _nothing_collected() -> Iterator[None]:
    """Do not look for garbage in cycles meanwhile, and never among what was made: looking takes a tenth of the time."""
    gc.disable()
    try:
        yield
    finally:
        gc.freeze()
        gc.enable()


def kept_results(workshop: Path) -> Cache:
    """What earlier builds with the same code, look, words and packages have worked out."""
    folders = (fingerprint(folder) for folder in (GENERATOR, THEME, TEMPLATES))
    made_by = key_of(*folders, PHRASES.read_bytes(), render.MKDOCS_YML.read_bytes(), installed())
    return Cache(workshop / "results", made_by)


@contextmanager
def _writing_in(workshop: Path) -> Iterator[None]:
    """Make the folder, and say it in one line if the disk is full or may not be written."""
    try:
        workshop.mkdir(parents=True, exist_ok=True)
        yield
    except OSError as error:
        where, what = error.filename or workshop, error.strerror or error
        raise HandbookError(f"{where}: {what}; make room or allow writing there, then build again") from error


def _settings(sources: Sources) -> render.Settings:
    school = sources.school
    return render.Settings(school.name, VERSION, school.sub_path, school_look.logo(sources.theme))


def _parts(handbook: Handbook) -> list[book.BookPart]:
    parts = [("", (handbook.home,)), *((section.title, section.pages) for section in handbook.sections)]
    return [book.BookPart(title, tuple(address(page.path) for page in pages)) for title, pages in parts]
