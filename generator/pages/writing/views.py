"""What pages show of a sharing, worked out and ready for their templates; it holds no text."""

from typing import Any

from generator.engine.length import lesson_length
from generator.engine.sharing import Sharing
from generator.engine.shelf import needs, shortages
from generator.source.school import School


def time_and_shelf(sharing: Sharing, school: School) -> dict[str, Any]:
    """How long its lesson takes in a school, and what the shelf there lacks for it."""
    lacking = shortages(needs(sharing), school.shelf.owned)
    return {"length": lesson_length(sharing, school.time.pace), "shortages": lacking}


def places_of_the_bank(sharing: Sharing) -> tuple[int, ...]:
    """The places of which the bank gains or gives pieces, largest first."""
    places = sharing.exchanged.places_held
    return tuple(sorted({*places, *(place - 1 for place in places)}, reverse=True))
