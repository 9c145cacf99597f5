"""`check`: everything that `build` would refuse; what it builds is thrown away."""

from pathlib import Path

import click

from generator.build.straight_line import check
from generator.commands.arguments import school_option
from generator.commands.tables import counted


@click.command(
    epilog="""\b
Examples:
  python -m generator check
  python -m generator check --school my-school""",
)
@school_option
def command(school: Path | None) -> None:
    """Read everything that the handbook is made of and name every fault; nothing is published.

    Each fault is one line: file and line, key, what is wrong, what would be right.
    """
    sources = check(school)
    lessons = counted(len(sources.lessons), "lesson")
    steps = counted(len(sources.steps), "step")
    pages = counted(len(sources.pages), "page")
    click.echo("\n".join([*sources.changes, f"No faults: {lessons} in {steps}, {pages}."]))
