"""Scripts as pages load them: nothing is left out but comments and indentation."""

from __future__ import annotations

import gzip
from pathlib import Path

import pytest
import yaml

from generator import HANDBOOK
from generator.site.render import MKDOCS_YML
from generator.site.scripts import lean

SCRIPTS = sorted((HANDBOOK / "theme" / "js").rglob("*.js"))


def test_comments_and_indentation_are_left_out() -> None:
    script = '// What it does.\n(() => {\n  /**\n   * @type {number}\n   */\n  const one = "// 1"; // stays\n})();\n'
    assert lean(script) == '(() => {\nconst one = "// 1"; // stays\n})();\n'


def test_code_after_a_comment_on_its_line_stays() -> None:
    script = "(() => {\n  /** @type {X} */ (one).two = 3;\n  /** A function. */\n  const four = 4;\n})();\n"
    assert lean(script) == "(() => {\n/** @type {X} */ (one).two = 3;\nconst four = 4;\n})();\n"


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda path: path.stem)
def test_no_text_goes_over_several_lines(script: Path) -> None:
    assert [line for line in script.read_text("utf-8").splitlines() if line.count("`") % 2] == []


def test_what_todays_number_loads_is_small(site: Path) -> None:
    loaded = yaml.safe_load(MKDOCS_YML.read_text("utf-8"))["extra"]["scripts"]["today"]
    served = b"".join((site / script).read_bytes() for script in loaded)
    print(len(served), len(gzip.compress(served)))
    assert len(served) <= 175_000
    assert len(gzip.compress(served)) <= 45_000
