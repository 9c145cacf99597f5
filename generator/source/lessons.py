"""Steps and their lessons, from the files of both layers, and whether a lesson is what its step expects."""

import json
from collections.abc import Iterable, Iterator, Sequence

from generator.engine.features import features_of
from generator.engine.places import place_name
from generator.engine.sharing import share
from generator.errors import Fault, Faults, Problem
from generator.source.layers import Source
from generator.source.models import PAGES_OF_A_STEP, Expects, Lesson, LessonFile, PathStep, StepFile
from generator.source.reading import Table, read_toml, refused
from generator.source.validating import did_you_mean, validated

STEP_FILE = "step.toml"
_RIBBONS = ("without ribbons", "with ten-ribbons", "with hundred-ribbons")

# A lesson and the table it was read from, for faults that are found by comparing lessons.
_Read = tuple[Lesson, Table]


def read_steps(files: Sequence[Source], faults: Faults) -> tuple[PathStep, ...]:
    """All steps in teaching order, each with its lessons; a step or lesson with a fault is left out."""
    step_sources = {source.parts[0]: source for source in files if source.parts[-1] == STEP_FILE}
    lesson_sources = [source for source in files if source.parts[-1] != STEP_FILE]
    faults.extend(_without_a_step(lesson_sources, step_sources))
    lessons = sorted(_lessons(lesson_sources, faults), key=lambda read: (read[0].order, read[0].slug))
    faults.extend(_duplicates(lessons))
    steps: list[PathStep] = []
    for slug, source in step_sources.items():
        if not any(lesson.parts[0] == slug for lesson in lesson_sources):
            faults.append(Fault.of_file(source.file, "is a step without a lesson", "add a lesson file beside it"))
        with faults.gathered():
            step_table = read_toml(source.path, source.file)
            step = validated(StepFile, step_table)
            own = [(lesson, table) for lesson, table in lessons if lesson.step == slug]
            for lesson, table in own:
                if lesson.from_school or not source.from_school:
                    for key, problem, remedy in misfits(lesson, step.expects, source.from_school):
                        faults.append(table.fault((key,), problem, remedy))
            if source.from_school:
                ours = (lesson for lesson, _ in own if not lesson.from_school)
                faults.extend(_refusing(ours, step.expects, step_table))
            steps.append(
                PathStep(
                    **dict(step),
                    slug=slug,
                    file=source.file,
                    title_line=step_table.line_of(("title",)),
                    short_line=step_table.line_of(("short",)),
                    from_school=source.from_school,
                    lessons=tuple(lesson for lesson, _ in own),
                )
            )
    return tuple(sorted(steps, key=lambda step: (step.order, step.slug)))


def misfits(lesson: LessonFile, expects: Expects, may_change: bool = False) -> Iterator[Problem]:
    """Everything about a lesson that its step does not accept; with `may_change` a remedy may be to change the step."""
    other_step = "another step" + (", or change what this step expects in its step.toml" if may_change else "")
    for key, fits, sentence in _traits(lesson, expects):
        if not fits:
            wanted = json.dumps(getattr(expects, key))
            problem = f"{lesson.dividend} among {lesson.divisor} {sentence}, but its step expects {key} = {wanted}"
            if key == "ribbons" and not lesson.ribbons:
                yield Problem("divisor", problem, f"add ribbons = true, or choose {other_step}")
            elif key in ("children", "ribbons"):
                yield Problem("divisor", problem, f"choose another divisor or {other_step}")
            else:
                numbers = "" if lesson.ribbons else f" (python -m generator choose {lesson.divisor})"
                yield Problem("dividend", problem, f"choose another number{numbers} or {other_step}")


def _refusing(lessons: Iterable[LessonFile], expects: Expects, step_table: Table) -> Iterator[Fault]:
    """A fault for each key of a school's [expects] that refuses lessons of ours, naming the first of them.

    A school may not change our lessons, so the fault is in its step.toml.
    """
    refused_first: dict[str, str] = {}
    for lesson in lessons:
        for key, fits, sentence in _traits(lesson, expects):
            if not fits:
                refused_first.setdefault(key, f"{lesson.dividend} among {lesson.divisor}, which {sentence}")
    for key, what_it_is in refused_first.items():
        remedy = "write what fits our lessons, or give your step a folder of its own"
        yield step_table.fault(("expects", key), f"does not fit our lesson {what_it_is}", remedy)


def _lessons(sources: Iterable[Source], faults: Faults) -> Iterator[_Read]:
    for source in sources:
        slug = source.parts[-1].removesuffix(".toml")
        with faults.gathered():
            if slug in PAGES_OF_A_STEP:
                raise refused(source.file, "has the name of a page that every step has", "rename it")
            table = read_toml(source.path, source.file)
            lesson = Lesson(
                **validated(LessonFile, table).model_dump(exclude_unset=True),
                slug=slug,
                step=source.parts[0],
                file=source.file,
                from_school=source.from_school,
            )
            yield lesson, table


def _without_a_step(lessons: Iterable[Source], steps: dict[str, Source]) -> Iterator[Fault]:
    """Folders that hold lessons and no step.toml, each named once."""
    homeless = {lesson.file.rpartition("/")[0]: lesson.parts[0] for lesson in lessons if lesson.parts[0] not in steps}
    for folder, slug in homeless.items():
        remedy = f"add one, or move the lessons to another step; {did_you_mean(slug, steps)}" if steps else "add one"
        yield Fault.of_file(folder, f"has no {STEP_FILE}", remedy)


def _duplicates(lessons: Iterable[_Read]) -> Iterator[Fault]:
    """A fault for each lesson with the name or the numbers of another; of the two the school's has the fault."""
    by_slug: dict[str, Lesson] = {}
    by_numbers: dict[tuple[int, int, bool], Lesson] = {}
    for lesson, table in sorted(lessons, key=lambda read: (read[0].from_school, read[0].file)):
        numbers = (lesson.dividend, lesson.divisor, lesson.ribbons)
        if other := by_slug.get(lesson.slug):
            yield table.fault((), f"has the same name as {other.file}", "rename one of them")
        elif other := by_numbers.get(numbers):
            problem = f"{lesson.dividend} among {lesson.divisor} is already shared in {other.file}"
            remedy = "choose other numbers, or give this file the same step and name to replace that lesson"
            if lesson.from_school == other.from_school:
                remedy = "choose other numbers, or keep one of the two"
            yield table.fault(("dividend",), problem, remedy)
        by_slug.setdefault(lesson.slug, lesson)
        by_numbers.setdefault(numbers, lesson)


def _traits(lesson: LessonFile, expects: Expects) -> Iterator[tuple[str, bool, str]]:
    """For each key of [expects]: the key, whether the lesson fits, and what the lesson has, as half a sentence."""
    fewest, most = expects.children
    yield "children", fewest <= lesson.children <= most, f"needs {lesson.children} children"
    sharing = share(lesson.dividend, lesson.divisor, ribbons=lesson.ribbons)
    largest = len(sharing.mat) - 1
    right = {"none": largest == 0, "ten": largest == 1, "hundred": largest == 2, "some": largest > 0}
    yield "ribbons", right[expects.ribbons], f"is shared {_RIBBONS[largest]}"
    features = features_of(sharing)
    from_places = features.exchange_from
    sends = f"sends to the bank: {_listed(from_places)}"
    wanted = expects.exchange_from
    yield "exchange_from", wanted is None or set(wanted) == set(map(place_name, from_places)), sends
    count = len(from_places)
    right = {"none": count == 0, "one place": count == 1, "several places": count > 1, "some": count > 0, "any": True}
    yield "exchanges", right[expects.exchanges], sends
    right = {"none": sharing.remainder == 0, "some": sharing.remainder > 0, "any": True}
    yield "remainder", right[expects.remainder], f"leaves {sharing.remainder or 'nothing'} over"
    in_number = features.zeros_in_dividend
    in_share = (*features.zeros_inside_quotient, *features.zeros_at_quotient_end)
    right = {"number": bool(in_number), "share": bool(in_share), "either": bool(in_number or in_share), "any": True}
    zeros = f"has a zero in the number at: {_listed(in_number)}, in the share at: {_listed(in_share)}"
    yield "empty_place", right[expects.empty_place], zeros
    short = features.places_short
    right = {"none": not short, "highest": features.highest_place_short, "some": bool(short), "any": True}
    yield "short", right[expects.short], f"has too few pieces to go round at: {_listed(short)}"


def _listed(places: tuple[int, ...]) -> str:
    return " and ".join(map(place_name, places)) or "none"
