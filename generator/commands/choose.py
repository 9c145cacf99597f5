"""`choose`: numbers that suit today's group, best for a lesson first."""

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from generator import HANDBOOK
from generator.commands.arguments import WholeNumbersCommand, school_option, whole_number
from generator.commands.tables import beside, counted, number_columns, text_column
from generator.engine.choosing_numbers import Choice, Remainder, Zeros, best_first, digits_must_repeat, numbers, reckon
from generator.engine.limits import MOST_CHILDREN
from generator.engine.places import HUNDREDS, TENS, THOUSANDS, UNITS, place_name

_FEW = 12
_SENDING = {place_name(place): place for place in (THOUSANDS, HUNDREDS, TENS)}


def _exchange_from(text: str) -> frozenset[int]:
    """Read 'none' or places with commas between them."""
    names = [] if text == "none" else [name.strip() for name in text.split(",")]
    for name in names:
        if name not in _SENDING:
            raise click.BadParameter(
                f"{name!r} is not one of {', '.join(_SENDING)}; write none alone, or places with commas between them."
            )
    return frozenset(_SENDING[name] for name in names)


@click.command(
    cls=WholeNumbersCommand,
    epilog="""\b
Examples:
  python -m generator choose 4
  python -m generator choose 5 --exchange-from none
  python -m generator choose 3 --exchange-from tens --remainder none --zeros none
  python -m generator choose 6 --digits 3 --within-shelf --all""",
)
@click.argument("divisor", type=whole_number(1, MOST_CHILDREN))
@click.option(
    "--exchange-from",
    type=_exchange_from,
    metavar="PLACES",
    help="Exactly these places send pieces to the bank: none, or some of tens,hundreds,thousands. Left out: any.",
)
@click.option(
    "--remainder",
    type=click.Choice([kind.value for kind in Remainder]),
    default=Remainder.ANY.value,
    help="none: nothing is left over; some: something is; any: no matter. Left out: any.",
)
@click.option(
    "--zeros",
    type=click.Choice([kind.value for kind in Zeros]),
    default=Zeros.ANY.value,
    help="none: no zero in the number nor in the share; dividend: at least one in the number; "
    "quotient: at least one in the share; any: no matter. Left out: any.",
)
@click.option(
    "--digits", type=whole_number(1, 4), default="4", metavar="1..4", help="Places of the number. Left out: 4."
)
@click.option("--within-shelf", is_flag=True, help="Only numbers for which the school's shelf has everything.")
@school_option
@click.option("--all", "every", is_flag=True, help="Every such number, smallest first, not only the best few.")
@click.option("--json", "as_json", is_flag=True, help="Write JSON for other programs instead of a table.")
def command(
    divisor: int,
    exchange_from: frozenset[int] | None,
    remainder: str,
    zeros: str,
    digits: int,
    within_shelf: bool,
    school: Path | None,
    every: bool,
    as_json: bool,
) -> None:
    """Choose numbers for DIVISOR sharers, 1 to 12: the best few for a lesson first."""
    if school and not within_shelf:
        raise click.UsageError("--school tells whose shelf it is: give --within-shelf as well.")
    shelf = None
    if within_shelf:
        from generator.source.library import load  # takes longer than choosing, so it is loaded only here

        shelf = load(HANDBOOK, school).school.shelf.owned
    choice = Choice(exchange_from, Remainder(remainder), Zeros(zeros), digits, shelf)
    found = numbers(divisor, choice)
    shown = found if every else best_first(divisor, found, _FEW)
    if as_json:
        data = {"divisor": divisor, "filters": _filters(choice), "count": len(found), "numbers": shown}
        click.echo(json.dumps(data))
    else:
        click.echo("\n".join(_lines(divisor, choice, found, shown)))


def _filters(choice: Choice) -> dict[str, Any]:
    """The filters as they were given, for other programs; exchange_from is null for any."""
    sending = choice.exchange_from
    return {
        "exchange_from": None if sending is None else [place_name(place) for place in sorted(sending, reverse=True)],
        "remainder": choice.remainder,
        "zeros": choice.zeros,
        "digits": choice.digits,
        "within_shelf": choice.shelf is not None,
    }


def _lines(divisor: int, choice: Choice, found: tuple[int, ...], shown: tuple[int, ...]) -> Iterator[str]:
    count = len(found)
    which = f", the best {len(shown)} of them" if len(shown) < count else ", all of them" if count > 1 else ""
    yield f"{counted(count, 'such number')} for {counted(divisor, 'sharer')}{which}{':' if count else '.'}"
    if choice.shelf and not choice.shelf.seats(divisor):
        sets = counted(choice.shelf.small_sets, "set")
        yield f"The shelf has {counted(choice.shelf.trays, 'tray')} and {sets} of small cards."
    if not shown:
        for digits in (4, 3, 2):
            if digits != choice.digits and (others := len(numbers(divisor, replace(choice, digits=digits)))):
                yield f"With --digits {digits} there {'is' if others == 1 else 'are'} {others:,}."
        return
    if digits_must_repeat(found):
        best = f": {best_first(divisor, shown, 1)[0]:,} is the best there is" if count > 1 else ""
        yield f"In each of them a digit repeats{best}."
    yield ""
    reckonings = [reckon(number, divisor) for number in shown]
    names = [place_name(place) for place in reversed(range(len(reckonings[0].digits)))]
    sending = ([place for place in reckoning.left.places_held if place > UNITS] for reckoning in reckonings)
    yield from beside(
        number_columns("number", [[""], *([f"{number:,}"] for number in shown)]),
        number_columns("each has", [[""], *([f"{number // divisor:,}"] for number in shown)]),
        number_columns("left over", [[""], *([str(number % divisor)] for number in shown)]),
        number_columns("exchanges", [[""], *([str(reckoning.exchanges)] for reckoning in reckonings)]),
        text_column("out of", ["", *(", ".join(map(place_name, places)) for places in sending)]),
        number_columns(
            "pieces needed at most",
            [names, *([str(pieces) for pieces in reversed(reckoning.in_hand)] for reckoning in reckonings)],
        ),
        number_columns("pieces moved", [[""], *([str(reckoning.handlings)] for reckoning in reckonings)]),
    )
