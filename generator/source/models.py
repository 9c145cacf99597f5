"""What steps, lessons and authored pages are, once they have been read."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AfterValidator, Field, ValidationInfo, field_validator

from generator.engine.places import Counts
from generator.source.fields import Model, Order, ReviewDate, Tags, fault_in_value, paragraph, text

MOST_CHILDREN = 12
PlaceWord = Literal["thousands", "hundreds", "tens"]


class LessonFile(Model):
    """The keys of handbook/lessons/<step>/<slug>.toml."""

    dividend: Annotated[int, Field(ge=1, le=9999)]
    """a whole number from 1 to 9999"""

    ribbons: bool = False
    """true or false, without quotes"""

    divisor: Annotated[int, Field(ge=1, le=999)]
    """a whole number from 1 to 12, or with ribbons from 10 to 999"""

    order: Order
    """a whole number from 1 to 999"""

    reason: Annotated[str, text(20, 240)]
    """one sentence of 20 to 240 characters"""

    reviewed: ReviewDate
    """a date such as 2026-01-31, without quotes"""

    opening: Annotated[str, paragraph(1, 400)] | None = None
    """text of 1 to 400 characters"""

    note: Annotated[str, paragraph(1, 600)] | None = None
    """text of 1 to 600 characters"""

    tags: Tags = ()
    """a list of words such as ["left over", "rest"]"""

    @field_validator("divisor")
    @classmethod
    def _children_find_room(cls, divisor: int, known: ValidationInfo) -> int:
        ribbons = known.data.get("ribbons")
        if ribbons is False and divisor > MOST_CHILDREN:
            raise fault_in_value(
                f"is {divisor}, more children than fit on the mat",
                f"write a number from 1 to {MOST_CHILDREN}, or add ribbons = true",
            )
        if ribbons and divisor < 10:
            raise fault_in_value(
                f"is {divisor}, so nobody wears a ribbon", "write a number from 10 to 999, or take out ribbons = true"
            )
        if ribbons and (children := Counts.of(divisor).pieces) > MOST_CHILDREN:
            raise fault_in_value(
                f"is {divisor}, which takes {children} children",
                f"choose a divisor whose digits add up to {MOST_CHILDREN} or less",
            )
        return divisor

    @property
    def children(self) -> int:
        """How many children sit on the mat; with ribbons fewer than the divisor says."""
        return Counts.of(self.divisor).pieces if self.ribbons else self.divisor


class Lesson(LessonFile):
    """A lesson in its place.

    slug: the file's stem, and the lesson's address; no two lessons of a handbook share it
    step: the slug of its step
    file: where it was read from, as faults name it
    from_school: whether it came from a school's folder
    """

    slug: str
    step: str
    file: str
    from_school: bool


def _span(value: tuple[int, int]) -> tuple[int, int]:
    if not 1 <= value[0] <= value[1] <= MOST_CHILDREN:
        raise fault_in_value(f"is {list(value)}")
    return value


class Expects(Model):
    """What every lesson of a step must be like, so that none lands in the wrong step. All optional."""

    ribbons: Literal["none", "ten", "hundred", "some"] = "none"
    """"none", "ten" (two-digit divisors), "hundred" (three-digit divisors) or "some" (either)

    Whether children wear ribbons, and the largest ribbon."""

    exchanges: Literal["none", "one place", "several places", "some", "any"] = "any"
    """"none", "one place", "several places", "some" or "any"

    At how many places pieces go to the bank."""

    exchange_from: Annotated[tuple[PlaceWord, ...], Field(min_length=1)] | None = None
    """a list of places, out of "thousands", "hundreds" and "tens"

    Exactly the places that send pieces to the bank, where the step wants certain ones."""

    remainder: Literal["none", "some", "any"] = "any"
    """"none", "some" or "any"

    Whether something is left over."""

    empty_place: Literal["number", "share", "either", "any"] = "any"
    """"number", "share", "either" or "any"

    Where there must be a zero."""

    short: Literal["none", "highest", "some", "any"] = "any"
    """"none", "highest", "some" or "any"

    Whether there are too few pieces to go round: nowhere, at the highest place, or at some place."""

    children: Annotated[tuple[int, int], AfterValidator(_span)] = (1, MOST_CHILDREN)
    """a list of two numbers such as [7, 12], from 1 to 12

    The fewest and the most children on the mat."""


class StepFile(Model):
    """The keys of handbook/lessons/<step>/step.toml."""

    order: Order
    """a whole number from 1 to 999

    Where the step comes among all: the smallest first."""

    title: Annotated[str, text(3, 80)]
    """one line of 3 to 80 characters

    The step's name."""

    short: Annotated[str, text(2, 30)]
    """one line of 2 to 30 characters

    The step's name in few words, for tables."""

    new: Annotated[str, paragraph(20, 800)]
    """text of 20 to 800 characters

    What is new in this step."""

    ready: Annotated[tuple[Annotated[str, text(3, 240)], ...], Field(min_length=1, max_length=12)]
    """a list of 1 to 12 sentences, each of 3 to 240 characters

    Who is ready for it: what children have done before, what one sees them do."""

    choosing: Annotated[str, paragraph(20, 800)]
    """text of 20 to 800 characters

    How to choose numbers for it by hand."""

    reviewed: ReviewDate
    """a date such as 2026-01-31, without quotes

    When somebody last read the step through."""

    tags: Tags = ()
    """a list of words such as ["left over", "rest"]

    Other words by which people may search for the step."""

    expects: Expects = Expects()
    """a table [expects]

    What every lesson of the step must be like."""


class Step(StepFile):
    """A step with its lessons, in teaching order.

    slug: the folder's name, and the step's address
    file: where it was read from, as faults name it
    from_school: whether it came from a school's folder
    """

    slug: str
    file: str
    from_school: bool
    lessons: tuple[Lesson, ...]


class PageMeta(Model):
    """The front matter of a page under pages/: YAML between two lines of three hyphens."""

    title: Annotated[str, text(3, 100)]
    """one line of 3 to 100 characters

    The page's title; it begins with what differs from other titles."""

    description: Annotated[str, text(10, 300)]
    """one sentence of 10 to 300 characters

    What the page is good for, shown by search."""

    order: Order
    """a whole number from 1 to 999

    Where the page comes within its section: the smallest first."""

    reviewed: ReviewDate
    """a date such as 2026-01-31, without quotes

    When somebody last read the page through."""

    tags: Tags = ()
    """a list of words such as ["left over", "rest"]

    Other words by which people may search for the page."""

    boost: Annotated[float, Field(gt=0, le=10, allow_inf_nan=False)] = 1.0
    """a number above 0 up to 10

    How much search prefers this page: 1 is like any other."""


class AuthoredPage(Model):
    """A Markdown page in its place.

    path: below pages/, such as "when-it-goes-wrong/trays-differ.md"; the folder is the section
    body: Markdown, without the front matter
    body_line: the line of the file on which the body begins
    file: where it was read from, as faults name it
    from_school: whether it came from a school's folder
    """

    path: str
    meta: PageMeta
    body: str
    body_line: int
    file: str
    from_school: bool

    @property
    def section(self) -> str:
        """The folder the page lies in; nothing for a page at the top."""
        return self.path.rpartition("/")[0]


class Note(Model):
    """Markdown that a school adds to a page, whether somebody wrote that page or the program does.

    path: of the page below the handbook, such as "lessons/as-it-lies/8448-among-4.md"
    file: where it was read from, as faults name it
    """

    path: str
    text: str
    file: str
