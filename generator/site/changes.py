"""Changes to finished pages in place."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TypeAlias

Change: TypeAlias = Callable[[str, str], str]
"""From a page's path in the site and its text to its new text."""


def change_pages(site: Path, *changes: Change) -> None:
    """Make all changes, one after the other, to every page of a site.

    Every page is written once: a file that is written anew twice may have to wait for the disk.
    """
    for file in sorted(site.rglob("*.html")):
        name, text = file.relative_to(site).as_posix(), file.read_text("utf-8")
        for change in changes:
            text = change(name, text)
        file.write_text(text, "utf-8", newline="\n")
