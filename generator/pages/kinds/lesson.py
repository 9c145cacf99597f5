"""A lesson and its division, worked out -> its page, its plan on paper, and its cards to print."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from generator.engine.choosing_numbers import Choice, Remainder, best_first, numbers
from generator.engine.diagnosis import Symptom, right_observation, telling_slips
from generator.engine.features import features_of
from generator.engine.length import lesson_length
from generator.engine.limits import MOST_CHILDREN
from generator.engine.sharing import Sharing, share
from generator.engine.shelf import Shelf, needs, shortages
from generator.figures.picture import Picture
from generator.pages.writing.links import LessonLink, StepLink, lesson_link, step_link
from generator.pages.writing.page import Page, front_matter
from generator.pages.writing.writer import Writer
from generator.source.models import Lesson, PathStep
from generator.words.lesson import cards_at_the_close, place_texts, put_together, screens, to_set_out
from generator.words.material import shortage, substitutes, what_is_seen
from generator.words.phrases import Phrases
from generator.words.plans import course, on_trays
from generator.words.slips import row_on_paper, symptom_row
from generator.words.spoken import BANKER, opening, said_at
from generator.words.titles import division_name, way_of_sharing, way_to_the_end

_BOOST = 0.4
"""The weight of a lesson's words in a search: there are many lessons, and general questions should find other pages."""

_MOST_SLIPS_OF_A_PLAN = 3


@dataclass(frozen=True)
class PlacedLesson:
    """A lesson with its step and its neighbours: all that its page depends on, besides the school."""

    lesson: Lesson
    link: LessonLink
    step: StepLink
    is_in_first_step: bool
    position: int
    previous: LessonLink | None
    next: LessonLink | None


@dataclass(frozen=True)
class Plan:
    """The plan of one lesson: the lesson's slug, its division in words, Markdown, and the figures it shows."""

    slug: str
    division: str
    body: str
    pictures: tuple[Picture, ...]


def placed_lessons(steps: tuple[PathStep, ...], links: tuple[LessonLink, ...]) -> tuple[PlacedLesson, ...]:
    """Every lesson in teaching order in its place; `links` name the lessons in the same order."""
    in_steps = [(step, *placed) for step in steps for placed in enumerate(step.lessons, start=1)]
    between = zip((None, *links[:-1]), links, (*links[1:], None), strict=True)
    return tuple(
        PlacedLesson(lesson, link, step_link(step), step == steps[0], position, before, after)
        for (step, position, lesson), (before, link, after) in zip(in_steps, between, strict=True)
    )


def write_lesson_and_plan(writer: Writer, placed: PlacedLesson) -> tuple[Page, Plan]:
    """The page of a lesson and its plan, written together because they need the same data."""
    symptoms = telling_slips(placed.link.sharing, owned=writer.school.shelf.owned.pieces)
    data = template_data(writer, placed)
    return _page(writer, placed, data, symptoms), _plan(writer, placed, data, symptoms[:_MOST_SLIPS_OF_A_PLAN])


def write_plans(writer: Writer, step: PathStep, plans: Sequence[Plan]) -> Page:
    """The plans of one step; the id of a plan is its lesson's slug."""
    link = step_link(step)
    data = {"step": step, "link": link, "plans": plans}
    page = writer.page("plans", link.plans_path, data, step.reviewed, scripts="sheets", step=step.short)
    return replace(page, pictures=tuple(picture for plan in plans for picture in plan.pictures))


def write_cards(writer: Writer, step: PathStep) -> Page:
    """The cards of one step, to print."""
    link = step_link(step)
    links = [lesson_link(lesson, writer) for lesson in step.lessons]
    cards = [{"slug": link.slug, "sharing": link.sharing, "needs": needs(link.sharing)} for link in links]
    data = {"step": step, "link": link, "cards": cards}
    return writer.page("cards", link.cards_path, data, step.reviewed, scripts="sheets", step=step.short)


def _page(writer: Writer, placed: PlacedLesson, data: Mapping[str, Any], symptoms: Iterable[Symptom]) -> Page:
    """The page of one lesson; `symptoms` are the slips most worth knowing for it."""
    lesson, link = placed.lesson, placed.link
    rows = [symptom_row(writer.phrases, symptom, link.sharing) for symptom in symptoms]
    body, pictures = writer.render("lesson.md.jinja", link.path, {**data, "symptoms": rows})
    # The division as one word, as people may type it. The number 4 as a word would match a search for "4 children".
    typed = f"{link.dividend}/{link.divisor}", f"{link.divisor}/{link.dividend}"
    tags = (*typed, *lesson.tags)
    meta = front_matter(lesson.reason, tags, lesson.reviewed, writer.school.review.months)
    meta["search"] = {"boost": _BOOST}
    return Page(link.path, link.title, meta, body, pictures, "lesson")


def _plan(writer: Writer, placed: PlacedLesson, data: Mapping[str, Any], symptoms: Iterable[Symptom]) -> Plan:
    """The sheet of one lesson.

    In the data of its template, `course` is what the guide says and the hands do at a place, and `letters` how many
    letters that takes at all places together.
    """
    words, sharing = writer.phrases, placed.link.sharing
    courses = [tuple(course(words, stage, sharing)) for stage in sharing.stages]
    places = [
        {
            "stage": stage,
            "course": told,
            "banker": " ".join(line.text for line in said_at(words, sharing, stage) if line.who == BANKER),
            "on_trays": on_trays(words, stage, sharing),
        }
        for stage, told in zip(sharing.stages, courses, strict=True)
    ]
    plan = {
        "path": placed.link.path,
        "is_first_step": placed.is_in_first_step,
        "places": places,
        "letters": sum(len(line if isinstance(line, str) else line.text) for place in courses for line in place),
        "slips": [row_on_paper(words, symptom, sharing) for symptom in symptoms],
    }
    body, pictures = writer.render("plan.md.jinja", placed.step.plans_path, {**data, "plan": plan})
    return Plan(placed.lesson.slug, data["division"], body.strip(), pictures)


def template_data(writer: Writer, placed: PlacedLesson) -> dict[str, Any]:
    """What the templates of a lesson and of its plan use, except the slips."""
    sharing, shelf, words = placed.link.sharing, writer.school.shelf.owned, writer.phrases
    needed = needs(sharing)
    places = place_texts(words, sharing)
    right = right_observation(sharing)
    return {
        "lesson": placed.lesson,
        "step": placed.step,
        "position": placed.position,
        "previous": placed.previous,
        "next": placed.next,
        "division": division_name(words, sharing),
        "way": way_to_the_end(words, sharing),
        "sharing": sharing,
        "features": features_of(sharing),
        "needed": needed,
        "length": lesson_length(sharing, writer.school.time.pace),
        "short_of": [shortage(words, short) for short in shortages(needed, shelf)],
        "substitutes": substitutes(words, needed, shelf),
        "screens": screens(words, places),
        "set_out": to_set_out(words, sharing),
        "opening": placed.lesson.opening or opening(words, sharing),
        "places": places,
        "cards": tuple(cards_at_the_close(words, sharing)),
        "check": tuple(put_together(words, sharing)),
        "right": what_is_seen(words, right, sharing.ribbons),
        "neighbours": [] if sharing.ribbons else _neighbours(sharing, shelf, words),
    }


def _neighbours(sharing: Sharing, shelf: Shelf, words: Phrases) -> list[dict[str, Any]]:
    """The same number with one child more or less, and a number of the same kind for that group, if there is one."""
    groups = [size for size in (sharing.divisor - 1, sharing.divisor + 1) if 2 <= size <= MOST_CHILDREN]
    return [
        {
            "sharing": other,
            "way": way_of_sharing(words, other),
            "shortages": shortages(needs(other), shelf),
            "ready": _ready_number(other.divisor, sharing, shelf),
        }
        for other in (share(sharing.dividend, size, look_first=sharing.look_first) for size in groups)
    ]


def _ready_number(divisor: int, sharing: Sharing, shelf: Shelf) -> dict[str, Any] | None:
    """A number that the shelf allows for another group: one like the lesson's, or one with the same exchanges.

    `alike` says which. The lesson's own number comes first, then the best for a lesson; the page "Today's number"
    offers the nearest (`handbook/theme/js/today/nearest.js`) to people who have that number in mind already.
    """
    remainder = Remainder.SOME if sharing.remainder else Remainder.NONE
    choice = Choice(frozenset(sharing.exchanged.places_held), remainder, digits=len(sharing.start), shelf=shelf)
    likeness = _likeness(sharing.dividend, sharing.divisor)
    alike = [one for one in numbers(divisor, choice) if one > 1 and _likeness(one, divisor) == likeness]
    if sharing.dividend in alike:
        return {"number": sharing.dividend, "alike": True}
    is_alike = bool(alike) or not sharing.quotient
    found = alike if is_alike else [number for number in numbers(divisor, choice) if number > divisor]
    return next(({"number": number, "alike": is_alike} for number in best_first(divisor, found, most=1)), None)


def _likeness(dividend: int, divisor: int) -> tuple[bool, bool, bool, int]:
    """What two numbers must have in common to be alike.

    Whether there is a zero in it, too few of its largest pieces and nothing for anybody; how many zeros the share has.
    """
    number, quotient = str(dividend), dividend // divisor
    return "0" in number, int(number[0]) < divisor, quotient == 0, str(quotient).count("0")
