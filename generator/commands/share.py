"""`share`: one division, movement by movement, as a table for people or JSON for programs."""

import json
from collections.abc import Iterator
from typing import Any

import click

from generator.commands.arguments import DIVIDEND_LIMIT, PLAIN_LIMIT, WholeNumbersCommand, ribbons_option, whole_number
from generator.commands.tables import beside, counted, division_line, number_columns, text_column
from generator.engine.dealing import Action, State, Step
from generator.engine.places import Counts, place_name
from generator.engine.sharing import Sharing, share
from generator.engine.trays import Tray

_RIBBONS_LIMIT = 999_999
_UP_TO = f"{PLAIN_LIMIT:,} (with --ribbons to {_RIBBONS_LIMIT:,})"
_SCHEMA = 1


@click.command(
    cls=WholeNumbersCommand,
    epilog="""\b
Examples:
  python -m generator share 5230 4
  python -m generator share 3432 12 --ribbons
  python -m generator share 5230 4 --json""",
)
@click.argument("dividend", type=whole_number(0, DIVIDEND_LIMIT))
@click.argument("divisor", type=whole_number(1, _RIBBONS_LIMIT, _UP_TO))
@ribbons_option
@click.option("--look-first", is_flag=True, help="Begin no round that cannot be finished.")
@click.option("--json", "as_json", is_flag=True, help="Write JSON for other programs instead of a table.")
def command(dividend: int, divisor: int, ribbons: bool, look_first: bool, as_json: bool) -> None:
    """Share DIVIDEND among DIVISOR, one movement of the hands after the other.

    DIVIDEND is a whole number from 0 to 10^15, DIVISOR one from 1 to 9,999 (with --ribbons to 999,999):
    beyond that there would be too many movements to follow.
    """
    if divisor > PLAIN_LIMIT and not ribbons:
        problem = f"{divisor} is more than {PLAIN_LIMIT:,}; with --ribbons it may go to {_RIBBONS_LIMIT:,}."
        raise click.BadParameter(problem, param_hint="'DIVISOR'")
    sharing = share(dividend, divisor, ribbons=ribbons, look_first=look_first)
    click.echo(json.dumps(as_data(sharing, ribbons)) if as_json else "\n".join(as_lines(sharing, ribbons)))


def as_data(sharing: Sharing, ribbons: bool) -> dict[str, Any]:
    """One division for other programs; counts go by the names of the places, largest first."""
    return {
        "schema": _SCHEMA,
        "dividend": sharing.dividend,
        "divisor": sharing.divisor,
        "ribbons": ribbons,
        **({"look_first": True} if sharing.look_first else {}),
        "quotient": sharing.quotient,
        "remainder": sharing.remainder,
        "stages": [
            {
                "place": place_name(stage.level),
                "start": stage.start.named(),
                "rounds": stage.rounds,
                "exchanged": {place_name(place): stage.exchanged[place] for place in stage.exchanged.places_held},
                "end": stage.end.named(),
            }
            for stage in sharing.stages
        ],
        "steps": [
            {
                "action": step.action,
                "place": place_name(step.place),
                "pieces": step.pieces,
                "middle": step.after.middle.named(),
                "trays": [tray._asdict() | {"holds": tray.holds.named()} for tray in sharing.trays(step.after)],
                "bank": sharing.bank(step.after).named(),
                "to_share": sharing.to_share(step.after),
            }
            for step in sharing.steps
        ],
        "pieces_needed": sharing.pieces_needed.named(),
        "exchanges": sharing.exchanges,
        "handlings": sharing.handlings,
    }


def as_lines(sharing: Sharing, ribbons: bool) -> Iterator[str]:
    """One division for people: a heading, a row for every movement, and what it took."""
    yield division_line(sharing, ribbons)
    yield ""
    yield from _table(sharing, ribbons)
    yield ""
    left = f" + {sharing.remainder:,}" if sharing.remainder else ""
    yield f"Put back together:       {sharing.divisor:,} x {sharing.quotient:,}{left} = {sharing.dividend:,}"
    yield f"Exchanges at the bank:   {sharing.exchanges:,}"
    yield f"Out of the bank at most: {_pieces(sharing.pieces_needed) or 'nothing'}"
    yield f"Pieces moved in all:     {sharing.handlings:,}"


def _table(sharing: Sharing, ribbons: bool) -> list[str]:
    """A row for every movement under its heads; where trays differ, it goes on over as many lines."""
    places = [_short_name(place) for place in reversed(range(len(sharing.start)))]
    blank = [""] * len(places)
    rows = [("", places, ["", *places], places, [""])]
    rooms = (sharing.beginning, *(step.after for step in sharing.steps))
    done = [_deed(sharing, step, before) for step, before in zip(sharing.steps, rooms[:-1], strict=True)]
    for deed, room in zip([f"lay out {sharing.dividend:,}", *done], rooms, strict=True):
        first, *others = ([_whose(tray, ribbons), *_cells(tray.holds)] for tray in sharing.trays(room))
        gained = _cells(sharing.bank(room), sign="+")
        rows.append((deed, _cells(room.middle), first, gained, [f"{sharing.to_share(room):,}"]))
        rows += [("", blank, tray, blank, [""]) for tray in others]
    deeds, middle, trays, bank, still = zip(*rows, strict=True)
    return beside(
        text_column("what the hands do", deeds),
        number_columns("in the middle", middle),
        number_columns("on each tray", trays),
        number_columns("bank: + more, - fewer", bank),
        number_columns("to share", still),
    )


def _deed(sharing: Sharing, step: Step, before: State) -> str:
    """One movement in words."""
    moved = _pieces(Counts(abs(had - has) for had, has in zip(before.middle, step.after.middle, strict=True)))
    match step.action:
        case Action.DEAL:
            return f"  give a round: {moved}"
        case Action.START:
            return f"  start a round: {moved}, {sharing.sharers - step.after.ahead:,} without"
        case Action.TAKE_BACK:
            return f"  take it back: {moved}"
        case Action.EXCHANGE:
            return f"  exchange {_pieces_of(1, step.place)} for {_pieces_of(10, step.place - 1)}"
        case Action.SET_ASIDE:
            return f"  keep apart, left over: {_pieces(step.after.middle)}"
        case Action.GO_ON:
            return f"go on to the {place_name(step.place)}"
        case Action.NOTHING:
            return "  nothing to give"


def _whose(tray: Tray, ribbons: bool) -> str:
    trays = counted(tray.sharers, "tray")
    return f"{trays} for {tray.stands_for:,}" if ribbons else trays


def _cells(counts: Counts, sign: str = "") -> list[str]:
    """A cell for each place, largest first; a dot for none."""
    return [format(count, sign) if count else "." for count in reversed(counts)]


def _short_name(place: int) -> str:
    """What stands over a column of figures: th, h, t, u, and from there upwards 10^4, 10^5."""
    return ("u", "t", "h", "th")[place] if place < 4 else f"10^{place}"


def _pieces(counts: Counts) -> str:
    """Counts in words, largest first, without those of which there are none."""
    return ", ".join(_pieces_of(counts[place], place) for place in counts.places_held)


def _pieces_of(count: int, place: int) -> str:
    name = place_name(place)
    if name.startswith("10^"):
        return f"{count:,} x {name}"
    return f"{count:,} {name.removesuffix('s') if count == 1 else name}"
