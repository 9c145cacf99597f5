"""Handbooks with any number of lessons, made up from a seed: the stock one with lessons taken out or added."""

import random
import shutil
from collections.abc import Iterator
from pathlib import Path

from generator import HANDBOOK
from generator.source.lessons import misfits
from generator.source.library import load
from generator.source.models import LessonFile, PathStep

# Pages of the stock handbook go through this lesson.
_NEEDED = "2684-among-2"
_REASON = "Made up to see how the handbook grows: lesson number {} of a great many, with a reason of its own."


def write_handbook(folder: Path, lessons: int) -> None:
    """The same handbook every time for the same number of lessons."""
    shutil.copytree(HANDBOOK, folder)
    sources = load(HANDBOOK)
    chance = random.Random(lessons)
    spare = [lesson for lesson in sources.lessons if lesson.slug != _NEEDED]
    for lesson in chance.sample(spare, max(0, len(sources.lessons) - lessons)):
        (folder / "lessons" / lesson.step / f"{lesson.slug}.toml").unlink()
    taken = {lesson.slug for lesson in sources.lessons}
    added = _more(chance, sources.steps, taken)
    for number in range(lessons - len(sources.lessons)):
        step, made_up = next(added)
        name = f"{made_up.dividend}-among-{made_up.divisor}"
        (folder / "lessons" / step.slug / f"{name}.toml").write_text(
            f"dividend = {made_up.dividend}\ndivisor = {made_up.divisor}\norder = {1 + number % 999}\n"
            f'reason = "{_REASON.format(number)}"\nreviewed = {made_up.reviewed}\n',
            encoding="utf-8",
        )


def _more(chance: random.Random, steps: tuple[PathStep, ...], taken: set[str]) -> Iterator[tuple[PathStep, LessonFile]]:
    """Lessons without end, each in the first step that takes it; one that no step takes is left out."""
    example = steps[0].lessons[0]
    while True:
        dividend, divisor = chance.randint(1000, 9999), chance.randint(2, 12)
        slug = f"{dividend}-among-{divisor}"
        made_up = LessonFile(dividend=dividend, divisor=divisor, order=1, reason=_REASON, reviewed=example.reviewed)
        step = next((step for step in steps if not any(misfits(made_up, step.expects))), None)
        if step and slug not in taken:
            taken.add(slug)
            yield step, made_up
