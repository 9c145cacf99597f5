"""Scripts as pages load them: joined, and nothing is left out but comments and white space."""

import gzip
import json
import re
from collections.abc import Iterator
from contextlib import closing
from itertools import chain
from pathlib import Path

import pytest

from generator import HANDBOOK, PROJECT
from generator.site.scripts import joined, lean, listed
from tests.script.engine import Engine

FOLDER = HANDBOOK / "theme" / "js"
SCRIPTS = sorted(FOLDER.rglob("*.js"))
WORKER = sorted((PROJECT / "generator" / "site" / "search-worker").glob("*.js"))
FROM_BELOW = ("sharing", "words", "lesson", "today")  # the folders of scripts
LONGEST_LINE = 120  # characters, as pyproject.toml has it for Python
LARGEST = 56_000  # bytes of all scripts and words of today's number, packed as servers send them


@pytest.fixture(scope="module")
def v8() -> Iterator[Engine]:
    with closing(Engine()) as v8:
        yield v8


def test_comments_and_white_space_are_left_out() -> None:
    script = """// What it does.
(() => {
  /**
   * @type {number}
   */
  const one = "// 1,  2"; // one
  /** @type {X} */ (one).two = `/* ${one} */  3`.replace(/[/*] "/g, " ") / 4;
  /** A function. */
  const five = async (a) => a - -one + +a;
})();
"""
    assert lean(script) == (
        '(()=>{const one="// 1,  2";(one).two=`/* ${one} */  3`.replace(/[/*] "/g," ")/4;'
        "const five=async(a)=>a- -one+ +a;})();"
    )


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda path: path.stem)
def test_what_is_left_of_a_script_can_be_read(script: Path, v8: Engine) -> None:
    v8.run(f"new Function({json.dumps(lean(script.read_text('utf-8')))});")


def test_the_scripts_of_a_kind_of_page_are_one_file(tmp_path: Path) -> None:
    first, second, *_ = listed()["today"]
    for script in chain(*listed().values()):
        (tmp_path / script).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / script).write_text(f'// {script}\n"use strict";\nseen.push("{script}");\n', "utf-8")
    assert joined(tmp_path)["js/today.js"].startswith(
        f'"use strict";seen.push("{first}");seen.push("{second}");'.encode()
    )


def test_what_todays_number_loads_is_small(site: Path) -> None:
    served = (site / "js" / "today.js").read_bytes()
    size = len(gzip.compress(served))
    assert size <= LARGEST
    assert not any((site / script).exists() for script in listed()["today"])


def test_what_a_script_offers_has_a_name_of_its_own() -> None:
    offered = [name for script in SCRIPTS for name in re.findall(r"\bsharing\.(\w+) = ", script.read_text("utf-8"))]
    assert len(offered) > 20
    assert sorted(offered) == sorted(set(offered))


def test_scripts_of_a_folder_take_nothing_from_those_above_it() -> None:
    """As imports of the program go down only."""
    texts = {script.relative_to(FOLDER): script.read_text("utf-8") for script in SCRIPTS}
    offered = {name: path.parts[0] for path, text in texts.items() for name in re.findall(r"\bsharing\.(\w+) = ", text)}
    assert {*FROM_BELOW} < {*offered.values()}
    from_above = [
        f"{path}: {name}"
        for path, text in texts.items()
        for name in re.findall(r"\bsharing\.(\w+)", text)
        if path.parts[0] in FROM_BELOW and offered.get(name) in FROM_BELOW[FROM_BELOW.index(path.parts[0]) + 1 :]
    ]
    assert from_above == []


def test_no_pattern_looks_behind() -> None:
    """Safari before 16.4 refuses the whole script (from memory); tablets of schools are old."""
    assert [script.name for script in (*SCRIPTS, *WORKER) if re.search(r"\(\?<[=!]", script.read_text("utf-8"))] == []


def test_lines_are_no_longer_than_those_of_the_program() -> None:
    lines = [line for script in (*SCRIPTS, *WORKER) for line in script.read_text("utf-8").splitlines()]
    assert [line for line in lines if len(line) > LONGEST_LINE] == []
