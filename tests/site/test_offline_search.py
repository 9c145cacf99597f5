"""The search index and worker as scripts."""

import json
from importlib.util import find_spec
from pathlib import Path

import pytest

from generator.errors import HandbookError
from generator.site import offline_search
from tests.site import samples


def worker(site: Path) -> str:
    text = (site / "js" / "search-worker.js").read_text("utf-8")
    start, end = "window.searchWorker = ", ";\n"
    assert text.startswith(start)
    assert text.endswith(end)
    found = json.loads(text[len(start) : -len(end)])
    assert isinstance(found, str)
    return found


def test_the_worker_is_the_themes_own_between_ours_without_its_source_map(sample_site: Path) -> None:
    package = find_spec("material")
    assert package
    assert package.origin
    (own,) = Path(package.origin).parent.glob("templates/assets/javascripts/workers/search.*.js")
    own_script = own.read_text("utf-8").partition("//# sourceMappingURL=")[0].rstrip()
    assert len(own_script) > 30_000
    source = worker(sample_site)
    assert "sourceMappingURL" not in source
    before, _, after = source.partition(own_script)
    assert "function nearestWord" in before
    assert "addEventListener" in before
    assert "TokenSet" in after
    assert (sample_site / "assets" / "javascripts" / "workers" / own.name).read_text("utf-8") == source


def test_the_index_as_script_is_the_index(sample_site: Path) -> None:
    script = (sample_site / "search" / "search_index.js").read_text("utf-8")
    assert script.startswith("var __index = ")
    assert script.endswith(";\n")
    assert json.loads(script[len("var __index = ") : -2]) == json.loads(
        (sample_site / "search" / "search_index.json").read_text("utf-8")
    )


def test_tables_and_whatever_else_is_marked_stay_out_of_the_index(sample_site: Path) -> None:
    docs = json.loads((sample_site / "search" / "search_index.json").read_text("utf-8"))["docs"]
    text = {entry["location"]: entry for entry in docs}
    lesson = text["lessons/uneven/5230-among-4.html"]
    assert lesson["tags"] == ["remainder", "left over", "who gets the extra one"]
    assert lesson["boost"] == 2
    assert "count out ten hundred-squares" not in json.dumps(docs)
    assert "One cube cannot go to four" in text["lessons/uneven/5230-among-4.html#thousands"]["text"]


def test_a_theme_without_the_worker_is_refused(tmp_path: Path) -> None:
    site = samples.build(tmp_path / "site")
    for file in (site / "assets" / "javascripts" / "workers").glob("*.js"):
        file.unlink()
    with pytest.raises(HandbookError, match="0 search workers where the theme should have put one"):
        offline_search.offline(site, samples.KNOWN)
