"""What several commands take: whole numbers (-5 is one, and no option), and the options they share."""

import re
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import click

DIVIDEND_LIMIT = 10**15
PLAIN_LIMIT = 9_999


def folder(text: str) -> Path:
    if not text:
        raise click.BadParameter("is empty; name a folder.")
    return Path(text)


school_option = click.option(
    "--school",
    type=folder,
    metavar="FOLDER",
    help="A school's own folder, laid over the stock handbook.",
)
ribbons_option = click.option(
    "--ribbons", is_flag=True, help="Sharers stand for one, ten, a hundred: a group for each digit."
)


def whole_number(least: int, most: int, up_to: str = "") -> Callable[[str], int]:
    """A click type: a whole number from `least` to `most`, in digits only; messages say `up_to` in place of `most`."""

    def number(text: str) -> int:
        value = int(text) if re.fullmatch("[0-9]{1,20}", text) else -1
        if not least <= value <= most:
            given = text or "an empty value"
            range_in_words = f"from {least} to {up_to or f'{most:,}'}"
            raise click.BadParameter(f"{given} is not a whole number {range_in_words}; write digits only.")
        return value

    return number


class WholeNumbersCommand(click.Command):
    """A command whose arguments are whole numbers; one below zero is refused by its range like any other."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        ctx.ignore_unknown_options = any(re.match(r"-\d", arg) for arg in args)
        return super().parse_args(ctx, args)


def echo_unless_closed(words: str) -> None:
    """Print a line, unless nobody reads the output any more: that is no reason to stop."""
    with suppress(OSError):
        click.echo(words)
