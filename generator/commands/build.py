"""`build`: the whole handbook, and the file to open."""

from pathlib import Path

import click

from generator.build.straight_line import WORKSHOP, Request, build
from generator.commands.arguments import echo_unless_closed, folder, school_option
from generator.commands.tables import counted


@click.command(
    epilog="""\b
Examples:
  python -m generator build
  python -m generator build --school my-school --out shared/handbook""",
)
@school_option
@click.option("--out", type=folder, default=WORKSHOP / "site", metavar="FOLDER", help="Where the site goes.")
@click.option("--quiet", is_flag=True, help="Say nothing but what went wrong, and the file to open.")
def command(school: Path | None, out: Path, quiet: bool) -> None:
    """Build the handbook and print the file to open."""
    summary = build(Request(school, out), (lambda words: None) if quiet else echo_unless_closed)
    if not quiet:
        for line in summary.sources.changes:
            click.echo(line)
        lessons, pages = counted(len(summary.sources.lessons), "lesson"), counted(summary.pages, "page")
        click.echo(f"{lessons}, {pages}, {counted(summary.figures, 'figure')} in {summary.seconds:.1f} s")
    click.echo(f"Open {summary.index}")
