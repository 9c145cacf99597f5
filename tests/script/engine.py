"""The scripts of the handbook's pages in an embedded V8, and their answers beside Python's, as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, contextmanager

import yaml
from py_mini_racer import MiniRacer

from generator import HANDBOOK
from generator.pages.kinds import script_data
from generator.site.render import MKDOCS_YML
from generator.words.phrases import Phrases
from tests.stock import sources

FOLDER = HANDBOOK / "theme" / "js"
SECONDS = 120
LOADED = yaml.safe_load(MKDOCS_YML.read_text("utf-8"))["extra"]["scripts"]["today"]
IN_ORDER = [script.removeprefix("js/") for script in LOADED if script.startswith(("js/sharing/", "js/words/"))]

# A value without the names in it, as Python's named tuples are in JSON; and what is refused, in the words of its error.
HELPERS = """
const bare = (value) =>
  value && typeof value === "object" ? (Array.isArray(value) ? value : Object.values(value)).map(bare) : value;
const orRefused = (answer) => {
  try {
    return answer();
  } catch (error) {
    return `${error.name}: ${error.message}`;
  }
};
"""


class Engine:
    """The scripts, loaded once. What runs longer than SECONDS is an endless loop, and ends with an exception.

    They live on a thread of their own: on one where a browser is driven, V8 would take no time limit.
    """

    def __init__(self, thread: ThreadPoolExecutor) -> None:
        self._thread = thread
        self._v8 = thread.submit(MiniRacer).result()

    def run(self, script: str) -> str:
        """The text that a script comes to."""
        return str(self._thread.submit(self._v8.eval, script, timeout_sec=SECONDS).result())

    def close(self) -> None:
        self._thread.submit(self._v8.close).result()

    def answers(self, function: str, calls: Iterable[object]) -> list[str]:
        """The JSON of what a function of one argument answers for each of many."""
        text = self.run(f"{as_json(list(calls))}.map((call) => JSON.stringify(({function})(call))).join('\\n')")
        return text.split("\n")


@contextmanager
def running() -> Iterator[Engine]:
    """An engine that knows the stock handbook and its school."""
    known = script_data.files(script_data.known(sources(), Phrases("en")))[script_data.FILE].decode()
    with ThreadPoolExecutor(max_workers=1) as thread, closing(Engine(thread)) as engine:
        for script in (*((FOLDER / name).read_text("utf-8") for name in IN_ORDER), known, HELPERS):
            engine.run(script)
        yield engine


def as_json(value: object) -> str:
    """As a script writes it: no spaces, characters as they are."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
