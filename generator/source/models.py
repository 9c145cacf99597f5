"""What steps, lessons and authored pages are, once they have been read.

file: where something was read from, as faults name it
from_school: whether it came from a school's folder
order: where it comes among its like, the smallest first
reviewed: when somebody last read it through
tags: other words by which people may search for it
slug: the stem of a lesson's file or the name of a step's folder, and its address
"""

from typing import Annotated, Literal

from pydantic import AfterValidator, Field, ValidationInfo, field_validator

from generator.engine.limits import LARGEST_DIVIDEND, LARGEST_DIVISOR, MOST_CHILDREN
from generator.engine.places import Counts
from generator.source.fields import Flag, Model, Order, ReviewDate, Tags, fault_in_value, paragraph, text, whole_number

PAGES_OF_A_STEP = ("index", "cards", "plans")  # names that no lesson may have
PlaceWord = Literal["thousands", "hundreds", "tens"]


class LessonFile(Model):
    """The keys of handbook/lessons/<step>/<slug>.toml."""

    dividend: Annotated[int, whole_number(1, LARGEST_DIVIDEND)]
    ribbons: Flag = False
    divisor: Annotated[int, Field(ge=1, le=LARGEST_DIVISOR)]
    """a whole number from 2 to 12, or with ribbons from 10 to 999"""

    order: Order
    reason: Annotated[str, *text(20, 240, "one sentence")]
    reviewed: ReviewDate
    opening: Annotated[str, *paragraph(1, 400)] = ""
    note: Annotated[str, *paragraph(1, 600)] = ""
    tags: Tags = ()

    @field_validator("divisor")
    @classmethod
    def _children_find_room(cls, divisor: int, known: ValidationInfo) -> int:
        ribbons = known.data.get("ribbons")
        if ribbons is False and divisor == 1:
            raise fault_in_value("is 1, and one child alone cannot share")
        if ribbons is False and divisor > MOST_CHILDREN:
            problem = f"is {divisor}, more children than fit on the mat"
            raise fault_in_value(problem, f"write a number from 2 to {MOST_CHILDREN}, or add ribbons = true")
        if ribbons and divisor < 10:
            problem = f"is {divisor}, so nobody wears a ribbon"
            raise fault_in_value(problem, f"write a number from 10 to {LARGEST_DIVISOR}, or take out ribbons = true")
        if ribbons and (children := Counts.of(divisor).pieces) > MOST_CHILDREN:
            problem = f"is {divisor}, which takes {children} children"
            raise fault_in_value(problem, f"choose a divisor whose digits add up to {MOST_CHILDREN} or less")
        return divisor

    @property
    def children(self) -> int:
        """How many children sit on the mat; with ribbons fewer than the divisor says."""
        return Counts.of(self.divisor).pieces if self.ribbons else self.divisor


class Lesson(LessonFile):
    """A lesson in its place: no two lessons of a handbook share their slug, and `step` is that of its step."""

    slug: str
    step: str
    file: str
    from_school: bool


def _span(value: tuple[int, int]) -> tuple[int, int]:
    if not 1 <= value[0] <= value[1] <= MOST_CHILDREN:
        raise fault_in_value(f"is {list(value)}")
    return value


class Expects(Model):
    """What every lesson of a step must be like, so that none lands in the wrong step. All optional.

    ribbons: whether children wear ribbons, and the largest ribbon
    exchanges: at how many places pieces go to the bank
    exchange_from: exactly the places that send pieces to the bank, where the step wants certain ones
    remainder: whether something is left over
    empty_place: where there must be a zero
    short: whether there are too few pieces to go round: nowhere, at the highest place, or at some place
    children: the fewest and the most children on the mat
    """

    ribbons: Literal["none", "ten", "hundred", "some"] = "none"
    """"none", "ten" (two-digit divisors), "hundred" (three-digit divisors) or "some" (either)"""

    exchanges: Literal["none", "one place", "several places", "some", "any"] = "any"
    """"none", "one place", "several places", "some" or "any\""""

    exchange_from: Annotated[tuple[PlaceWord, ...], Field(min_length=1)] | None = None
    """a list of places, out of "thousands", "hundreds" and "tens\""""

    remainder: Literal["none", "some", "any"] = "any"
    """"none", "some" or "any\""""

    empty_place: Literal["number", "share", "either", "any"] = "any"
    """"number", "share", "either" or "any\""""

    short: Literal["none", "highest", "some", "any"] = "any"
    """"none", "highest", "some" or "any\""""

    children: Annotated[tuple[int, int], AfterValidator(_span)] = (1, MOST_CHILDREN)
    """a list of two numbers such as [7, 12], from 1 to 12"""


class StepFile(Model):
    """The keys of handbook/lessons/<step>/step.toml.

    short: the title in few words, for tables
    ready: who is ready for the step: what children have done before, what one sees them do
    choosing: how to choose numbers for it by hand
    """

    order: Order
    title: Annotated[str, *text(3, 80)]
    short: Annotated[str, *text(2, 30)]
    new: Annotated[str, *paragraph(20, 800)]
    ready: Annotated[tuple[Annotated[str, *text(3, 240)], ...], Field(min_length=1, max_length=12)]
    """a list of 1 to 12 sentences, each of 3 to 240 characters"""

    choosing: Annotated[str, *paragraph(20, 800)]
    reviewed: ReviewDate
    tags: Tags = ()
    expects: Expects = Expects()


class PathStep(StepFile):
    """A step with its lessons, in teaching order; the lines of its file on which `title` and `short` stand."""

    slug: str
    file: str
    title_line: int
    short_line: int
    from_school: bool
    lessons: tuple[Lesson, ...]


class PageMeta(Model):
    """The front matter of a page under pages/: YAML between two lines of three hyphens.

    title: begins with what differs from other titles
    description: what the page is good for, shown by search
    boost: how much search prefers the page
    asks: whether it has a form that leads to the page that works a number out
    """

    title: Annotated[str, *text(3, 100)]
    description: Annotated[str, *text(10, 300, "one sentence")]
    order: Order
    reviewed: Annotated[ReviewDate, Field(description="a date such as 2026-01-31")]
    tags: Tags = ()
    boost: Annotated[float, Field(gt=0, le=10, allow_inf_nan=False)] = 1.0
    """a number above 0 up to 10"""
    asks: Flag = False


class AuthoredPage(Model):
    """A Markdown page in its place.

    path: below pages/, such as "when-it-goes-wrong/trays-differ.md"; the folder is the section
    body: Markdown, without the front matter
    title_line, body_line: the lines of the file on which its title stands and the body begins
    """

    path: str
    meta: PageMeta
    body: str
    title_line: int
    body_line: int
    file: str
    from_school: bool

    @property
    def section(self) -> str:
        """The folder the page lies in; "" for a page at the top."""
        return self.path.rpartition("/")[0]


class Note(Model):
    """Markdown that a school adds to the page at a path such as "lessons/as-it-lies/8448-among-4.md"."""

    path: str
    text: str
    file: str
