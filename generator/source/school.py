"""A school's own settings: every key of school.toml, what it may hold, and its default."""

import re
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from generator.engine.length import Pace
from generator.engine.limits import MOST_CHILDREN
from generator.engine.places import Counts
from generator.engine.shelf import Shelf
from generator.source.fields import Flag, Model, fault_in_value, text, whole_number
from generator.source.reading import printable

# The host may be anything that looks like one, because only the path is used.
_ADDRESS = re.compile(
    r"""https?://(?:\[[0-9a-f:.]+\]|[^\s/?#@<>"'`\\{}$;[\]]+)(?::[0-9]+)?(?P<path>[/?#].*)?""", re.ASCII | re.IGNORECASE
)
_PLAIN_PATH = re.compile(r"/(?:(?!\.)[A-Za-z0-9._~-]+/)*")
_USUAL_PATH = "/handbook/"

Pieces = Annotated[int, whole_number(0, 10_000)]
Things = Annotated[int, whole_number(0, 100)]
Seconds = Annotated[int, whole_number(0, 600)]
Minutes = Annotated[int, whole_number(0, 60)]
Group = Annotated[int, Field(ge=2, le=MOST_CHILDREN)]


def _a_card(value: int) -> int:
    if len(str(value).rstrip("0")) != 1:
        raise fault_in_value(f"is {value}, which is not on one card")
    return value


def _rising(value: tuple[int, ...]) -> tuple[int, ...]:
    if list(value) != sorted(set(value)):
        raise fault_in_value("is not in rising order, each size once")
    return value


def _follows_the(value: str) -> str:
    first, _, rest = value.lower().partition(" ")
    if rest and first in ("a", "an", "the", "our", "your", "my"):
        raise fault_in_value(f'is "{value}"', f'leave "{first}" out')
    return value


def _web_address(value: str) -> str:
    found = _ADDRESS.fullmatch(value)
    problem = f'is "{printable(value, 120)}"'
    if not found or not value.isprintable():
        raise fault_in_value(problem)
    if (found["path"] or "").lower().endswith((".html", ".htm")):
        raise fault_in_value(problem, "leave out the page at its end, such as index.html")
    if not _PLAIN_PATH.fullmatch((found["path"] or "").rstrip("/") + "/"):
        raise fault_in_value(problem, "after the host write letters, digits and - . _ ~ between slashes only")
    return value.rstrip("/") + "/"


Role = Annotated[str, *text(1, 40), AfterValidator(_follows_the)]
Card = Annotated[int, Field(ge=9, le=9000), AfterValidator(_a_card)]


class Roles(Model):
    """[roles]: what the adults and the bank's keeper are called in this school."""

    guide: Role = "guide"
    assistant: Role = "assistant"
    bank_keeper: Role = "banker"
    substitute: Role = "substitute"


class Groups(Model):
    """[groups]: how many children share."""

    sizes: Annotated[tuple[Group, ...], Field(min_length=1), AfterValidator(_rising)] = (*range(2, MOST_CHILDREN + 1),)
    """a rising list of whole numbers from 2 to 12, such as [2, 3, 4]"""


class ShelfTable(Model):
    """[shelf]: what the room owns, the bank included."""

    thousands: Pieces = 9
    hundreds: Pieces = 45
    tens: Pieces = 45
    units: Pieces = 100
    large_cards_to: Card = 9000
    """the largest card of the set, such as 9000"""

    small_cards_to: Card = 3000
    """the largest card of the set, such as 3000"""

    small_sets: Things = 10
    trays: Things = 12
    ten_ribbons: Things = 4
    hundred_ribbons: Things = 2

    @property
    def owned(self) -> Shelf:
        """The same, as the engine takes it."""
        return Shelf(
            pieces=Counts((self.units, self.tens, self.hundreds, self.thousands)),
            large_cards_to=self.large_cards_to,
            small_cards_to=self.small_cards_to,
            small_sets=self.small_sets,
            trays=self.trays,
            ribbons=Counts((0, self.ten_ribbons, self.hundred_ribbons)),
        )


class Print(Model):
    """[print]: how pages are printed."""

    paper: Literal["A4", "Letter"] = "A4"
    """"A4" or "Letter\""""


class Numbers(Model):
    """[numbers]: how numbers are written."""

    grouping: Literal[",", " ", ""] = ","
    """"," (4,652), " " (a thin space) or "" (no mark)"""

    group_four_digits: Flag = True

    @property
    def mark(self) -> str:
        """What is written between thousands and hundreds: for a space, a thin one at which no line is broken."""
        return "\u202f" if self.grouping == " " else self.grouping


class Rounds(Model):
    """[rounds]: how a round ends that cannot be finished."""

    end: Literal["take-back", "look-first"] = "take-back"
    """"take-back" (it is begun, seen and taken back) or "look-first" (it is not begun)"""


class Time(Model):
    """[time]: how long lessons take."""

    seconds_per_handling: Annotated[float, Field(ge=0.5, le=60, allow_inf_nan=False)] = 3.0
    """a number from 0.5 to 60"""

    seconds_of_words: Seconds = 30
    seconds_per_walk: Seconds = 15
    seconds_per_card: Seconds = 5
    minutes_to_set_out: Minutes = 4
    minutes_to_check: Minutes = 4
    minutes_to_put_away: Minutes = 4

    @property
    def pace(self) -> Pace:
        """The same, as the engine takes it."""
        return Pace(**self.model_dump())


class Review(Model):
    """[review]: how often the handbook is read through."""

    months: Annotated[int, whole_number(1, 120)] = 12


class School(Model):
    """Every key of school.toml is optional."""

    name: Annotated[str, *text(1, 80)] = "The sharing handbook"

    language: Literal["en"] = "en"
    """"en", the only language there is so far"""

    steps: Annotated[tuple[str, ...], Field(min_length=1)] | None = None
    """a list of steps by their folders' names, such as ["as-it-lies", "one-exchange"]"""

    site_url: Annotated[str, AfterValidator(_web_address)] | None = None
    """an address that begins with https:// or http://, such as "https://intranet.example/sharing/\""""

    roles: Roles = Roles()
    groups: Groups = Groups()
    shelf: ShelfTable = ShelfTable()
    print: Print = Print()
    numbers: Numbers = Numbers()
    rounds: Rounds = Rounds()
    time: Time = Time()
    review: Review = Review()

    @property
    def look_first(self) -> bool:
        """Whether no round is begun that cannot be finished."""
        return self.rounds.end == "look-first"

    def includes(self, step: str) -> bool:
        """Whether the step of a slug is in this school's handbook."""
        return self.steps is None or step in self.steps

    @property
    def sub_path(self) -> str:
        """Where on its server the handbook stands, with a slash at both ends."""
        found = _ADDRESS.fullmatch(self.site_url or "")
        return found["path"] if found else _USUAL_PATH
