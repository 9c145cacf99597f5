"""Putting the shares back together: from the units upwards, ten of one place making one of the next."""

from typing import NamedTuple

from generator.engine.sharing import Sharing


class Together(NamedTuple):
    """One place: what the trays hold, what is left over, what comes up from below, what stays, what goes up."""

    place: int
    on_trays: int
    left_over: int
    brought_up: int
    stays: int
    goes_up: int


def back_together(sharing: Sharing) -> tuple[Together, ...]:
    """Every place of the dividend, the units first."""
    rows: list[Together] = []
    brought_up = 0
    end = sharing.end
    for place, (out, left_over) in enumerate(zip(sharing.out_of_the_bank(end), end.middle, strict=True)):
        goes_up, stays = divmod(out + brought_up, 10)
        rows.append(Together(place, out - left_over, left_over, brought_up, stays, goes_up))
        brought_up = goes_up
    return tuple(rows)
