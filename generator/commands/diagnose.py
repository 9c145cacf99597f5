"""`diagnose`: from what lies on the trays back to the slips that explain it, in words or as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import click

from generator.commands.tables import counted
from generator.commands.whole_numbers import WholeNumbersCommand, whole_number
from generator.engine.diagnosis import Diagnosis, diagnose
from generator.engine.places import place_name
from generator.words.phrases import Phrases
from generator.words.slips import explain

DIVIDEND_LIMIT = 10**15
DIVISOR_LIMIT = 9_999
EVERY_PLACE = "every place"
_SAID = Phrases("en")


def _seen(text: str) -> tuple[int, ...]:
    """Read the trays, one value each, with commas between them."""
    return tuple(whole_number(0, DIVIDEND_LIMIT)(value.strip()) for value in text.split(","))


@click.command(
    cls=WholeNumbersCommand,
    epilog="""\b
Examples:
  python -m generator diagnose 5230 4 --seen 1308,1307,1307,1307 --left 1
  python -m generator diagnose 5230 4 --seen 1332,1332,1332,1232
  python -m generator diagnose 5230 4 --seen 1307,1307,1307,1307 --left 3 --json""",
)
@click.argument("dividend", type=whole_number(0, DIVIDEND_LIMIT))
@click.argument("divisor", type=whole_number(1, DIVISOR_LIMIT))
@click.option(
    "--seen",
    type=_seen,
    required=True,
    metavar="A,B,...",
    help="What each tray holds, in any order: digits only, commas between the trays.",
)
@click.option(
    "--left",
    type=whole_number(0, DIVIDEND_LIMIT),
    metavar="N",
    help="What is left over. Left out: not counted, only the trays have to agree.",
)
@click.option("--json", "as_json", is_flag=True, help="Write JSON for other programs instead of sentences.")
def command(dividend: int, divisor: int, seen: tuple[int, ...], left: int | None, as_json: bool) -> None:
    """Find every single slip that explains what DIVISOR sharers of DIVIDEND have on their trays."""
    diagnosis = diagnose(dividend, divisor, seen, left)
    if as_json:
        import json  # so that sentences are there sooner

        click.echo(json.dumps(as_data(diagnosis)))
    else:
        click.echo("\n".join(as_lines(diagnosis)))


def as_data(diagnosis: Diagnosis) -> dict[str, Any]:
    """The diagnosis for other programs, causes likeliest first."""
    return {
        "dividend": diagnosis.dividend,
        "divisor": diagnosis.divisor,
        "consistent": diagnosis.consistent,
        "causes": [
            {
                "slip": cause.slip,
                "place": EVERY_PLACE if cause.place is None else place_name(cause.place),
                "explanation": " ".join(explain(_SAID, cause)),
            }
            for cause in diagnosis.causes
        ],
    }


def as_lines(diagnosis: Diagnosis) -> Iterator[str]:
    """The diagnosis for people: what should be there, what is seen, and what may have happened."""
    quotient, remainder = divmod(diagnosis.dividend, diagnosis.divisor)
    right = f"{quotient:,} for each, {_left(remainder)}"
    yield f"{diagnosis.dividend:,} among {diagnosis.divisor:,} comes to {right}."
    yield from _what_is_seen(diagnosis)
    yield ""
    if diagnosis.consistent:
        yield "That is the right result: there is nothing to look for."
    elif diagnosis.causes:
        yield "What may have happened, likeliest first:"
        for number, cause in enumerate(diagnosis.causes, 1):
            words = explain(_SAID, cause)
            yield ""
            yield f"{number}. {words.happened}"
            yield f"   {words.look}"
            yield f"   {words.go_on}"
    else:
        yield "No single slip leads to this: a tray may be misread, or two things happened at once."
        yield "Count the trays once more with the children. If it stays so, lay everything back into the"
        yield "middle, compare it with the number, and share it again together."


def _what_is_seen(diagnosis: Diagnosis) -> Iterator[str]:
    seen = diagnosis.seen
    trays = ", ".join(f"{counted(tray.sharers, 'tray')} with {tray.value:,}" for tray in seen.trays)
    yield f"You see: {trays}" + ("." if seen.left is None else f"; {_left(seen.left)}.")
    trays_seen = sum(tray.sharers for tray in seen.trays)
    if trays_seen != diagnosis.divisor:
        yield f"That is {counted(trays_seen, 'tray')} for {diagnosis.divisor:,} sharing."
    yield "The trays are equal." if seen.equal else "The trays are not equal."
    off = seen.off_by(diagnosis.dividend)
    if off == 0:
        yield "The total comes back."
    elif off is not None:
        yield f"The total does not come back: it is {abs(off):,} too {'much' if off > 0 else 'little'}."


def _left(number: int) -> str:
    return f"{number:,} left over" if number else "nothing left over"
