"""The plans of a step, one sheet of paper for each lesson: what is said and done by whom, and what is seen then."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from generator.engine.back_together import back_together
from generator.engine.diagnosis import Symptom, telling_slips
from generator.engine.length import lesson_length
from generator.engine.shelf import needs, shortages
from generator.figures.picture import Picture
from generator.pages.kinds.lesson import PlacedLesson, write_lesson
from generator.pages.writing.links import step_link
from generator.pages.writing.page import Page
from generator.pages.writing.writer import Writer
from generator.source.models import Step
from generator.words.lesson import cards_at_the_close
from generator.words.material import cards_on_paper
from generator.words.plans import course, on_trays
from generator.words.slips import row_on_paper
from generator.words.spoken import BANKER, said_at
from generator.words.titles import division_name

_MOST_SLIPS = 3


@dataclass(frozen=True)
class Plan:
    """The plan of one lesson: the lesson's slug, its division in words, Markdown, and the figures it shows."""

    slug: str
    division: str
    body: str
    pictures: tuple[Picture, ...]


def write_lesson_and_plan(writer: Writer, placed: PlacedLesson) -> tuple[Page, Plan]:
    """The page of a lesson and its plan: their slips take most of the work, and are worked out once for both."""
    symptoms = telling_slips(placed.link.sharing, owned=writer.school.shelf.owned.pieces)
    return write_lesson(writer, placed, symptoms), _plan(writer, placed, symptoms[:_MOST_SLIPS])


def write_plans(writer: Writer, step: Step, plans: Sequence[Plan]) -> Page:
    """The plans of one step; the id of a plan is its lesson's slug."""
    link = step_link(step)
    data = {"step": step, "link": link, "plans": plans, "bodies": [Markup(plan.body) for plan in plans]}
    page = writer.page("plans", link.plans_path, data, step.reviewed, step=step.short)
    return replace(page, pictures=tuple(picture for plan in plans for picture in plan.pictures))


def _plan(writer: Writer, placed: PlacedLesson, symptoms: Iterable[Symptom]) -> Plan:
    """What the sheet of one lesson shows; `course` is what the guide says and the hands do at a place."""
    school, words, sharing = writer.school, writer.phrases, placed.link.sharing
    needed = needs(sharing)
    places = [
        {
            "stage": stage,
            "course": tuple(course(words, stage, sharing)),
            "banker": " ".join(line.text for line in said_at(words, sharing, stage) if line.who == BANKER),
            "on_trays": on_trays(words, stage, sharing),
        }
        for stage in sharing.stages
    ]
    data = {
        "lesson": placed.lesson,
        "path": placed.link.path,
        "is_first_step": placed.is_in_first_step,
        "sharing": sharing,
        "needed": needed,
        "length": lesson_length(sharing, school.time.pace),
        "short_of": shortages(needed, school.shelf.owned),
        "on_paper": cards_on_paper(words, needed, school.shelf.owned),
        "places": places,
        "cards": " ".join(cards_at_the_close(words, sharing)),
        "check": back_together(sharing),
        "slips": [row_on_paper(words, symptom, sharing) for symptom in symptoms],
    }
    body, pictures = writer.render("plan.md.jinja", placed.step.plans_path, {"plan": data})
    return Plan(placed.lesson.slug, division_name(words, sharing), body.strip(), pictures)
