"""The engine, single commands, and single figures."""

import random
import time
from collections.abc import Iterator
from functools import partial
from statistics import median

from generator.engine.sharing import Sharing, Stage, share
from generator.figures.draw import draw
from generator.figures.formats import WIDE
from generator.figures.room import room_figure
from generator.figures.scene import frame_of, stage_scene
from generator.figures.shapes import Part
from generator.figures.view import View
from tests.benchmarks.measuring import Measured, median_seconds, python, seconds
from tests.figures.cases import WORDS

_SECONDS = 1.0
_COMMANDS = {
    "share": ("share", "5230", "4"),
    "choose": ("choose", "4", "--exchange-from", "tens,hundreds"),
    "diagnose": ("diagnose", "5230", "4", "--seen", "1308,1307,1307,1307", "--left", "1"),
}


def engine() -> Iterator[Measured]:
    chance = random.Random(1)
    plain = [(chance.randint(1000, 9999), chance.randint(2, 12), False) for _ in range(20_000)]
    ribbons = [(chance.randint(1000, 9999), chance.choice((11, 12, 23, 30, 102, 111)), True) for _ in range(20_000)]
    yield Measured("full traces, four digits among 2 to 12", _traces(plain), "a second", "10,000 or more")
    yield Measured("full traces, four digits with ribbons", _traces(ribbons), "a second")


def commands() -> Iterator[Measured]:
    yield Measured("python alone", median_seconds(partial(python, "-c", "pass"), 5), "s")
    for name, arguments in _COMMANDS.items():
        aim = "under 0.4" if name != "diagnose" else ""
        yield Measured(name, median_seconds(partial(python, "-m", "generator", *arguments), 5), "s", aim)


def figures() -> Iterator[Measured]:
    chance = random.Random(2)
    sharings = [share(chance.randint(1000, 9999), chance.randint(2, 9)) for _ in range(40)]
    stages = [(sharing, stage) for sharing in sharings for stage in sharing.stages]
    ours = [seconds(partial(_work_out_and_draw, *stage)) for stage in stages]
    drawn = [seconds(partial(draw, _work_out(*stage))) for stage in stages]
    yield Measured("a stage, worked out and drawn", 1000 * median(ours), "ms")
    yield Measured("  only drawn", 1000 * median(drawn), "ms")


def _work_out_and_draw(sharing: Sharing, stage: Stage) -> bytes:
    return draw(_work_out(sharing, stage))


def _work_out(sharing: Sharing, stage: Stage) -> Part:
    return room_figure(View(stage_scene(sharing, stage), frame_of(sharing), WIDE, WORDS))


def _traces(divisions: list[tuple[int, int, bool]]) -> float:
    done = 0
    begun = time.perf_counter()
    for dividend, divisor, ribbons in divisions:
        _look_at_every_step(share(dividend, divisor, ribbons=ribbons))
        done += 1
        if time.perf_counter() - begun > _SECONDS:
            break
    return done / (time.perf_counter() - begun)


def _look_at_every_step(sharing: Sharing) -> None:
    for step in sharing.steps:
        assert step.after.level >= 0
