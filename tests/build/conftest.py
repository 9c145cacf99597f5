"""What several tests of building look at."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from generator.build import changed_pages
from generator.build.other_processes import Submit
from generator.build.two_runs import render_pages
from generator.site.run_mkdocs import Nav, Settings


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The pages that MkDocs is asked to render while a test lasts, as paths of their Markdown."""
    pages: list[str] = []

    def noted(
        submit: Submit | None, docs: Path, folder: Path, nav: Nav, settings: Settings, wanted: Sequence[str]
    ) -> dict[str, Any]:
        pages.extend(wanted)
        return render_pages(submit, docs, folder, nav, settings, wanted)

    monkeypatch.setattr(changed_pages, "render_pages", noted)
    return pages
