"""The option for a school's own folder."""

from __future__ import annotations

from pathlib import Path

import click

school_option = click.option(
    "--school",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="A school's own folder, laid over the stock handbook.",
)
