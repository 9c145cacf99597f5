"""How the commands read whole numbers: -5 is a number below zero, not an option."""

from __future__ import annotations

import re
from collections.abc import Callable

import click


def whole_number(least: int, most: int) -> Callable[[str], int]:
    """A click type: a whole number from `least` to `most`, in digits only."""

    def read(text: str) -> int:
        number = int(text) if re.fullmatch("[0-9]{1,20}", text) else -1
        if not least <= number <= most:
            raise click.BadParameter(f"{text} is not a whole number from {least} to {most:,}; write digits only.")
        return number

    return read


class WholeNumbersCommand(click.Command):
    """A command whose arguments are whole numbers; one below zero is refused by its range like any other."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        ctx.ignore_unknown_options = any(re.match(r"-\d", arg) for arg in args)
        return super().parse_args(ctx, args)
