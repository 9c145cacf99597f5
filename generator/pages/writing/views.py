"""What pages show of a sharing, worked out and ready for their templates; it holds no text."""

from itertools import count
from typing import Any

from generator.engine.length import lesson_length
from generator.engine.places import Counts
from generator.engine.sharing import Sharing
from generator.engine.shelf import needs, shortages
from generator.engine.steps import Action, Step
from generator.source.school import School


def time_and_shelf(sharing: Sharing, school: School) -> dict[str, Any]:
    """How long its lesson takes in a school, and what the shelf there lacks for it."""
    lacking = shortages(needs(sharing), school.shelf.owned)
    return {"length": lesson_length(sharing, school.time.pace), "shortages": lacking}


def stage_views(sharing: Sharing) -> list[dict[str, Any]]:
    """Every place of a lesson: its stage, the rows of its table, and the trays afterwards.

    The rows are numbered through the whole lesson.
    """
    numbers = count(1)
    return [
        {
            "stage": stage,
            "rows": [_row(sharing, step, next(numbers)) for step in stage.movements],
            "trays": sharing.trays(stage.after),
        }
        for stage in sharing.stages
    ]


def _row(sharing: Sharing, step: Step, number: int) -> dict[str, Any]:
    """A movement and the room after it; `bank` is what the bank has gained.

    What is set aside is told with its movement, and lies in the middle no longer.
    """
    is_set_aside = step.action is Action.SET_ASIDE
    return {
        "number": number,
        "step": step,
        "middle": Counts([0] * len(sharing.start)) if is_set_aside else step.after.middle,
        "trays": sharing.trays(step.after),
        "bank": sharing.bank(step.after),
        "to_share": 0 if is_set_aside else sharing.to_share(step.after),
    }


def places_of_the_bank(sharing: Sharing) -> tuple[int, ...]:
    """The places of which the bank gains or gives pieces, largest first."""
    places = sharing.exchanged.places_held
    return tuple(sorted({*places, *(place - 1 for place in places)}, reverse=True))
