"""Divisions that figures are tested with: (dividend, divisor, with ribbons)."""

from collections.abc import Iterator

from generator.engine.places import place_name
from generator.engine.sharing import Sharing, share
from generator.figures.formats import NARROW, WIDE, Format
from generator.figures.gallery import shown
from generator.figures.picture import Picture
from generator.figures.shapes import Part
from generator.words.phrases import Phrases

WORDS = Phrases("en")

SHOWN = (
    (5230, 4, False),
    (6963, 3, False),
    (8059, 5, False),
    (408, 4, False),
    (5005, 5, False),
    (9999, 12, False),
    (1199, 12, False),
    (1, 12, False),
    (7, 12, False),
    (3, 5, False),
    (85, 4, False),
    (9599, 12, False),
    (4096, 132, True),
    (2770, 123, True),
    (9221, 93, True),
    (9610, 109, True),
    (9999, 1, False),
    (7000, 7, False),
    (3432, 12, True),
    (9999, 21, True),
    (4680, 20, True),
    (2856, 102, True),
    (4741, 101, True),
    (9999, 234, True),
    (8090, 271, True),
    (5551, 118, True),
    (7, 12, True),
    (96, 100, True),
)

PLAIN = tuple(
    (dividend, sharers, False) for sharers in range(1, 13) for dividend in (9, 60, 305, 1008, 2470, 7777, 9990)
)


FORMS = (WIDE, NARROW)
Case = tuple[int, int, bool]


def kinds(sharing: Sharing) -> list[str]:
    """Every figure that there is of a sharing."""
    return ["layout", *(place_name(stage.level) for stage in sharing.stages), "end", "cards"]


def figure(case: Case, kind: str, form: Format = WIDE) -> Part:
    dividend, divisor, ribbons = case
    return shown(WORDS, Picture(kind, dividend, divisor, ribbons, narrow=form.narrow))


def figures(case: Case, form: Format = WIDE) -> Iterator[Part]:
    """All figures of a sharing."""
    return (figure(case, kind, form) for kind in kinds(worked(case)))


def worked(case: Case) -> Sharing:
    dividend, divisor, ribbons = case
    return share(dividend, divisor, ribbons=ribbons)


def name(case: Case) -> str:
    dividend, divisor, ribbons = case
    return f"{dividend}/{divisor}{' ribbons' if ribbons else ''}"
