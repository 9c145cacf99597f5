"""Runs MkDocs in this process on a configuration derived from mkdocs.yml."""

import logging
import re
import sys
from collections.abc import Collection, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from html import escape
from logging.handlers import BufferingHandler
from pathlib import Path
from types import SimpleNamespace
from typing import Any, TypeAlias

from markupsafe import Markup
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort

from generator import PROJECT
from generator.errors import Fault, Faults

MKDOCS_YML = PROJECT / "mkdocs.yml"

Nav: TypeAlias = Sequence[Mapping[str, "str | Nav"]]

_FILE_IN_MESSAGE = re.compile(r"'([^']+\.md)'")


@dataclass(frozen=True)
class Settings:
    """What a build adds to mkdocs.yml.

    `sub_path` is where the handbook stands on a server, with a slash at both ends; only the page for wrong addresses
    needs it. `logo` is the path of a picture inside the site.
    """

    site_name: str
    version: str
    sub_path: str
    logo: str


def render(docs: Path, folder: Path, nav: Nav, settings: Settings, pages: Collection[str] | None = None) -> None:
    """Make `folder` the site of the Markdown in `docs`: of all of it, or only of `pages`, which are paths in there.

    `nav` is nested data: a list of one-entry mappings from a title to a page (a path inside `docs`) or to a list of the
    same kind. Marks in its titles are escaped here; those in a title in front matter are escaped already. Pages that
    `nav` leaves out are written too. The search index tells of what is written. Raises SourceError with everything that
    MkDocs warns about; the files named in it are relative to `docs`.
    """
    with _kept_warnings() as warnings, suppress(Abort):  # MkDocs says why before it stops
        build(_derived(docs, folder, nav, settings, pages))
    Faults(_fault(record.getMessage()) for record in warnings).raise_if_any()
    (folder / "sitemap.xml").unlink()


def _derived(docs: Path, folder: Path, nav: Nav, settings: Settings, pages: Collection[str] | None) -> MkDocsConfig:
    """Return the configuration of mkdocs.yml with this build's folders, navigation, names and version.

    Pages that are not to be written are drafts: pages may lead to them, and nothing else is done with them.
    """
    config = load_config(
        str(MKDOCS_YML),
        docs_dir=str(docs.resolve()),
        site_dir=str(folder.resolve()),
        site_url=f"http://localhost{settings.sub_path}",
        nav=_escaped(nav),
    )
    config.site_name = Markup(escape(settings.site_name))
    config.theme["logo"] = config.theme["favicon"] = settings.logo
    config.theme.static_templates.discard("sitemap.xml")
    config.extra["edition"] = settings.version
    if pages is not None:
        config["draft_docs"] = SimpleNamespace(match_file=lambda path: path.endswith(".md") and path not in pages)
    return config


def _escaped(nav: Nav) -> list[dict[str, Any]]:
    """Return `nav` with titles that the theme can write as they are."""
    return [
        {escape(title): value if isinstance(value, str) else _escaped(value) for title, value in entry.items()}
        for entry in nav
    ]


@contextmanager
def _kept_warnings() -> Iterator[list[logging.LogRecord]]:
    """Keep MkDocs quiet and keep what it warns about."""
    logger = logging.getLogger("mkdocs")
    handler = BufferingHandler(sys.maxsize)
    before = logger.propagate, logger.level
    logger.propagate, logger.level = False, logging.WARNING
    logger.addHandler(handler)
    try:
        yield handler.buffer
    finally:
        logger.removeHandler(handler)
        logger.propagate, logger.level = before


def _fault(message: str) -> Fault:
    """Return one message of MkDocs as a fault that names its file."""
    file = _FILE_IN_MESSAGE.search(message)
    return Fault.of_file(file[1] if file else MKDOCS_YML.name, message.rstrip("."), "mend what the message names")
