"""What pages show of a sharing, worked out and ready for their templates; it holds no text."""

from dataclasses import dataclass
from typing import Any

from generator.engine.length import lesson_length
from generator.engine.places import Counts
from generator.engine.sharing import Sharing, Stage
from generator.engine.shelf import needs, shortages
from generator.engine.steps import Action, Step
from generator.engine.trays import Tray
from generator.source.school import School


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


def time_and_shelf(sharing: Sharing, school: School) -> dict[str, Any]:
    """How long its lesson takes in a school, and what the shelf there lacks for it."""
    lacking = shortages(needs(sharing), school.shelf.owned)
    return {"length": lesson_length(sharing, school.time.pace), "shortages": lacking}


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
        views.append(StageView(stage, tuple(rows), sharing.trays(stage.after)))
    return tuple(views)


def places_of_the_bank(sharing: Sharing) -> tuple[int, ...]:
    """The places of which the bank gains or gives pieces, largest first."""
    places = {step.place for step in sharing.steps if step.action is Action.EXCHANGE}
    return tuple(sorted(places | {place - 1 for place in places}, reverse=True))
