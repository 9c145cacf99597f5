"""What a lesson's page says, in script and in Python: the same words for every lesson and for any division."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import islice
from random import Random
from typing import NamedTuple

from generator.engine.diagnosis import telling_slips
from generator.engine.observations import Observation, beads_on
from generator.engine.sharing import Sharing, share
from generator.engine.shelf import needs, shortages
from generator.words.hands import hands
from generator.words.lesson import (
    cards_at_the_close,
    place_texts,
    put_together,
    rounds_with_ribbons,
    screens,
    to_set_out,
)
from generator.words.material import (
    cards_alternative,
    layout_alternative,
    product,
    shortage,
    substitutes,
    what_is_seen,
)
from generator.words.numbers import piece
from generator.words.phrases import Phrases
from generator.words.slips import first_on_paper, symptom_row
from generator.words.spoken import opening
from generator.words.stages import end_alternative
from generator.words.titles import division_name, lesson_title, way_of_sharing
from tests.engine.divisions import RIBBON_DIVISORS, number_with_zeros
from tests.sampling import sample, times
from tests.script.engine import Engine, as_json
from tests.stock import sources

SOURCES = sources()
SHELF = SOURCES.school.shelf.owned
WORDS = Phrases("en")


class Asked(NamedTuple):
    """One division; `slips`: whether the rows of the slips are compared too, which take most of the time."""

    dividend: int
    divisor: int
    ribbons: bool
    look_first: bool
    slips: bool


TOLD = """([dividend, divisor, ribbons, lookFirst, slips]) => {
  const { shelf } = sharing.handbook;
  const division = sharing.division.workOut(dividend, divisor, { ribbons, lookFirst });
  const { placeTexts, toSetOut, roundsWithRibbons, cardsAtTheClose, putTogether } = sharing.lessonWords;
  const { layoutAlternative, cardsAlternative, product, whatIsSeen, shortage, substitutes } = sharing.materialWords;
  const { symptomRow, firstOnPaper } = sharing.slipWords;
  const places = placeTexts(division);
  const right = { trays: sharing.observations.beadsOn(division.trays(division.end)), left: division.remainder };
  const lacking = sharing.shelf.shortages(sharing.shelf.needs(division), shelf);
  return bare([
    sharing.titles.divisionName(division),
    sharing.titles.lessonTitle(division),
    sharing.titles.wayOfSharing(division),
    lacking.map((short) => shortage(short)),
    substitutes(sharing.shelf.needs(division), { ...shelf, large_cards_to: 5000, trays: 3 }),
    toSetOut(division),
    ribbons ? roundsWithRibbons(division) : null,
    layoutAlternative(division),
    sharing.spoken.opening(division),
    places,
    sharing.lessonWords.screens(places),
    sharing.stageWords.endAlternative(division),
    division.steps.map((step) => sharing.handWords.hands(step, division)),
    cardsAtTheClose(division),
    cardsAlternative(division),
    product(division),
    putTogether(division),
    whatIsSeen(right, ribbons),
    [...(slips ? sharing.diagnosis.tellingSlips(division, shelf) : [])]
      .map((told) => [symptomRow(told, division), firstOnPaper(told)]),
  ]);
}"""  # fmt: skip


def told(sharing: Sharing, slips: bool) -> list[object]:
    places = place_texts(WORDS, sharing)
    return [
        division_name(WORDS, sharing),
        lesson_title(WORDS, sharing),
        way_of_sharing(WORDS, sharing),
        [shortage(WORDS, short) for short in shortages(needs(sharing), SHELF)],
        substitutes(WORDS, needs(sharing), replace(SHELF, large_cards_to=5000, trays=3)),
        to_set_out(WORDS, sharing),
        rounds_with_ribbons(WORDS, sharing) if sharing.ribbons else None,
        layout_alternative(WORDS, sharing),
        opening(WORDS, sharing),
        places,
        screens(WORDS, places),
        end_alternative(WORDS, sharing),
        [hands(WORDS, step, sharing) for step in sharing.steps],
        tuple(cards_at_the_close(WORDS, sharing)),
        cards_alternative(WORDS, sharing),
        product(WORDS, sharing),
        [check_line(**row) for row in put_together(WORDS, sharing)],
        what_is_seen(WORDS, Observation(beads_on(sharing.trays(sharing.end)), sharing.remainder), sharing.ribbons),
        [
            (symptom_row(WORDS, symptom, sharing), first_on_paper(WORDS, symptom))
            for symptom in telling_slips(sharing, owned=SHELF.pieces)
        ]
        if slips
        else [],
    ]


def check_line(place: int, together: str, stays: int, goes_up: int) -> tuple[int, str, str, int]:
    """A line of the check, as the template of a lesson says it."""
    changed = ""
    if goes_up:
        changed = WORDS.say("lesson.changed-up", pieces=goes_up * 10, larger=piece(WORDS, goes_up, place + 1))
    return place, together, changed, stays


def of_the_handbook() -> Iterator[Asked]:
    """Every lesson; in a sample the slips of every sixth."""
    for number, lesson in enumerate(SOURCES.lessons):
        slips = number in sample(range(len(SOURCES.lessons)), 16)
        yield Asked(lesson.dividend, lesson.divisor, lesson.ribbons, SOURCES.school.look_first, slips)


def others() -> Iterator[Asked]:
    """Any number for any group, with ribbons for any divisor that twelve children can make; special ones first."""
    special = ((0, 3, False), (1, 12, False), (5, 7, False), (9, 9, False), (9_999, 2, False), (1_000, 7, False))
    with_ribbons = ((0, 12, True), (5, 12, True), (3_432, 12, True), (2_460, 20, True), (6_000, 300, True))
    chance = Random(12)
    for number, division in enumerate((*special, *with_ribbons)):
        yield Asked(*division, look_first=number % 2 == 0, slips=True)
    number = 0
    while number := number + 1:
        ribbons = chance.random() < 0.4
        dividend = number_with_zeros(chance)
        divisor = chance.choice(RIBBON_DIVISORS) if ribbons else chance.randint(2, 12)
        yield Asked(dividend, divisor, ribbons, chance.random() < 0.5, slips=not number % 15)


def check(engine: Engine, divisions: Iterable[Asked]) -> None:
    asked = list(divisions)
    for one, answer in zip(asked, engine.answers(TOLD, asked), strict=True):
        sharing = share(one.dividend, one.divisor, ribbons=one.ribbons, look_first=one.look_first)
        assert answer == as_json(told(sharing, one.slips)), one


def test_every_lesson_of_the_handbook(engine: Engine) -> None:
    check(engine, of_the_handbook())


def test_three_hundred_other_divisions(engine: Engine) -> None:
    check(engine, islice(others(), times(3_000, 150)))
