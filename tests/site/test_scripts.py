"""Scripts as pages load them: joined, and nothing is left out but comments and white space."""

import gzip
import json
import re
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from generator import HANDBOOK, PROJECT
from generator.site.scripts import joined, lean, listed
from tests.script.engine import Engine
from tests.site import samples

FOLDER = HANDBOOK / "theme" / "js"
SCRIPTS = sorted(FOLDER.rglob("*.js"))
WORKER = sorted((PROJECT / "generator" / "site" / "search-worker").glob("*.js"))
LONGEST_LINE = 120  # characters, as pyproject.toml has it for Python
LARGEST = 48_000  # bytes of all scripts and words of today's number, packed as servers send them


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
    today = listed()["today"]
    first, second, *_ = today
    for script in today:
        (tmp_path / script).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / script).write_text(f'// {script}\n"use strict";\nseen.push("{script}");\n', "utf-8")
    assert joined(tmp_path, today)["js/today.js"].startswith(
        f'"use strict";seen.push("{first}");seen.push("{second}");'.encode()
    )
    assert joined(tmp_path, [first, second]) == {}


def test_a_script_stands_alone_where_its_kind_of_page_lacks_another(tmp_path: Path) -> None:
    site = samples.build(tmp_path / "site")  # without what only a whole handbook says to its scripts
    assert not (site / "js" / "today.js").exists()
    assert (site / "js" / "sharing" / "places.js").exists()
    assert (site / "js" / "lesson.js").exists()
    assert not (site / "js" / "here.js").exists()


def test_what_todays_number_loads_is_small(site: Path) -> None:
    served = (site / "js" / "today.js").read_bytes()
    assert len(gzip.compress(served)) <= LARGEST
    assert not any((site / script).exists() for script in listed()["today"])


def test_what_a_script_offers_has_a_name_of_its_own() -> None:
    offered = [name for script in SCRIPTS for name in re.findall(r"\bsharing\.(\w+) = ", script.read_text("utf-8"))]
    assert len(offered) > 20
    assert sorted(offered) == sorted(set(offered))


def test_lines_are_no_longer_than_those_of_the_program() -> None:
    lines = [line for script in (*SCRIPTS, *WORKER) for line in script.read_text("utf-8").splitlines()]
    assert [line for line in lines if len(line) > LONGEST_LINE] == []
