"""A page of the handbook before MkDocs: a path, front matter, Markdown, and the figures it shows."""

import json
from calendar import monthrange
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from html import escape
from posixpath import dirname, relpath
from typing import Any

from generator.figures.picture import Picture


@dataclass(frozen=True)
class Page:
    """One page; `path` is below the handbook's root and ends in .md.

    scripts: the kind of page, under `scripts` in mkdocs.yml, whose scripts it loads; "" if it needs none
    """

    path: str
    title: str
    meta: Mapping[str, Any]
    body: str
    pictures: tuple[Picture, ...] = ()
    scripts: str = ""

    @property
    def text(self) -> str:
        """The whole file. Front matter is YAML, of which JSON values are a part.

        The theme and its search write the title as they find it, so marks in it are escaped here.
        """
        front = {"title": escape(self.title, quote=False), **self.meta, "scripts": self.scripts}
        lines = (f"{key}: {json.dumps(value, ensure_ascii=False)}" for key, value in front.items())
        return "\n".join(("---", *lines, "---", "", self.body.strip(), ""))


def front_matter(description: str, tags: Iterable[str], reviewed: date, months: int) -> dict[str, Any]:
    """What a page tells MkDocs and the theme about itself, with the day when its review is due."""
    year, month = divmod(reviewed.month - 1 + months, 12)
    year += reviewed.year
    due = date(year, month + 1, min(reviewed.day, monthrange(year, month + 1)[1]))
    return {
        "description": description,
        "tags": list(tags),
        "reviewed": reviewed.isoformat(),
        "review_due": due.isoformat(),
    }


def from_page(page: str, target: str) -> str:
    """The relative address from one page of the handbook to another file of it."""
    path, hash_mark, anchor = target.partition("#")
    return relpath(path, dirname(page) or ".") + hash_mark + anchor


def site_address(path: str) -> str:
    """The address of a Markdown page once it is a page of the site, with the anchor that it may have."""
    page, hash_mark, anchor = path.partition("#")
    return (page.removesuffix(".md") + ".html" if page.endswith(".md") else page) + hash_mark + anchor
