"""`new`: a lesson file for a number and a group, or a first folder for a school."""

import os
import shlex
import subprocess
import textwrap
from collections.abc import Iterator
from contextlib import suppress
from datetime import date
from pathlib import Path

import click

from generator import HANDBOOK
from generator.build.publishing import site_around
from generator.commands.arguments import WholeNumbersCommand, echo_unless_closed, school_option, whole_number
from generator.engine.limits import LARGEST_DIVIDEND, LARGEST_DIVISOR
from generator.engine.sharing import share
from generator.errors import SourceError
from generator.pages.writing.settings import settings
from generator.source.fields import LARGEST_ORDER
from generator.source.layers import entry_names
from generator.source.lessons import STEP_FILE, misfits
from generator.source.library import Sources, readable
from generator.source.models import LessonFile, PathStep
from generator.source.reading import Table, as_toml, refused
from generator.source.validating import did_you_mean, validated
from generator.words.numbers import capital
from generator.words.phrases import Grouping, Phrases
from generator.words.titles import way_to_the_end

_WIDTH = 100
_WORDS = Phrases("en", Grouping(""))


@click.command(
    cls=WholeNumbersCommand,
    epilog="""\b
Examples:
  python -m generator new --school my-school
  python -m generator new 6945 3 --school my-school
  python -m generator new 3612 12 --ribbons --step ten-ribbons""",
)
@click.argument("dividend", type=whole_number(1, LARGEST_DIVIDEND), required=False)
@click.argument("divisor", type=whole_number(1, LARGEST_DIVISOR), required=False)
@click.option("--ribbons", is_flag=True, help="Children with ribbons stand for ten or a hundred sharers.")
@click.option("--step", metavar="STEP", help="The step the lesson belongs to, where several would take it.")
@school_option
def command(dividend: int | None, divisor: int | None, ribbons: bool, step: str | None, school: Path | None) -> None:
    """Write a lesson file for DIVIDEND among DIVISOR, ready to edit: only the reason is missing.

    Without numbers, write a first school FOLDER with every setting explained. Nothing is ever overwritten.
    """
    if dividend is not None and divisor is not None:
        _new_lesson(dividend, divisor, ribbons, step, school)
    elif dividend is not None or ribbons or step:
        raise click.UsageError("a lesson needs two numbers: DIVIDEND and DIVISOR.")
    elif school is None:
        raise click.UsageError("say what to write: DIVIDEND and DIVISOR, or --school FOLDER, or both.")
    else:
        _new_school(school)


def _new_school(folder: Path) -> None:
    path = folder / "school.toml"
    _write(path, _school_text(readable(HANDBOOK)))
    echo_unless_closed(f"Wrote {path}. Edit it, then: python -m generator build --school {_quoted(folder)}")


def _new_lesson(dividend: int, divisor: int, ribbons: bool, wanted: str | None, school: Path | None) -> None:
    sources = readable(HANDBOOK, school)
    lesson = _planned(dividend, divisor, ribbons)
    for other in (other for step in sources.every_step for other in step.lessons):
        if (other.dividend, other.divisor, other.ribbons) == (dividend, divisor, ribbons):
            remedy = "edit that file"
            if school and not other.from_school:
                remedy = f"to change it, copy it to {school / 'lessons' / other.step}"
            raise click.UsageError(f"{dividend} among {divisor} is already shared in {other.file}; {remedy}.")
    step = _step_for(lesson, wanted, sources)
    if not sources.school.includes(step.slug):
        problem = f"this lesson lies in the step {step.slug}, which steps in school.toml leaves out"
        raise click.UsageError(f"{problem}; add {step.slug} to steps, or choose other numbers.")
    order = min(max((other.order for other in step.lessons), default=0) + 10, LARGEST_ORDER)
    name = f"{dividend}-{'for' if ribbons else 'among'}-{divisor}.toml"
    path = (school or HANDBOOK) / "lessons" / step.slug / name
    for folder in (path.parent.parent, path.parent):
        entry_names(folder, str(folder))  # refuses what check would
    _write(path, _lesson_text(lesson, order))
    check = f"python -m generator check --school {_quoted(school)}" if school else "python -m generator check"
    echo_unless_closed(f"Wrote {path} for the step {step.slug}. Complete its reason, then: {check}")


def _planned(dividend: int, divisor: int, ribbons: bool) -> LessonFile:
    """The lesson as it will be once its reason is complete; refused as its file would be."""
    values = {"dividend": dividend, "divisor": divisor, "ribbons": ribbons, "order": 1}
    try:
        return validated(LessonFile, Table("", {**values, "reason": "?" * 20, "reviewed": date.today()}, {}))
    except SourceError as error:
        faults = "; ".join(f"{fault.key} {fault.problem}: {fault.remedy}" for fault in error.faults)
        if error.faults[0].key == "reviewed":
            faults = f"this computer's clock says {date.today().isoformat()}; set it"
        raise click.UsageError(faults.replace("ribbons = true", "--ribbons") + ".") from None


def _step_for(lesson: LessonFile, wanted: str | None, sources: Sources) -> PathStep:
    """The step that was named, or else the only one that takes the lesson, of those included if any of them does."""
    by_slug = {step.slug: step for step in sources.every_step}
    if wanted is not None:
        if wanted not in by_slug:
            if its_own := [fault for fault in sources.faults if fault.file.endswith(f"/{wanted}/{STEP_FILE}")]:
                # The one furthest down: that it has no lesson yet is told first.
                raise click.UsageError(f"the step {wanted} has a fault: {max(its_own)}.")
            raise click.UsageError(f"there is no step {wanted}; {did_you_mean(wanted, by_slug)}")
        found = misfits(lesson, by_slug[wanted].expects, by_slug[wanted].from_school)
        if problems := [f"{misfit.problem}; {misfit.remedy}" for misfit in found]:
            raise click.UsageError(".\n".join(problems).replace("ribbons = true", "--ribbons") + ".")
        return by_slug[wanted]
    takers = [step for step in sources.every_step if not any(misfits(lesson, step.expects))]
    takers = [step for step in takers if sources.school.includes(step.slug)] or takers
    if len(takers) != 1:
        those = f"the steps {' and '.join(step.slug for step in takers)} take" if takers else "no step takes"
        remedy = "name one with --step" if takers else "choose other numbers, or add a step that does"
        raise click.UsageError(f"{those} {lesson.dividend} among {lesson.divisor}; {remedy}.")
    return takers[0]


def _lesson_text(lesson: LessonFile, order: int) -> str:
    """The file of a planned lesson: what comes of its division in comments, and a reason to complete."""
    filled = lesson.model_dump(exclude_unset=True) | {"order": order, "reason": ""}
    sharing = share(lesson.dividend, lesson.divisor, ribbons=lesson.ribbons)
    result = _WORDS.say(
        "first-file.lesson-and-rest" if sharing.remainder else "first-file.lesson",
        dividend=sharing.dividend,
        divisor=sharing.divisor,
        quotient=sharing.quotient,
        remainder=sharing.remainder,
    )
    lines = [f"# {result}", f"# {capital(way_to_the_end(_WORDS, sharing))}."]
    for key, field in LessonFile.model_fields.items():
        lines += ["", *_explained(_WORDS.say(f"setting.lesson.{key}"), field.description or "")]
        lines += [f"{key} = {as_toml(filled[key])}" if key in filled else f"# {key} = {as_toml(field.default)}"]
    return "\n".join(lines) + "\n"


def _school_text(stock: Sources) -> str:
    """A school.toml that explains every setting, each commented out at the stock handbook's value."""
    examples = {"steps": [step.slug for step in stock.steps], "site_url": "https://intranet.example/sharing/"}
    lines: list[str] = []
    table = ""
    for setting in settings(_WORDS, stock.school):
        if setting.table != table:
            table = setting.table
            lines += ["", "", f"[{table}]"]
        shown = setting.here or as_toml(examples[setting.key])
        lines += ["", *_explained(setting.purpose, setting.right), f"# {setting.key} = {shown}"]
    return _WORDS.say("first-file.head") + "\n".join(lines) + "\n"


def _explained(purpose: str, right: str) -> Iterator[str]:
    """What a key is for and what may stand there, as comments."""
    words = _WORDS.say("first-file.key", purpose=purpose, right=right)
    return (f"# {line}" for line in textwrap.wrap(words, _WIDTH, break_on_hyphens=False))


def _quoted(folder: Path) -> str:
    """A folder as a command line takes it."""
    return subprocess.list2cmdline([str(folder)]) if os.name == "nt" else shlex.quote(str(folder))


def _write(path: Path, text: str) -> None:
    """Write a new file and the folders above it, whole or not at all; never over another."""
    unfinished = path.with_name(f".{path.name}.new")
    try:
        for folder in path.parents:
            if os.path.lexists(folder) and not folder.is_dir():
                raise refused(str(folder), "is not a folder", "choose another one")
        if site := site_around(path):
            raise refused(str(site), "is a published site", "choose another folder")
        path.parent.mkdir(parents=True, exist_ok=True)
        if os.path.lexists(path):
            raise refused(str(path), "is already there", "edit it, or choose another name")
        try:
            unfinished.write_text(text, "utf-8", newline="\n")
            unfinished.rename(path)
        finally:
            with suppress(OSError):
                unfinished.unlink()
    except OSError as error:
        remedy = "check the folder's name and rights, and the room on the disk"
        raise refused(str(path), f"cannot be written ({error.strerror})", remedy) from None
