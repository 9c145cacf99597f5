"""The first page of a section leads to all pages of it that people wrote."""

from pathlib import Path

import pytest

from generator import HANDBOOK
from tests.pages.reading import read_pages

PAGES = HANDBOOK / "en" / "pages"
SECTIONS = sorted(index.parent.name for index in PAGES.glob("*/index.md"))


@pytest.mark.parametrize("section", SECTIONS)
def test_every_page_stands_in_the_first_of_its_section(section: str, site: Path) -> None:
    written = {f"{section}/{page.stem}" for page in (PAGES / section).glob("*.md")} - {f"{section}/index"}
    assert written - read_pages(site)[f"{section}/index"].links == set(), f"name these in {section}/index.md"
