"""A published site as the last build left it: if it is still whole, nothing has to be done for the same sources."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from generator.build.publishing import MARKER
from generator.build.results import Cache, digests


@dataclass(frozen=True)
class Published:
    """How much a site holds, and the digest of every file of it, by path."""

    pages: int
    figures: int
    files: dict[str, str]


_JSON = TypeAdapter(Published)


def remember(cache: Cache, edition: str, site: Path, pages: int, figures: int) -> Published:
    """Note what a site that is about to be published holds.

    `edition` is a key made of everything that the site depends on.
    """
    published = Published(pages, figures, digests(site))
    cache.put(edition, _JSON.dump_json(published))
    return published


def still_whole(cache: Cache, edition: str, site: Path) -> Published | None:
    """What was noted about an edition, if the folder holds exactly that: every file, byte by byte, and no other."""
    kept = cache.get(edition)
    if kept is None:
        return None
    try:
        published = _JSON.validate_json(kept)
        files = digests(site)
    except (ValidationError, OSError):
        return None
    is_published = files.pop(MARKER, None) is not None
    return published if is_published and files == published.files else None
