"""The plans of a step, one sheet of paper for each lesson: what is said and done by whom, and what is seen then."""

from __future__ import annotations

from typing import Any

from generator.engine.back_together import back_together
from generator.engine.diagnosis import telling_slips
from generator.engine.length import lesson_length
from generator.engine.sharing import Sharing, Stage
from generator.engine.shelf import needs, shortages
from generator.pages.writing.links import StepLink, lesson_link, step_link
from generator.pages.writing.page import Page
from generator.pages.writing.template_names import Writer
from generator.source.models import Lesson, Step
from generator.words.lesson import cards_at_the_close
from generator.words.material import cards_on_paper
from generator.words.phrases import Phrases
from generator.words.plans import course, on_trays
from generator.words.slips import row_on_paper
from generator.words.spoken import BANKER, said_at

_MOST_SLIPS = 3


def write_plans(given: tuple[Writer, tuple[StepLink, ...]], step: Step) -> Page:
    """The plans of one step; the id of a plan is its lesson's slug. `given` holds all steps besides the writer."""
    writer, steps = given
    link = step_link(step)
    data = {
        "step": step,
        "link": link,
        "is_first_step": link == steps[0],
        "plans": [_plan(writer, lesson) for lesson in step.lessons],
    }
    return writer.page("plans", link.plans_path, data, step.reviewed, step=step.short)


def _plan(writer: Writer, lesson: Lesson) -> dict[str, Any]:
    """What the sheet of one lesson shows."""
    school, words = writer.school, writer.phrases
    link = lesson_link(lesson, words, look_first=school.look_first)
    sharing = link.sharing
    needed = needs(sharing)
    slips = telling_slips(sharing, _MOST_SLIPS, school.shelf.owned.pieces)
    return {
        "lesson": lesson,
        "path": link.path,
        "sharing": sharing,
        "needed": needed,
        "length": lesson_length(sharing, school.time.pace),
        "short_of": shortages(needed, school.shelf.owned),
        "on_paper": cards_on_paper(words, needed, school.shelf.owned),
        "places": [_place(words, sharing, stage) for stage in sharing.stages],
        "cards": " ".join(cards_at_the_close(words, sharing)),
        "check": back_together(sharing),
        "slips": [row_on_paper(words, symptom, sharing) for symptom in slips],
    }


def _place(words: Phrases, sharing: Sharing, stage: Stage) -> dict[str, Any]:
    """One place of a sheet: what the guide says and the hands do, what the banker says, what is seen."""
    return {
        "stage": stage,
        "course": tuple(course(words, stage, sharing)),
        "banker": " ".join(line.text for line in said_at(words, sharing, stage) if line.who == BANKER),
        "on_trays": on_trays(words, stage, sharing),
    }
