"""The scripts of the handbook's pages in an embedded V8, and their answers beside Python's, as JSON."""

import json
from collections.abc import Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, contextmanager

from py_mini_racer import MiniRacer

from generator import HANDBOOK
from generator.pages.kinds import script_data
from generator.site.scripts import lean, listed
from generator.words.phrases import Phrases
from tests.stock import sources

FOLDER = HANDBOOK / "theme"
SECONDS = 300
IN_ORDER = [script for script in listed()["today"] if script.startswith(("js/sharing/", "js/words/", "js/commands"))]

# A value without the names in it, as Python's named tuples are in JSON; and what is refused, in the words of its error.
# With `var` they are known to scripts that run later, in a page too.
HELPERS = """
var bare = (value) =>
  value && typeof value === "object" ? (Array.isArray(value) ? value : Object.values(value)).map(bare) : value;
var orRefused = (answer) => {
  try {
    return answer();
  } catch (error) {
    return `${error.name}: ${error.message}`;
  }
};
"""


SHORTEST = "js/sharing/shortest.js"
# Python keeps the last shortest repairs, because many slips leave the same room; so does this, for tests alone.
KEEP_SHORTEST = """{
  const { shortest } = sharing.shortest;
  const kept = new Map();
  sharing.shortest.shortest = (room, most) => {
    const asked = JSON.stringify([room, most]);
    if (kept.size > 4000) kept.clear();
    if (!kept.has(asked)) kept.set(asked, shortest(room, most));
    return kept.get(asked);
  };
}"""


_V8_THREAD = ThreadPoolExecutor(max_workers=1)


class Engine:
    """A V8 that keeps what it has run. What runs longer than SECONDS is an endless loop, and ends with an exception.

    All of a process live on one thread of their own: on one where a browser is driven, V8 would take no time limit,
    and on a second one it would end the process.
    """

    def __init__(self) -> None:
        self._v8 = _V8_THREAD.submit(MiniRacer).result()

    def run(self, script: str) -> str:
        """The text that a script comes to."""
        return str(_V8_THREAD.submit(self._v8.eval, script, timeout_sec=SECONDS).result())

    def close(self) -> None:
        _V8_THREAD.submit(self._v8.close).result()

    def answers(self, function: str, calls: Iterable[object]) -> list[str]:
        """The JSON of what a function of one argument answers for each of many."""
        text = self.run(f"{as_json(list(calls))}.map((call) => JSON.stringify(({function})(call))).join('\\n')")
        return text.split("\n")


@contextmanager
def running() -> Iterator[Engine]:
    """An engine that knows the stock handbook and its school, with the scripts as pages load them."""
    known = script_data.files(script_data.handbook_data(sources(), Phrases("en")))[script_data.FILE].decode()
    with closing(Engine()) as engine:
        engine.run(known)
        for name in IN_ORDER:
            engine.run(lean((FOLDER / name).read_text("utf-8")))
            if name == SHORTEST:
                engine.run(KEEP_SHORTEST)
        engine.run(HELPERS)
        yield engine


def as_json(value: object) -> str:
    """As a script writes it: no spaces, characters as they are."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
