"""`serve`: a live preview of the handbook on this machine."""

import os
import subprocess
import sys
import time
from pathlib import Path

import click

from generator import HANDBOOK, PROJECT
from generator.build.kept_between_builds import name_of
from generator.build.straight_line import WORKSHOP
from generator.commands.arguments import school_option, whole_number
from generator.commands.preview import Preview, changes

_PREVIEWS = WORKSHOP / "previews"  # one for each handbook: several may be shown at the same time


@click.command(
    epilog="""\b
Examples:
  python -m generator serve
  python -m generator serve --school my-school --port 8080""",
)
@school_option
@click.option("--port", type=whole_number(0, 65_535), default="8765", show_default=True, help="0 takes a free one.")
def command(school: Path | None, port: int) -> None:
    """Show the handbook in the browser, and build it again whenever a file changes. Ctrl-C ends it.

    Only this machine can see it. While something is wrong, the pages and this window say what it is.
    """
    folders = [HANDBOOK] if school is None else [HANDBOOK, school.absolute()]
    out = _PREVIEWS / name_of(school)
    try:
        with Preview(out, port) as preview:
            click.echo(f"{preview.address} shows the handbook as soon as it is built. Ctrl-C ends it.")
            for _ in changes(folders):
                begun = time.monotonic()
                faults = _build(school, out)
                preview.show(faults)
                if faults:
                    click.echo(f"{faults}\nMend it, and the handbook is built again.", err=True)
                else:
                    click.echo(f"Built in {time.monotonic() - begun:.1f} s. Pages that are open reload.")
    except KeyboardInterrupt:
        click.echo("Ended.")


def _build(school: Path | None, out: Path) -> str:
    """Build in a process of its own, so that nothing it does can end the preview; return its faults, "" if none.

    An interrupt ends it at once; what it leaves behind is cleared up by the next build.
    """
    order = [sys.executable, "-m", "generator", "build", "--quiet", "--out", str(out)]
    if school is not None:
        order += ["--school", str(school.absolute())]
    environment = {**os.environ, "PYTHONIOENCODING": "utf-8"}
    build = subprocess.run(
        order, cwd=PROJECT, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, encoding="utf-8"
    )
    return (build.stderr.strip() or "The build ended without a word; start it by hand.") if build.returncode else ""
