"""Figures by name: what a page asks for, before anything is drawn."""

from dataclasses import dataclass
from typing import Any

FIGURES = "figures"
OF_A_PLAN = "plan-"
PART = "-part-"
OF_A_DIVISION = ("layout", "end", "cards")  # and the name of each place whose stage is shown
OVERVIEWS = ("path", "allowed", "pieces")


@dataclass(frozen=True)
class Picture:
    """A figure that a page asks for: one of a division, or an overview.

    kind: of a division one of OF_A_DIVISION, or the name of the place whose stage is shown: "tens"; with OF_A_PLAN
      before it small ("plan-tens"), with PART behind it one part of the stage ("tens-part-2"); or one of OVERVIEWS
    rows: what an overview shows
    narrow: whether it is the drawing for phones
    """

    kind: str
    dividend: int = 0
    divisor: int = 1
    ribbons: bool = False
    rows: tuple[tuple[Any, ...], ...] = ()
    narrow: bool = False

    @property
    def file(self) -> str:
        """Its name among the figures."""
        end = "-narrow.svg" if self.narrow else ".svg"
        if not self.dividend:
            return self.kind + end
        who = f"for-{self.divisor}" if self.ribbons else f"among-{self.divisor}"
        return f"{self.dividend}-{who}-{self.kind}{end}"

    @property
    def path(self) -> str:
        """Where the figure lies in the handbook."""
        return f"{FIGURES}/{self.file}"


SPRITE = Picture("sprite")
"""Every piece in every look, for scripts and style sheets; no page asks for it."""
