"""What a lesson page shows, worked out and ready for its template; it holds no text."""

from __future__ import annotations

from dataclasses import dataclass

from generator.engine.places import Counts
from generator.engine.sharing import Sharing, Stage, Tray
from generator.engine.steps import Action, Step


@dataclass(frozen=True)
class Row:
    """One line of a step table: the movement, and the room after it. `bank` is what the bank has gained."""

    number: int
    step: Step
    trays: tuple[Tray, ...]
    bank: Counts
    to_share: int


@dataclass(frozen=True)
class StageView:
    """One place of a lesson: the rows of its table, and the trays afterwards."""

    stage: Stage
    rows: tuple[Row, ...]
    trays: tuple[Tray, ...]


def stage_views(sharing: Sharing) -> tuple[StageView, ...]:
    """Every stage of a sharing; the rows are numbered through the whole lesson."""
    views: list[StageView] = []
    number = 1
    for stage in sharing.stages:
        rows: list[Row] = []
        for step in stage.steps:
            if step.action is not Action.GO_ON:
                after = step.after
                rows.append(Row(number, step, sharing.trays(after), sharing.bank(after), sharing.to_share(after)))
                number += 1
        views.append(StageView(stage, tuple(rows), sharing.trays(stage.steps[-1].after)))
    return tuple(views)


def places_of_the_bank(sharing: Sharing) -> tuple[int, ...]:
    """The places of which the bank gains or gives pieces, largest first."""
    places = {step.place for step in sharing.steps if step.action is Action.EXCHANGE}
    return tuple(sorted(places | {place - 1 for place in places}, reverse=True))
