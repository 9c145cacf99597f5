"""OPEN FIRST: the whole story of a build, from what people wrote to the finished site.

load      TOML and Markdown -> frozen, validated objects, and every fault in them
write     lessons worked out by the engine, authored pages -> Markdown
render    MkDocs + Material -> HTML
draw      figures the pages ask for -> SVG, by other processes while the site is finished
finish    search without a server, print, content policy, server files, audit
publish   the finished site is swapped in; a failed build leaves the old one as it was

All of it happens in a `workshop`, which knows what need not be done again.
"""

import os
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from itertools import chain
from pathlib import Path
from tempfile import TemporaryDirectory

from generator import HANDBOOK, PROJECT, VERSION
from generator.build.books import books
from generator.build.changed_pages import render_changed
from generator.build.kept_between_builds import Workshop, workshop
from generator.build.processes import usable_processors
from generator.build.publishing import fresh_site
from generator.errors import Faults, HandbookError
from generator.figures.gallery import drawing
from generator.figures.picture import FIGURES, SPRITE
from generator.pages.authored.origin import faults_at_their_origin
from generator.pages.handbook import write_handbook
from generator.pages.kinds import script_data
from generator.pages.writing.writer import Writer
from generator.site import policy, school_look
from generator.site.audit.audit import audit, html_files
from generator.site.audit.page import read_page
from generator.site.dates import build_date
from generator.site.finish import finished
from generator.site.run_mkdocs import Settings
from generator.site.staging import stage, write_files
from generator.source.library import Sources, readable

WORKSHOP = PROJECT / "build"
_MOST_PROCESSES = 8  # more than these find nothing to do


@dataclass(frozen=True)
class Request:
    """What to build: a school's folder to lay over the handbook, where the site goes, and how.

    `workshop` keeps what later builds can use again; it may be deleted at any time. `processes` is how many
    work at the same time.
    """

    school_folder: Path | None = None
    out: Path = WORKSHOP / "site"
    processes: int = min(usable_processors(), _MOST_PROCESSES)
    handbook: Path = HANDBOOK
    workshop: Path = WORKSHOP / "workshop"


@dataclass(frozen=True)
class Summary:
    """What a build was made from, what it made, and how long it took."""

    sources: Sources
    pages: int
    figures: int
    seconds: float
    index: Path


def build(request: Request, say: Callable[[str], None]) -> Summary:
    """Build and publish the handbook. Raises HandbookError with every fault; then the old site is as it was."""
    begun = time.monotonic()
    _refuse_a_place_in_use(request)
    index = Path(os.path.realpath(request.out), "index.html")  # while the folder this process works in is still there
    say("Reading lessons, pages and settings")
    sources = readable(request.handbook, request.school_folder)
    school = sources.school
    settings = Settings(school.name, VERSION, school.sub_path, school_look.logo(sources.theme))
    edition = (sources, settings, build_date(os.environ))
    with (
        workshop(request.workshop, request.school_folder, request.processes, say) as shop,
        fresh_site(request.out, say) as site,
    ):
        made = shop.published(edition, request.out)
        if made:
            say("Nothing has changed since the last build")
        else:
            made = _make(*edition, site, shop, say)
            shop.note(edition, site, *made)
        pages, figures = made
    return Summary(sources, pages, figures, time.monotonic() - begun, index)


def _refuse_a_place_in_use(request: Request) -> None:
    """Refuse to put the site among its own sources, where the next build would read it, or into the workshop."""
    out = Path(os.path.realpath(request.out))
    sources = (request.handbook, Path(__file__).parents[1], *filter(None, [request.school_folder]))
    uses = dict.fromkeys(sources, "from which the handbook is made")
    uses[request.workshop] = "where builds keep their work"
    for folder, use in uses.items():
        source = Path(os.path.realpath(folder))
        if out.is_relative_to(source):
            remedy = "choose one outside it" + (f", such as {source.with_name('site')}" if source.name else "")
            raise HandbookError(f"{out}: lies in {source}, {use}; {remedy}")


def _make(
    sources: Sources, settings: Settings, built: date, site: Path, shop: Workshop, say: Callable[[str], None]
) -> tuple[int, int]:
    """Make a finished site in a folder from what was read; return the numbers of its pages and figures."""
    with faults_at_their_origin(sources):
        say(f"Working out {len(sources.lessons)} lessons")
        writer = Writer(sources.school)
        handbook = write_handbook(sources, writer, shop.run_many)
        markdown = ((page.path, page.text.encode()) for page in handbook.pages)
        for_scripts = script_data.handbook_data(sources, writer.phrases)
        added = school_look.files(sources.theme) | script_data.files(for_scripts)
        stage(shop.docs, chain(markdown, added.items()))
        say(f"Rendering {len(handbook.pages)} pages")
        paths = render_changed(shop.results, shop.submit, shop.docs, shop.rendered, handbook.nav, settings)
        pictures = (*handbook.pictures, SPRITE)
        drawings = shop.run_many(drawing, writer.phrases, pictures)
        say("Finishing: search, print, policy, servers")
        on_paper = sources.school.print.paper
        bound = books(handbook, writer.phrases.say)
        write_files(site, finished(shop.rendered, paths, bound, settings, built, on_paper, for_scripts))
        # Other processes read the pages for the audit while this one writes the figures.
        read = shop.run_many(read_page, sorted(policy.theme_scripts(site)), html_files(site))
        say(f"Drawing {len(pictures)} figures")
        write_files(site / FIGURES, zip((picture.file for picture in pictures), drawings, strict=True))
        say("Auditing the whole site")
        Faults(audit(site, tuple(read), settings.sub_path)).raise_if_any()
        return len(handbook.pages), len(pictures)


def check(school_folder: Path | None = None) -> Sources:
    """Everything that a build would refuse: a build into a folder that is thrown away. Raises HandbookError."""
    with TemporaryDirectory() as folder:
        request = Request(school_folder, Path(folder, "site"), handbook=HANDBOOK, workshop=Path(folder, "workshop"))
        return build(request, lambda words: None).sources
