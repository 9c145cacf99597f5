"""`check`: everything that `build` would refuse, without writing."""

from __future__ import annotations

from pathlib import Path

import click

from generator.build.straight_line import check
from generator.commands.school_option import school_option
from generator.source.library import Sources


@click.command(
    epilog="""\b
Examples:
  python -m generator check
  python -m generator check --school my-school""",
)
@school_option
def command(school: Path | None) -> None:
    """Read everything that the handbook is made of and name every fault, without writing.

    Each fault is one line: file and line, key, what is wrong, what would be right.
    """
    click.echo("\n".join(_summary(check(school))))


def _summary(sources: Sources) -> list[str]:
    lessons, steps, pages = (
        f"{len(things)} {name if len(things) == 1 else name + 's'}"
        for things, name in ((sources.lessons, "lesson"), (sources.steps, "step"), (sources.pages, "page"))
    )
    return [*sources.replaced, f"No faults: {lessons} in {steps}, {pages}."]
