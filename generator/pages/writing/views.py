"""What pages show of a sharing, worked out and ready for their templates; it holds no text."""

from itertools import count
from typing import Any

from generator.engine.length import lesson_length
from generator.engine.sharing import Sharing
from generator.engine.shelf import needs, shortages
from generator.engine.steps import Action
from generator.source.school import School


def time_and_shelf(sharing: Sharing, school: School) -> dict[str, Any]:
    """How long its lesson takes in a school, and what the shelf there lacks for it."""
    lacking = shortages(needs(sharing), school.shelf.owned)
    return {"length": lesson_length(sharing, school.time.pace), "shortages": lacking}


def stage_views(sharing: Sharing) -> list[dict[str, Any]]:
    """Every place of a lesson: its stage, the rows of its table, and the trays afterwards.

    A row holds a movement and the room after it; `bank` is what the bank has gained. The rows are numbered through the
    whole lesson.
    """
    numbers = count(1)
    return [
        {
            "stage": stage,
            "rows": [
                {
                    "number": next(numbers),
                    "step": step,
                    "trays": sharing.trays(step.after),
                    "bank": sharing.bank(step.after),
                    "to_share": sharing.to_share(step.after),
                }
                for step in stage.steps
                if step.action is not Action.GO_ON
            ],
            "trays": sharing.trays(stage.after),
        }
        for stage in sharing.stages
    ]


def places_of_the_bank(sharing: Sharing) -> tuple[int, ...]:
    """The places of which the bank gains or gives pieces, largest first."""
    places = {step.place for step in sharing.steps if step.action is Action.EXCHANGE}
    return tuple(sorted(places | {place - 1 for place in places}, reverse=True))
