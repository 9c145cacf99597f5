"""The page that works out any number for any group, in the browser."""

from dataclasses import replace
from datetime import date

from generator.engine.numbers import NUMBER_KINDS
from generator.pages.writing.page import Page
from generator.pages.writing.writer import Writer

PATH = "today.md"
_MOST_CUBES = 9
_LENGTHS = (60, 45, 40, 35, 30, 25, 20, 15)
_ANY_LENGTH = "Infinity"  # as scripts write a number that no other exceeds


def write_today(writer: Writer, reviewed: date) -> Page:
    """The fields of the page, with the words of the school's language; its scripts do the rest."""
    say = writer.phrases.say
    data = {
        "kinds": [("any", say("today.any-kind")), *((kind, say(f"group.kind.{kind}")) for kind in NUMBER_KINDS)],
        "cubes": [(str(most), say("today.cubes", count=most)) for most in range(_MOST_CUBES, 0, -1)],
        "lengths": [
            (_ANY_LENGTH, say("today.any-length")),
            *((str(minutes), say("today.minutes", count=minutes)) for minutes in _LENGTHS),
        ],
        "shelf": [(key, say(f"today.on-shelf.{key}")) for key in type(writer.school.shelf).model_fields],
    }
    page = writer.page("today", PATH, data, reviewed)
    return replace(page, meta={**page.meta, "scripts": "today"})
