"""The course of a division in a page, movement by movement: none is missing, and each comes with its words.

Own reasoning, no source.
"""

from itertools import islice

import pytest

from generator.engine.sharing import Sharing, share
from generator.words.phrases import Phrases
from generator.words.spoken import said_at
from tests.engine.divisions import divisions, divisions_with_ribbons
from tests.sampling import times
from tests.script.engine import FOLDER, Engine, as_json

WORDS = Phrases("en")
COURSE = """([dividend, divisor, ribbons, lookFirst]) => {
  const { courseOf } = sharing.course;
  const movements = courseOf(sharing.division.workOut(dividend, divisor, { ribbons, lookFirst }));
  return movements.map(({ step, stage, said, asks }) => [
    stage, step.action, said.map(({ text }) => text), asks.includes("next-place"),
  ]);
}"""


def course(sharing: Sharing) -> list[tuple[int, str, list[str], bool]]:
    """Place, movement, what is said with it, and whether one goes on to the place for it; what comes last, with it."""
    movements = []
    for at, stage in enumerate(sharing.stages):
        said = list(said_at(WORDS, sharing, stage))
        last = len(stage.movements) - 1
        for made, step in enumerate(stage.movements):
            texts = [line.text for line in said if min(line.made, last) == made]
            movements.append((at, step.action.value, texts, at > 0 and not made))
    return movements


@pytest.mark.parametrize("ribbons", [False, True])
@pytest.mark.parametrize("look_first", [False, True])
def test_every_division_has_its_course(engine: Engine, ribbons: bool, look_first: bool) -> None:
    chosen = divisions_with_ribbons(31) if ribbons else divisions(31)
    asked = [(*division, ribbons, look_first) for division in islice(chosen, times(whole=2_000, sampled=100))]
    engine.run((FOLDER / "js/today/course.js").read_text("utf-8"))
    for division, answer in zip(asked, engine.answers(COURSE, asked), strict=True):
        sharing = share(*division[:2], ribbons=ribbons, look_first=look_first)
        assert answer == as_json(course(sharing)), division
        assert {at for at, *_ in course(sharing)} == set(range(len(sharing.stages)))
