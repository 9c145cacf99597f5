"""`build`: the whole handbook, and the file to open."""

from __future__ import annotations

from pathlib import Path

import click

from generator.build import WORKSHOP, Request, build


@click.command(epilog="Example: python -m generator build")
@click.option("--school", type=click.Path(path_type=Path), metavar="FOLDER", help="A school's own folder.")
@click.option(
    "--out", type=click.Path(path_type=Path), default=WORKSHOP / "site", metavar="FOLDER", help="Where the site goes."
)
@click.option("--quiet", is_flag=True, help="Say nothing but what went wrong, and the file to open.")
def command(school: Path | None, out: Path, quiet: bool) -> None:
    """Build the handbook and print the file to open."""
    summary = build(Request(school, out), (lambda line: None) if quiet else click.echo)
    if not quiet:
        for line in summary.replaced:
            click.echo(line)
        click.echo(
            f"{summary.lessons} lessons, {summary.pages} pages, {summary.figures} figures in {summary.seconds:.1f} s"
        )
    click.echo(f"Open {summary.index}")
