"""The stock handbook as it is read, once for all tests of a process, and its lessons worked out."""

from functools import cache

from generator import HANDBOOK
from generator.engine.sharing import Sharing, share
from generator.source.library import Sources, load
from generator.source.models import Lesson


@cache
def sources() -> Sources:
    return load(HANDBOOK)


def worked(lesson: Lesson) -> Sharing:
    return share(lesson.dividend, lesson.divisor, ribbons=lesson.ribbons)
