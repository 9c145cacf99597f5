"""A repair as JSON for other programs."""

from __future__ import annotations

from typing import Any

from generator.engine.movements import Again, Alike, Exchange, Movement, Repair
from generator.engine.places import place_name


def repair_as_data(repair: Repair, ribbons: bool) -> list[dict[str, Any]]:
    """One object for each movement; with ribbons trays also say what they stand for.

    From trays to trays, `reads` is said of those that give and `to_reads` of those that take.
    """
    return [_step_as_data(step, ribbons) for step in repair]


def _step_as_data(step: Movement | Exchange | Again, ribbons: bool) -> dict[str, Any]:
    if isinstance(step, Again):
        return {"again_from": place_name(step.place)}
    if isinstance(step, Exchange):
        exchange = {"exchange": step.pieces, "place": place_name(step.place), "at": step.at}
        return exchange | _trays(step.trays, ribbons)
    movement = {"pieces": step.pieces, "place": place_name(step.place), "from": step.source, "to": step.target}
    if step.giving and step.taking:
        taking = {f"to_{key}": value for key, value in _trays(step.taking, ribbons).items() if key != "trays"}
        return movement | _trays(step.giving, ribbons) | taking
    return movement | _trays(step.giving or step.taking, ribbons)


def _trays(alike: Alike | None, ribbons: bool) -> dict[str, int]:
    if alike is None:
        return {}
    trays = {"reads": alike.reads, "trays": alike.trays}
    return trays | {"stands_for": alike.stands_for} if ribbons else trays
