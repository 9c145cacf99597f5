"""Sentences that no lesson of the handbook needs, but a school's page may ask for. Own reasoning, no source."""

import pytest

from generator.engine.observations import Observation, Reading
from generator.engine.places import Counts
from generator.engine.sharing import share
from generator.engine.shelf import Shelf, Shortage, needs
from generator.errors import HandbookError
from generator.words import material, numbers, spoken, stages, titles
from generator.words.hands import hands, hands_at
from generator.words.lesson import cards_at_the_close, to_set_out
from generator.words.phrases import Grouping, Phrases

WORDS = Phrases("en")
RIBBONS = (share(3432, 12, ribbons=True), share(7392, 231, ribbons=True))


@pytest.mark.parametrize(
    ("number", "said"),
    [
        (0, "zero"),
        (12, "twelve"),
        (20, "twenty"),
        (47, "forty-seven"),
        (90, "ninety"),
        (100, "one hundred"),
        (120, "one hundred and twenty"),
        (1005, "one thousand and five"),
        (1100, "one thousand one hundred"),
        (2684, "two thousand six hundred and eighty-four"),
        (5230, "five thousand two hundred and thirty"),
        (9999, "nine thousand nine hundred and ninety-nine"),
    ],
)
def test_numbers_as_they_are_said(number: int, said: str) -> None:
    assert numbers.number_words(WORDS, number) == said


@pytest.mark.parametrize("number", [-1, 10_000])
def test_a_number_that_cannot_be_said_is_refused(number: int) -> None:
    with pytest.raises(HandbookError, match="give a number from 0 to 9999"):
        numbers.number_words(WORDS, number)


@pytest.mark.parametrize(("number", "said"), [(12, "twelve"), (13, "13"), (1300, "1 300")])
def test_small_numbers_are_words_and_others_digits_as_the_school_writes_them(number: int, said: str) -> None:
    assert numbers.small_number(Phrases("en", Grouping(" ")), number) == said


@pytest.mark.parametrize(
    ("counts", "said"),
    [
        (Counts((0, 0)), "nothing"),
        (Counts((1,)), "1 unit"),
        (Counts((2, 0, 1)), "1 hundred and 2 units"),
        (Counts((2, 1, 1200, 0, 3)), "3 ten-thousands, 1,200 hundreds, 1 ten and 2 units"),
        (Counts((0, 0, 0, 0, 0, 0, 1, 2)), "2 of 10^7 and 1 million"),
    ],
)
def test_pieces_of_every_place(counts: Counts, said: str) -> None:
    assert numbers.pieces(WORDS, counts) == said


@pytest.mark.parametrize(
    ("number", "thing", "said"),
    [(1, ("tray", None), "1 tray"), (0, ("tray", None), "0 trays"), (2, ("child", "children"), "2 children")],
)
def test_things_that_a_page_counts(number: int, thing: tuple[str, str | None], said: str) -> None:
    assert numbers.counted(WORDS, number, *thing) == said


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("One place. Then the next.", "One place."),
        ("A few bars (e.g. one or two) go to the bank! Then more.", "A few bars (e.g. one or two) go to the bank!"),
        ("Children look along all the trays.", "Children look along all the trays."),
    ],
)
def test_the_first_sentence_of_a_text(text: str, first: str) -> None:
    assert numbers.first_sentence(text) == first


@pytest.mark.parametrize(
    ("dividend", "divisor", "said"),
    [
        (3, 5, "3 among five: too few to go round, all of it left over"),
        (0, 5, "0 among five: too few to go round"),
        (96, 3, "96 among three: shares out as it lies"),
        (97, 3, "97 among three: no exchange, one left over"),
        (50_300, 25, "50,300 among 25: exchange out of ten-thousands, hundreds and tens, a zero inside the share"),
    ],
)
def test_titles(dividend: int, divisor: int, said: str) -> None:
    assert titles.lesson_title(WORDS, share(dividend, divisor)) == said


def test_a_single_child_with_a_ribbon() -> None:
    sharing = share(20, 10, ribbons=True)
    tens, units = sharing.stages[0], sharing.stages[-1]
    assert titles.division_name(WORDS, sharing) == "20 for ten with ribbons"
    assert material.ribbons_worn(WORDS, sharing).startswith(
        "Ribbons, blue for ten: 1 child stands for 10. Every child wears one. Each ribbon is a wristband"
    )
    assert stages.stage_heading(WORDS, units, sharing) == "Units: 2 in the answer"
    assert hands(WORDS, tens.steps[0], sharing) == "Give one ten to the child for 10"


def test_a_figure_in_words_says_between_which_rounds_something_is_exchanged() -> None:
    """The worked lesson with ribbons of the trade: 3,432 for twelve."""
    sharing = share(3432, 12, ribbons=True)
    told = [stages.stage_alternative(WORDS, stage, sharing) for stage in sharing.stages]
    assert "After the last round: 1 thousand to the bank, 10 hundreds back." in told[0]
    assert "Before rounds 2 and 7: 2 hundreds to the bank, 20 tens back." in told[1]
    assert "Before round 2: 1 ten to the bank, 10 units back." in told[2]


def test_every_trip_to_the_bank_is_told_by_itself_and_what_lies_in_the_middle_then() -> None:
    """Worked by hand: 3,432 for twelve at the tens, and 4,891 for twenty-three at the units."""
    sharing = share(3432, 12, ribbons=True)
    assert hands_at(WORDS, sharing, sharing.stages[1]) == (
        "Round 1: one hundred to the child for 10 and one ten to each child for 1. "
        "Then in the middle: 9 hundreds, 1 ten and 2 units.",
        "Before round 2, take 1 hundred to the bank and bring 10 tens back. "
        "Then in the middle: 8 hundreds, 11 tens and 2 units.",
        "Rounds 2 to 6: as in round 1. Then in the middle: 3 hundreds, 1 ten and 2 units.",
        "Before round 7, take 1 hundred to the bank and bring 10 tens back. "
        "Then in the middle: 2 hundreds, 11 tens and 2 units.",
        "Rounds 7 and 8: as in round 1. Then in the middle: 7 tens and 2 units.",
    )
    sharing = share(4891, 23, ribbons=True)
    assert hands_at(WORDS, sharing, sharing.stages[-1]) == (
        "Before round 1, take 1 ten to the bank and bring 10 units back. Then in the middle: 5 tens and 11 units.",
        "Give one ten to each child for 10 and one unit to each child for 1: 2 rounds. "
        "Start the next round: it reaches only 1 of the 5 trays. Take it back. "
        "Keep apart what is left over: 1 ten and 5 units.",
    )


def test_more_than_three_trips_between_rounds_are_told_together() -> None:
    """Worked by hand, 9,999 for nineteen at the hundreds: nine squares a round, and nine there."""
    sharing = share(9999, 19, ribbons=True)
    assert hands_at(WORDS, sharing, sharing.stages[0])[0].startswith(
        "Give one thousand to the child for 10 and one hundred to each child for 1: 5 rounds, "
        "with these trips to the bank in between. "
        "Before rounds 2, 3, 4 and 5, each time take 1 thousand to the bank and bring 10 hundreds back."
    )


def test_a_share_of_one_kind_of_piece_is_opened_by_its_name() -> None:
    assert (
        spoken.opening(WORDS, share(3, 5)) == "We have three unit beads. We are going to share them fairly among five."
    )
    assert spoken.opening(WORDS, share(1, 2)) == "We have one unit bead. We are going to share it fairly between two."


def test_the_end_in_words() -> None:
    assert (
        stages.end_alternative(WORDS, share(5230, 4))
        == "At the end 4 trays hold 1 thousand, 3 hundreds and 7 units each. Left over: 2 units."
    )
    assert stages.end_alternative(WORDS, share(3, 5)) == "At the end 5 trays are empty. Left over: 3 units."


@pytest.mark.parametrize(("dividend", "said"), [(1, "the one bead is kept apart"), (3, "all 3 are kept apart")])
def test_what_lies_apart_where_nobody_has_a_bead(dividend: int, said: str) -> None:
    (told,) = cards_at_the_close(WORDS, share(dividend, 5))
    assert told == f"Nobody fetches a card: the share is zero, and {said}."


@pytest.mark.parametrize(
    ("dividend", "divisor", "left"), [(4096, 132, "4 units"), (4891, 23, "1 ten and 5 units"), (1476, 12, None)]
)
def test_with_ribbons_what_is_left_over_stays_apart_too(dividend: int, divisor: int, left: str | None) -> None:
    *_, last = cards_at_the_close(WORDS, share(dividend, divisor, ribbons=True))
    assert (last == f"What is left over, {left}, is kept apart.") == (left is not None)


def test_who_fetches_the_number_is_said_where_it_is_set_out() -> None:
    number, *_ = to_set_out(WORDS, share(1476, 12))
    assert number == (
        "In the middle: 1 thousand, 4 hundreds, 7 tens and 6 units. "
        "After their first few lessons, the children fetch them."
    )


def test_one_child_alone_is_the_child_for_ten() -> None:
    sharing = share(1476, 12, ribbons=True)
    begins = next(spoken.said_at(WORDS, sharing, sharing.stages[0])).text
    assert begins == (
        "We begin with the largest: the child for ten gets one thousand and each child for one gets one hundred."
    )


@pytest.mark.parametrize(
    ("seen", "said"),
    [
        (Observation((Reading(7, 1),), 0), "7 on the tray, nothing left over"),
        (Observation((Reading(7, 3),), None), "7 on each of the 3 trays"),
        (Observation((Reading(8, 1), Reading(7, 3)), 2), "8 on 1 tray, 7 on each of 3 trays, 2 left over"),
    ],
)
def test_what_is_seen(seen: Observation, said: str) -> None:
    assert material.what_is_seen(WORDS, seen, ribbons=False) == said


@pytest.mark.parametrize(
    ("short", "said", "to_buy"),
    [
        (Shortage("tens", 21, 20), "tens (21 needed, we have 20)", "1 ten, to make 21"),
        (Shortage("ten_ribbons", 1, 0), "ribbons for ten (1 needed, we have 0)", "1 ribbon for ten, to make 1"),
        (
            Shortage("small_cards_to", 4000, 3000),
            "our small cards only go up to 3,000",
            "small cards up to 4,000",
        ),
    ],
)
def test_what_the_shelf_is_short_of(short: Shortage, said: str, to_buy: str) -> None:
    assert material.shortage(WORDS, short) == said
    assert material.to_buy(WORDS, short) == to_buy


@pytest.mark.parametrize(
    ("dividend", "small_sets", "trays", "said"),
    [
        (6000, 2, 2, ""),
        (8000, 2, 2, "Write 4,000 on 2 slips of paper before the lesson."),
        (
            9000,
            2,
            2,
            "Write 4,000 on 2 slips of paper before the lesson. Write 9,000 on a slip of paper before the lesson.",
        ),
        (6000, 1, 2, "Write one set on paper."),
        (6000, 2, 1, "A table mat with a cup will do for the missing tray."),
        (6000, 1, 0, "Write one set on paper. Table mats with cups will do for the 2 missing trays."),
    ],
)
def test_what_will_do_for_a_day_is_said(dividend: int, small_sets: int, trays: int, said: str) -> None:
    """Two share; the small cards only go up to 3,000 and the large to 8,000, which are there themselves."""
    shelf = Shelf(Counts((9, 9, 9, 9)), 8000, 3000, small_sets, trays, Counts())
    assert material.substitutes(WORDS, needs(share(dividend, 2)), shelf) == said
