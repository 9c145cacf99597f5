"""Markdown that people wrote -> pages: its numbers and figures come from the engine, through the sandbox."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from generator.pages.environment import Writer
from generator.pages.page import Page, front_matter
from generator.source.models import AuthoredPage


def authored_pages(pages: tuple[AuthoredPage, ...], data: Mapping[str, Any], writer: Writer) -> tuple[Page, ...]:
    """Every authored page, by path; `data` are the names that their templates know besides the common ones."""
    return tuple(_page(page, data, writer) for page in sorted(pages, key=lambda page: (page.section, page.meta.order)))


def _page(page: AuthoredPage, data: Mapping[str, Any], writer: Writer) -> Page:
    body, pictures = writer.render_text(page.body, page.path, data)
    meta = front_matter(page.meta.description, page.meta.tags, page.meta.reviewed, writer.school.review.months)
    if page.meta.boost != 1:
        meta["search"] = {"boost": page.meta.boost}
    return Page(page.path, page.meta.title, meta, body, pictures)
