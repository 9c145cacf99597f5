"""`choose`: numbers that suit today's group, best for a lesson first."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import click

from generator.commands.tables import beside, figures, words
from generator.commands.whole_numbers import WholeNumbersCommand, whole_number
from generator.engine.numbers import Choice, Remainder, Zeros, best_first, numbers, reckon
from generator.engine.places import HUNDREDS, TENS, THOUSANDS, UNITS, Counts, place_name
from generator.engine.shelf import Shelf
from generator.errors import Fault, SourceError

LARGEST_GROUP = 12
FEW = 12
SCHOOL = Path("handbook/school.toml")
_SENDING = {place_name(place): place for place in (THOUSANDS, HUNDREDS, TENS)}


def _exchange_from(text: str | None) -> frozenset[int] | None:
    """Read 'none' or places with commas between them."""
    if text is None or text == "none":
        return None if text is None else frozenset()
    names = [name.strip() for name in text.split(",")]
    unknown = [name for name in names if name not in _SENDING]
    if unknown:
        raise click.BadParameter(
            f"{unknown[0]!r} is not one of none, {', '.join(_SENDING)}; put commas between places."
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
@click.argument("divisor", type=whole_number(1, LARGEST_GROUP))
@click.option(
    "--exchange-from",
    metavar="PLACES",
    callback=lambda _ctx, _param, value: _exchange_from(value),
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
@click.option("--within-shelf", is_flag=True, help=f"Only numbers for which the shelf in {SCHOOL} has everything.")
@click.option("--all", "every", is_flag=True, help="Every such number, smallest first, not only the best few.")
@click.option("--json", "as_json", is_flag=True, help="Write JSON for other programs instead of a table.")
def command(
    divisor: int,
    exchange_from: frozenset[int] | None,
    remainder: str,
    zeros: str,
    digits: int,
    within_shelf: bool,
    every: bool,
    as_json: bool,
) -> None:
    """Choose numbers for DIVISOR sharers, 1 to 12: the best few for a lesson first."""
    shelf = school_shelf(SCHOOL) if within_shelf else None
    choice = Choice(exchange_from, Remainder(remainder), Zeros(zeros), digits, shelf)
    found = numbers(divisor, choice)
    shown = found if every else best_first(divisor, found)[:FEW]
    if as_json:
        data = {"divisor": divisor, "filters": _filters(choice), "count": len(found), "numbers": shown}
        click.echo(json.dumps(data))
    else:
        click.echo("\n".join(_lines(divisor, len(found), shown)))


def school_shelf(path: Path) -> Shelf:
    """The shelf a school has written down: the table [shelf] of its file. Raises SourceError."""
    try:
        table = tomllib.loads(path.read_text("utf-8"))["shelf"]
        return Shelf(
            Counts((table["units"], table["tens"], table["hundreds"], table["thousands"])),
            large_cards_to=table["large_cards_to"],
            small_cards_to=table["small_cards_to"],
            small_sets=table["small_sets"],
            trays=table["trays"],
            ribbons=Counts((0, table["ten_ribbons"], table["hundred_ribbons"])),
        )
    except (OSError, ValueError) as error:
        raise SourceError([Fault(str(path), 0, "", f"cannot be read ({error})", "mend it, then try again")]) from None
    except KeyError as missing:
        key = str(missing.args[0])
        raise SourceError([Fault(str(path), 0, key, "is missing", "write down what the shelf has")]) from None


def _filters(choice: Choice) -> dict[str, Any]:
    """The filters as they were given, for other programs; exchange_from is null for any."""
    places = None if choice.exchange_from is None else sorted(choice.exchange_from, reverse=True)
    return {
        "exchange_from": places if places is None else [place_name(place) for place in places],
        "remainder": choice.remainder,
        "zeros": choice.zeros,
        "digits": choice.digits,
        "within_shelf": choice.shelf is not None,
    }


def _lines(divisor: int, count: int, shown: Iterable[int]) -> Iterator[str]:
    shown = tuple(shown)
    which = "all" if len(shown) == count else f"the best {len(shown)}"
    yield f"{count:,} such numbers for {divisor} sharers" + (f", {which} of them:" if count else ".")
    if not shown:
        return
    yield ""
    reckonings = [reckon(number, divisor) for number in shown]
    most_places = len(reckonings[0].digits)
    names = [place_name(place) for place in reversed(range(most_places))]
    yield from beside(
        figures("number", [[""], *([f"{number:,}"] for number in shown)]),
        figures("each has", [[""], *([f"{number // divisor:,}"] for number in shown)]),
        figures("left over", [[""], *([str(number % divisor)] for number in shown)]),
        figures("exchanges", [[""], *([str(reckoning.exchanges)] for reckoning in reckonings)]),
        words("out of", ["", *(_sending(reckoning.left) for reckoning in reckonings)]),
        figures(
            "pieces needed at most",
            [names, *([str(pieces) for pieces in reversed(reckoning.in_hand)] for reckoning in reckonings)],
        ),
        figures("pieces moved", [[""], *([str(reckoning.handlings)] for reckoning in reckonings)]),
    )


def _sending(left: Counts) -> str:
    return ", ".join(place_name(place) for place in left.places_held if place > UNITS)
