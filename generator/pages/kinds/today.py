"""The page that works out any number for any group, in the browser."""

from datetime import date

from generator.engine.choosing_numbers import NUMBER_KINDS
from generator.pages.writing.page import Page
from generator.pages.writing.writer import Writer

TODAY = "today.md"


def write_today(writer: Writer, reviewed: date) -> Page:
    """The fields of the page, with the words of the school's language; its scripts do the rest."""
    data = {"kinds": NUMBER_KINDS, "shelf": tuple(type(writer.school.shelf).model_fields)}
    return writer.page("today", TODAY, data, reviewed, scripts="today")
