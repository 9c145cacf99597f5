"""Every word that stands in a figure, in one place, so that a second language is a second value."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Words:
    """Words and short sentences. `{}` stands for what is filled in; places are units first, (one, more than one)."""

    places: tuple[tuple[str, str], ...]
    none_of: str
    in_the_middle: str
    sharing: str
    stands_for: str
    children_stand_for: tuple[str, str]
    rounds: tuple[str, str]
    no_round: str
    at_the_bank: str
    becomes: str
    left_in_the_middle: str
    left_over: str
    nothing_in_the_middle: str
    nothing_left_over: str
    the_number: str
    shared_by: str
    each_has: str
    one_for_one_has: str
    no_share: str
    sharers: tuple[str, str]
    allowed: str
    shelf_now: str
    shelf_with_more: str
    percent: str
    from_to: str

    def pieces(self, count: int, place: int) -> str:
        """'1 ten', '12 hundreds', 'no tens'."""
        if count == 0:
            return self.none_of.format(self.places[place][1])
        return f"{count} {self.places[place][count != 1]}"


ENGLISH = Words(
    places=(("unit", "units"), ("ten", "tens"), ("hundred", "hundreds"), ("thousand", "thousands")),
    none_of="no {}",
    in_the_middle="In the middle",
    sharing="sharing. The trays wait.",
    stands_for="stands for {}",
    children_stand_for=("1 child stands for {1}", "{0} children stand for {1}"),
    rounds=("1 round dealt: the framed pieces are new", "{} rounds dealt: the framed pieces are new"),
    no_round="No whole round can be dealt here",
    at_the_bank="At the bank",
    becomes="{} \N{RIGHTWARDS ARROW} {}",
    left_in_the_middle="Now in the middle",
    left_over="Left over, kept apart",
    nothing_in_the_middle="Now the middle is empty",
    nothing_left_over="Nothing is left over",
    the_number="The number",
    shared_by="Shared by",
    each_has="Each has",
    one_for_one_has="Who stands for 1 has",
    no_share="nothing",
    sharers=("1 sharer", "{} sharers"),
    allowed="How many of the four-digit numbers the shelf allows",
    shelf_now="as it is",
    shelf_with_more="with one more box of ten-bars",
    percent="{} %",
    from_to="{} \N{RIGHTWARDS ARROW} {}",
)
