"""`diagnose`: from what lies on the trays back to the slips that explain it, in words or as JSON."""

from collections import Counter
from collections.abc import Iterator
from typing import Any

import click

from generator.commands.arguments import DIVIDEND_LIMIT, PLAIN_LIMIT, WholeNumbersCommand, ribbons_option, whole_number
from generator.commands.tables import counted, division_line
from generator.engine.diagnosis import Cause, Diagnosis, diagnose
from generator.engine.observations import Reading
from generator.engine.places import place_name
from generator.engine.repair_movements import Again, ChangePlaces, Exchange, Refill, Repair, RepairStep, ShareOn
from generator.words.material import what_is_seen
from generator.words.phrases import Phrases
from generator.words.slips import Explanation, each_event_once, explain
from generator.words.unexplained import unexplained

_STANDS_FOR = ("1", "10", "100", "1000")
_SAID = Phrases("en")


def _seen(text: str) -> tuple[Reading, ...]:
    """Read trays such as "10:2860,286": values between commas, after 10: and the like for what a tray stands for."""
    return tuple(map(_tray, text.split(",")))


def _tray(text: str) -> Reading:
    stands_for, colon, value = map(str.strip, text.rpartition(":"))
    if colon and stands_for not in _STANDS_FOR:
        raise click.BadParameter(f'"{stands_for}:" is not what a tray can stand for: {", ".join(_STANDS_FOR)}.')
    return Reading(whole_number(0, DIVIDEND_LIMIT)(value), 1, int(stands_for) if colon else 1)


@click.command(
    cls=WholeNumbersCommand,
    epilog="""\b
Examples:
  python -m generator diagnose 5230 4 --seen 1308,1307,1307,1307 --left 1
  python -m generator diagnose 5230 4 --seen 1332,1332,1332,1232
  python -m generator diagnose 5230 4 --seen 1307,1307,1307,1307 --left 3 --json
  python -m generator diagnose 3432 12 --ribbons --seen 10:2860,286,285 --left 1""",
)
@click.argument("dividend", type=whole_number(0, DIVIDEND_LIMIT))
@click.argument("divisor", type=whole_number(1, PLAIN_LIMIT))
@click.option(
    "--seen",
    type=_seen,
    required=True,
    metavar="A,B,...",
    help="What each tray holds, in any order: digits only, commas between; with --ribbons, 10:2860 is a tray for ten.",
)
@click.option(
    "--left",
    type=whole_number(0, DIVIDEND_LIMIT),
    metavar="N",
    help="What is left over. Left out: not counted, only the trays have to agree.",
)
@ribbons_option
@click.option("--json", "as_json", is_flag=True, help="Write JSON for other programs instead of sentences.")
def command(
    dividend: int, divisor: int, seen: tuple[Reading, ...], left: int | None, ribbons: bool, as_json: bool
) -> None:
    """Find each slip that alone explains what DIVISOR sharers of DIVIDEND have on their trays."""
    for tray in seen:
        if tray.stands_for > 1 and not ribbons:
            problem = f'"{tray.stands_for}:" is for ribbons; add --ribbons, or write the tray without it.'
            raise click.BadParameter(problem, param_hint="'--seen'")
    diagnosis = diagnose(dividend, divisor, seen, left, ribbons=ribbons)
    if as_json:
        import json  # so that sentences are there sooner

        click.echo(json.dumps(as_data(diagnosis)))
    else:
        click.echo("\n".join(as_lines(diagnosis)))


def as_data(diagnosis: Diagnosis) -> dict[str, Any]:
    """The diagnosis for other programs, causes likeliest first."""
    return {
        "dividend": diagnosis.sharing.dividend,
        "divisor": diagnosis.sharing.divisor,
        "ribbons": diagnosis.ribbons,
        "consistent": diagnosis.consistent,
        "causes": [
            {
                "slip": cause.slip,
                "place": "every place" if cause.place is None else place_name(cause.place),
                "explanation": " ".join(_explained(diagnosis, cause)),
                "repair": repair_as_data(cause.repair, diagnosis.ribbons),
            }
            for cause in diagnosis.causes
        ],
    }


def repair_as_data(repair: Repair, ribbons: bool) -> list[dict[str, Any]]:
    """One object for each movement of a repair; with ribbons trays also say what they stand for.

    From trays to trays, `reads` is said of those that give and `to_reads` of those that take, which are as many unless
    `to_trays` is said too.
    """
    return [_step_as_data(step, ribbons) for step in repair]


def _step_as_data(step: RepairStep, ribbons: bool) -> dict[str, Any]:
    if isinstance(step, Again):
        return {"again_from": place_name(step.place)}
    if isinstance(step, ShareOn):
        return {"share_on_from": place_name(step.place)}
    if isinstance(step, ChangePlaces):
        return {"change_places": step.trays}
    if isinstance(step, Refill):
        return {"refill_to": step.due} | _trays_as_data(step.trays, ribbons)
    if isinstance(step, Exchange):
        exchange = {"exchange": step.pieces, "place": place_name(step.place), "at": step.at}
        return exchange | _trays_as_data(step.trays, ribbons)
    movement = {"pieces": step.pieces, "place": place_name(step.place), "from": step.source, "to": step.target}
    movement |= _trays_as_data(step.giving or step.taking, ribbons)
    taking = _trays_as_data(step.taking, ribbons) if step.giving else {}
    return movement | {f"to_{key}": value for key, value in taking.items() if (key, value) != ("trays", movement[key])}


def _trays_as_data(trays: Reading | None, ribbons: bool) -> dict[str, int]:
    if trays is None:
        return {}
    data = {"reads": trays.value, "trays": trays.sharers}
    return data | {"stands_for": trays.stands_for} if ribbons else data


def as_lines(diagnosis: Diagnosis) -> Iterator[str]:
    """The diagnosis for people: what should be there, what is seen, and what may have happened."""
    sharing = diagnosis.sharing
    yield f"{division_line(sharing, diagnosis.ribbons)}."
    to_write = _trays_to_write(diagnosis)
    yield from _what_is_seen(diagnosis, to_write)
    yield ""
    if diagnosis.consistent:
        if diagnosis.seen.left is None and sharing.remainder:
            yield f"The trays are right. Count what is left over too: it should be {sharing.remainder:,}."
        else:
            yield "That is the right result: there is nothing to look for."
        return
    if diagnosis.to_share_on:
        yield _SAID.say("unexplained.share-on")
    if diagnosis.causes:
        yield "What may have happened, likeliest first:"
        for number, cause in enumerate(each_event_once(diagnosis.causes), 1):
            words = _explained(diagnosis, cause)
            yield ""
            yield f"{number}. {words.happened}"
            yield f"   {words.look}"
            yield f"   {words.mend}"
    elif not diagnosis.to_share_on and not to_write:
        yield "No single slip leads to this: a tray may be misread, or two things happened at once."
        yield from unexplained(_SAID, sharing, diagnosis.seen)


def _explained(diagnosis: Diagnosis, cause: Cause) -> Explanation:
    return explain(_SAID, cause, diagnosis.sharing, diagnosis.causes)


def _trays_to_write(diagnosis: Diagnosis) -> str:
    """'4 trays', '1 tray for 10 (10:...), 2 trays for 1'; "" if these are the trays that are seen."""
    mat = diagnosis.sharing.mat
    belong = {10**width: mat[width] for width in mat.widths}
    seen: Counter[int] = Counter()
    for tray in diagnosis.seen.trays:
        seen[tray.stands_for] += tray.sharers
    if seen == belong:
        return ""
    if not diagnosis.ribbons:
        return counted(diagnosis.sharing.divisor, "tray")
    return ", ".join(
        f"{counted(number, 'tray')} for {kind}" + (f" ({kind}:...)" if kind > 1 else "")
        for kind, number in belong.items()
    )


def _what_is_seen(diagnosis: Diagnosis, to_write: str) -> Iterator[str]:
    seen = diagnosis.seen
    yield f"You see: {what_is_seen(_SAID, seen, diagnosis.ribbons)}."
    if to_write:
        yield f"There should be {to_write}. Write one for each child, 0 for an empty one."
    if not diagnosis.ribbons and seen.sharers > 1:
        yield "The trays are equal." if seen.equal else "The trays are not equal."
    off = seen.off_by(diagnosis.sharing.dividend)
    if off == 0:
        yield "The total comes back."
    elif off is not None:
        yield f"The total does not come back: it is {abs(off):,} too {'much' if off > 0 else 'little'}."
