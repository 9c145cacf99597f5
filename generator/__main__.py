"""The command line: `python -m generator COMMAND`. Only here are errors caught and exit codes picked.

Exit codes: 0 done; 1 it could not be done (every fault of the sources is listed); 2 wrong usage.
"""

import errno
import io
import os
import signal
import sys
from importlib import import_module

try:
    import click
except ModuleNotFoundError:
    python = ".venv\\Scripts\\python" if sys.platform == "win32" else ".venv/bin/python"
    sys.exit(f"This Python does not have what the handbook needs; type {python} in its place (README.md: Make it)")

from generator.errors import HandbookError, SharingError

_MAKE_ROOM = "close other programs, then do it again"
_NO_ROOM = {errno.EMFILE, errno.ENFILE, errno.EAGAIN, errno.ENOMEM}
COMMANDS = ("build", "serve", "check", "share", "choose", "diagnose", "new")


class _Commands(click.Group):
    """Imports a command's module only when it is wanted, so that small commands start at once."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        if name not in COMMANDS:
            return None
        command = import_module(f"generator.commands.{name}").command
        assert isinstance(command, click.Command)
        return command


@click.group(cls=_Commands)
def main() -> None:
    """Write the sharing handbook, or work out one division."""


def run() -> int:
    """Run the command line and return its exit code. What the terminal cannot show is written as its code point.

    Whoever ends the program or closes its window has it clear up, as with Ctrl-C.
    """
    for name in ("SIGTERM", "SIGHUP"):
        number = getattr(signal, name, None)
        if number and signal.getsignal(number) == signal.SIG_DFL:
            signal.signal(number, signal.default_int_handler)
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")
    try:
        main(prog_name="python -m generator", standalone_mode=False)
    except (click.Abort, KeyboardInterrupt):  # the second where somebody interrupts twice
        click.echo("Stopped. Nothing is left half written.", err=True)
        return 1
    except click.ClickException as fault:
        fault.show()
        return fault.exit_code
    except SharingError as fault:
        click.echo(f"Error: {fault}", err=True)
        return 2
    except HandbookError as fault:
        click.echo(str(fault), err=True)
        return 1
    except MemoryError:
        click.echo(f"There is too little memory; {_MAKE_ROOM}", err=True)
        return 1
    except RuntimeError as fault:
        if str(fault) != "can't start new thread":
            raise
        click.echo(f"{os.strerror(errno.EAGAIN)}; {_MAKE_ROOM}", err=True)
        return 1
    except OSError as fault:
        where = f"{fault.filename}: " if fault.filename else ""
        remedy = "work in a folder that is there and may be written, with room on its disk"
        if fault.errno in _NO_ROOM:
            remedy = _MAKE_ROOM
        click.echo(f"{where}{fault.strerror or fault}; {remedy}", err=True)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(run())
