"""The content policy in the pages. That browsers obey it is tested in tests/browser."""

import re
import shutil
from base64 import b64encode
from hashlib import sha256
from pathlib import Path

import pytest

from generator.errors import HandbookError
from generator.site import policy
from tests.pages.reading import is_book
from tests.site import samples


def sources(text: str) -> dict[str, set[str]]:
    """Read a policy as the standard says: directives between semicolons, name first (Content Security Policy 3)."""
    parts = [part.split() for part in text.split(";")]
    return {name: set(values) for name, *values in parts}


def policies_in(page: str) -> list[str]:
    return re.findall(r'<meta http-equiv="Content-Security-Policy" content="([^"]*)">', page)


def test_every_page_has_the_policy_once_and_before_anything_that_loads(sample_site: Path) -> None:
    for page in sample_site.rglob("*.html"):
        text = page.read_text("utf-8")
        assert len(policies_in(text)) == 1, page
        start = text.index("Content-Security-Policy")
        assert start < min(text.index(tag) for tag in ("<script", "<link", "<img") if tag in text)


def test_the_hashes_are_those_of_the_inline_scripts_of_every_page(sample_site: Path) -> None:
    for page in sample_site.rglob("*.html"):
        if is_book(page.name):
            continue
        text = page.read_text("utf-8")
        inline = re.findall(r"<script>(.*?)</script>", text, re.DOTALL)
        hashes = {f"sha256-{b64encode(sha256(script.encode()).digest()).decode()}" for script in inline}
        assert hashes == policy.theme_scripts(sample_site), page
    assert len(policy.theme_scripts(sample_site)) >= 2


def test_a_script_in_a_page_of_the_handbook_is_not_let_in(tmp_path: Path, sample_site: Path) -> None:
    docs = tmp_path / "docs"
    shutil.copytree(samples.DOCS, docs)
    with (docs / "index.md").open("a", encoding="utf-8") as page:
        page.write("\n\n<script>alert(1)</script>\n")
    other = samples.build(tmp_path / "site", docs)
    assert "<script>alert(1)</script>" in (other / "index.html").read_text("utf-8")
    assert policy.theme_scripts(other) == policy.theme_scripts(sample_site)
    assert b64encode(sha256(b"alert(1)").digest()).decode() not in (other / "index.html").read_text("utf-8")


@pytest.mark.parametrize("where", ["page", "server"])
def test_nothing_is_allowed_but_the_handbook_itself(where: str, sample_site: Path) -> None:
    scripts = policy.theme_scripts(sample_site)
    text = (
        policies_in((sample_site / "index.html").read_text("utf-8"))[0] if where == "page" else policy.header(scripts)
    )
    found = sources(text)
    own = {"'self'"} | ({"file:"} if where == "page" else set())
    memory = {"blob:"} if where == "page" else set()
    assert found.pop("default-src") == {"'none'"}
    assert found.pop("script-src") == own | memory | {f"'{script}'" for script in scripts}
    assert found.pop("worker-src") == own | memory
    assert found.pop("style-src") == own
    assert found.pop("img-src") == own | {"data:"}
    assert found.pop("connect-src") == own
    assert found.pop("base-uri") == found.pop("form-action") == {"'none'"}
    if where == "server":  # a page may not say this of itself (Content Security Policy 3, 3.3)
        assert found.pop("frame-ancestors") == {"'self'"}
    assert not found


def test_a_page_without_a_place_for_it_is_refused() -> None:
    with pytest.raises(HandbookError, match=r"^odd\.html: there is no place for the content policy"):
        policy.with_policy("odd.html", "<!doctype html><title>Odd</title>", ())
