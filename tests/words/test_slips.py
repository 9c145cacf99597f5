"""Every slip that the engine can follow has its words, plain and with ribbons."""

from collections import Counter
from itertools import islice

import pytest

from generator.engine.diagnosis import Cause, telling_slips
from generator.engine.observations import Observation, Reading, readings
from generator.engine.outcomes import simulate
from generator.engine.places import place_name
from generator.engine.repair_movements import Again, At, Exchange, Movement, Refill
from generator.engine.repairs import repair
from generator.engine.sharing import Sharing, share
from generator.engine.slips import Occasion, Slip, Spot
from generator.words.material import what_is_seen
from generator.words.phrases import Grouping, Phrases
from generator.words.slips import ONE_BEAD_SHORT, explain, row_on_paper, symptom_row
from generator.words.unexplained import unexplained
from tests.engine.divisions import divisions
from tests.sampling import times
from tests.stock import sources, worked

SAID = Phrases("en")

# Chosen by reasoning, no source: zeros inside and at the end of the share, something left over, exchanges from every
# place, rounds that are taken back, and with ribbons one, two and three kinds of children.
SHARINGS = (
    share(5230, 4),
    share(8120, 4),
    share(1199, 12),
    share(7, 12),
    share(1, 1),
    share(60_300_000, 20),
    share(3432, 12, ribbons=True),
    share(2460, 20, ribbons=True),
    share(9999, 234, ribbons=True),
    share(2856, 102, ribbons=True),
    share(98_765, 1_234, ribbons=True),
)
MADE_UP = [share(*division) for division in islice(divisions(seed=94), times(whole=40, sampled=6))]
PIECES = ("unit bead", "bar", "square", "cube")
OF_ANY_PIECE = {Slip.NOT_TAKEN_BACK, Slip.LEFT_OVER_DEALT}
"""Slips that are told without the name of the piece; with ribbons others are too: not all children get the same."""


def causes(sharing: Sharing) -> list[Cause]:
    """For every slip at every place: each of its occasions alone, and all of them together."""
    causes: list[Cause] = []
    alike: dict[tuple[object, ...], list[Occasion]] = {}
    for outcome in simulate(sharing):
        occasion, mends = outcome.occasion, repair(sharing, outcome)
        causes.append(Cause(occasion.slip, occasion.place, (occasion,), mends))
        alike.setdefault((occasion.slip, occasion.place, occasion.spot, occasion.many, mends), []).append(occasion)
    together = [(kind, found) for kind, found in alike.items() if len(found) > 1]
    return causes + [Cause(found[0].slip, found[0].place, tuple(found), kind[-1]) for kind, found in together]  # type: ignore[arg-type]


@pytest.mark.parametrize("sharing", [*SHARINGS, *MADE_UP], ids=lambda sharing: f"{sharing.dividend}-{sharing.divisor}")
def test_every_cause_has_its_words(sharing: Sharing) -> None:
    for cause in causes(sharing):
        told = explain(SAID, cause, sharing)
        if cause.place is not None and cause.place < 4 and not sharing.ribbons and cause.slip not in OF_ANY_PIECE:
            assert PIECES[cause.place] in told.happened or place_name(cause.place) in told.happened, cause
        assert cause.repair == () or all(told), cause
        for sentence in filter(None, told):
            assert sentence.endswith((".", "?")), cause
            assert sentence[0].isupper(), cause
            assert "  " not in sentence, cause
            assert not {"{", "}"} & set(sentence), cause
            assert "None" not in sentence.replace("None missing?", ""), cause


def test_every_slip_and_every_spot_comes_up() -> None:
    occasions = [cause.occasions[0] for sharing in SHARINGS for cause in causes(sharing)]
    assert {occasion.slip for occasion in occasions} == set(Slip)
    assert {occasion.spot for occasion in occasions} == {None, *Spot}


def test_the_words_of_one_cause() -> None:
    occasion = Occasion(Slip.BANK_NINE, place=1, turn=2)
    mends = (Movement(1, 1, At.BANK, At.LEFT_OVER), Again(1))
    assert explain(SAID, Cause(Slip.BANK_NINE, 1, (occasion, occasion._replace(turn=3)), mends), share(4848, 5)) == (
        "Nine bars came from the bank instead of ten, at exchange 2 or 3 of hundreds.",
        "Count all bars, the bank too. If one is missing, look under the mat and the trays, and on the way to the "
        "bank. Not found? End the lesson, and find it before the little ones come in: its beads can come off. "
        "If all are there, the bank gave nine.",
        "Bring one bar from the bank to the middle. Everything from the tens down goes back to the middle. "
        "Where there are ten or more of a smaller kind, change each ten for one of the next larger at the bank. "
        "Then share it out again.",
    )


def test_where_nothing_stays_on_the_trays_the_number_is_fetched_again() -> None:
    """1,768 among 8 with a tray missing leaves 14 hundreds, 35 tens and 18 units: shared on they show no share."""
    afresh = (
        "Everything goes back to the bank. "
        "Fetch the number again, following its large cards, and share it out once more."
    )
    mends = (Movement(1, 1, At.BANK, At.LEFT_OVER), Again(2))
    cause = Cause(Slip.BANK_NINE, 1, (Occasion(Slip.BANK_NINE, place=1, turn=2),), mends)
    assert explain(SAID, cause, share(1768, 8)).mend == afresh
    few = [one for one in causes(share(1768, 8)) if one.slip is Slip.TRAY_FEW]
    assert {explain(SAID, one, share(1768, 8)).mend for one in few} == {f"Put out the missing tray. {afresh}"}
    alike = [one for one in causes(share(36, 12, ribbons=True)) if one.slip is Slip.SAME_KIND]
    forgotten = [one for one in alike if one.occasions[0].spot is Spot.EVERY_TRAY]
    assert {explain(SAID, one, share(36, 12, ribbons=True)).mend for one in forgotten} == {afresh}


@pytest.mark.parametrize(
    ("step", "words"),
    [
        (
            Movement(1, 0, At.LEFT_OVER, At.TRAY, taking=Reading(1306, 1, 1)),
            "Give one unit bead from what is left over to the tray that reads 1,306.",
        ),
        (
            Movement(2, 1, At.TRAY, At.LEFT_OVER, giving=Reading(150, 3, 1)),
            "Take two bars from each of the 3 trays that read 150 to the middle.",
        ),
        (
            Movement(1, 0, At.FLOOR, At.LEFT_OVER),
            "Put the unit bead that was found, or one from the bank if none is missing, with what is left over.",
        ),
        (
            Refill(Reading(212, 2, 1), 2120),
            "Empty each of the 2 trays that read 212 into the middle. "
            "Then give each of them two cubes, one square and two bars from there.",
        ),
        (Movement(1, 3, At.LEFT_OVER, At.BANK), "Take one cube from the middle to the bank."),
        (
            Exchange(1, 1, At.TRAY, Reading(20, 1, 1)),
            "Change one bar from the tray that reads 20 for ten unit beads at the bank.",
        ),
        (
            Exchange(10, 0, At.LEFT_OVER),
            "Change ten unit beads from what is left over for one bar at the bank.",
        ),
    ],
)
def test_the_words_of_a_movement(step: Movement | Exchange, words: str) -> None:
    cause = Cause(Slip.SKIPPED, 0, (Occasion(Slip.SKIPPED, place=0, turn=1),), (step,))
    assert explain(SAID, cause, share(5230, 4)).mend == words


def test_a_piece_that_should_be_left_over_is_put_there_and_not_in_the_middle() -> None:
    """Of 4,891 for 23 with ribbons a ten and five units are left over. Own reasoning."""
    back = (Movement(1, 1, At.TRAY, At.LEFT_OVER, giving=Reading(2130, 1, 10)),)
    cause = Cause(Slip.SKIPPED, 1, (Occasion(Slip.SKIPPED, place=1, turn=1),), back)
    assert explain(SAID, cause, share(4891, 23, ribbons=True)).mend == (
        "Take one bar from the tray for 10 that reads 2,130 and put it with what is left over."
    )


@pytest.mark.parametrize(
    ("turns", "when"),
    [
        ([1], "in round 1 of the thousands"),
        ([1, 2], "in round 1 or 2 of the thousands"),
        ([1, 2, 3], "in one of the first 3 rounds of the thousands"),
        ([1, 2, 3, 4], "in one of the 4 rounds of the thousands"),
        ([2, 3, 4], "in one of the rounds 2 to 4 of the thousands"),
        ([4, 5], "in round 4 of the thousands"),
        ([5], "in a round of the thousands that was begun although there were too few pieces for it"),
    ],
)
def test_the_turns_at_which_it_may_have_happened(turns: list[int], when: str) -> None:
    """Of 9,000 among two four thousands go round; the fifth round is never begun. Own reasoning."""
    occasions = tuple(Occasion(Slip.SKIPPED, place=3, turn=turn) for turn in turns)
    assert when in explain(Phrases("en"), Cause(Slip.SKIPPED, 3, occasions), share(9000, 2, look_first=True)).happened


def test_turns_are_written_as_the_school_writes_numbers() -> None:
    occasions = tuple(Occasion(Slip.SKIPPED, place=3, turn=turn) for turn in (1, 4, 1_000))
    said = Phrases("en", Grouping("\N{THIN SPACE}"))
    told = explain(said, Cause(Slip.SKIPPED, 3, occasions), share(9000, 2)).happened
    assert "in round 1, 4 or 1\N{THIN SPACE}000 of the thousands" in told


@pytest.mark.parametrize(
    ("turns", "when"),
    [
        ([1], "in the first exchange of hundreds"),
        ([1, 2], "in one of the 2 exchanges of hundreds"),
        ([2], "at exchange 2 of hundreds"),
    ],
)
def test_the_exchanges_at_which_it_may_have_happened(turns: list[int], when: str) -> None:
    """Of 4,740 among three two hundreds go to the bank. Own reasoning."""
    occasions = tuple(Occasion(Slip.BANK_NINE, place=1, turn=turn) for turn in turns)
    assert when in explain(SAID, Cause(Slip.BANK_NINE, 1, occasions), share(4_740, 3)).happened


def test_the_only_exchange_of_a_place_is_told_without_a_number() -> None:
    cause = Cause(Slip.BANK_NINE, 1, (Occasion(Slip.BANK_NINE, place=1, turn=1),))
    assert "instead of ten, when the square was exchanged." in explain(SAID, cause, share(4_326, 2)).happened


def test_trays_that_a_movement_has_changed_are_told_by_what_they_read_now() -> None:
    moved = Movement(1, 1, At.TRAY, At.LEFT_OVER, giving=Reading(150, 3, 1))
    back = Movement(1, 0, At.LEFT_OVER, At.TRAY, taking=Reading(140, 3, 1))
    beside = Movement(1, 0, At.LEFT_OVER, At.TRAY, taking=Reading(140, 2, 10))
    cause = Cause(Slip.SKIPPED, 0, (Occasion(Slip.SKIPPED, place=0, turn=1),), (moved, back))
    assert explain(SAID, cause, share(12, 4)).mend == (
        "Take one bar from each of the 3 trays that read 150 to the middle. "
        "Give one unit bead from the middle to each of the 3 trays that now read 140."
    )
    assert explain(SAID, cause._replace(advice=(moved, back, beside)), share(3432, 12, ribbons=True)).mend == (
        "Take one bar from each of the 3 trays for 1 that read 150 to the middle. "
        "Give one unit bead from the middle to each of the 3 trays for 1 that now read 140. "
        "Give one unit bead from the middle to each of the 2 trays for 10 that read 140."
    )


def test_one_and_many_are_told_apart() -> None:
    one, many = (Occasion(Slip.LEFT_OVER_DEALT, place=0, many=many) for many in (1, 3))
    told = [explain(SAID, Cause(one.slip, one.place, (one,)), share(5230, 4)) for one in (one, many)]
    happened = [one.happened for one in told]
    assert happened[0].endswith("went onto a tray.")
    assert happened[1].endswith("went onto 3 trays.")


def test_where_to_look_with_ribbons() -> None:
    sharing = share(3432, 12, ribbons=True)
    kept, skipped = (Occasion(slip, place=1, turn=1) for slip in (Slip.NOT_TAKEN_BACK, Slip.SKIPPED))
    looks = [explain(SAID, Cause(one.slip, 1, (one,)), sharing).look for one in (kept, skipped)]
    assert looks == ["Compare each tray with what it should hold.", "Compare each tray with what it should hold."]


@pytest.mark.parametrize("sharing", [share(5230, 4), share(65, 11), share(3432, 12, ribbons=True)], ids=str)
def test_a_row_has_a_repair_for_every_cause_that_it_tells(sharing: Sharing) -> None:
    for symptom in telling_slips(sharing):
        row = symptom_row(SAID, symptom, sharing)
        assert len(set(row.mends)) == len(row.mends)
        if symptom.off_by == ONE_BEAD_SHORT:
            continue
        told = [explain(SAID, cause, sharing) for cause in symptom.causes]
        known = {one.happened: one.mend for one in told}
        for happened in row.happened:
            (mend,) = [mend for told_so, mend in known.items() if told_so in happened]
            assert any(mend in one for one in row.mends)


def test_where_a_bead_may_be_lost_it_is_found_or_none_is_missing_and_nothing_is_told_twice() -> None:
    """Of every lesson: only where none is missing does a bead come from the bank."""
    rows = 0
    for lesson in sources().lessons:
        sharing = worked(lesson)
        for symptom in telling_slips(sharing):
            if symptom.off_by != ONE_BEAD_SHORT:
                continue
            rows += 1
            first, *others = symptom_row(SAID, symptom, sharing).mends
            either = "Put the unit bead that was found, or one from the bank if none is missing, "
            assert first.count(either) == 1, lesson.slug
            assert "from the bank" not in first.replace(either, ""), lesson.slug
            for other in others:
                assert other.startswith("Or: None missing? ") or either in other, lesson.slug
                assert other.removeprefix("Or: None missing? Bring one unit bead from the bank") not in first
    assert rows >= 50


def test_what_is_not_on_a_tray_has_one_name_in_a_row() -> None:
    """Of every lesson: all of it is left over, or all of it is still in the middle, also where it is put right."""
    told = Counter[bool]()
    for lesson in sources().lessons:
        sharing = worked(lesson)
        for symptom in telling_slips(sharing):
            row = symptom_row(SAID, symptom, sharing)
            is_middle = "still in the middle" in row.seen
            told[is_middle] += 1
            assert not (is_middle and "left over" in row.seen), lesson.slug
            for mend in row.mends:
                assert not (is_middle and "what is left over" in mend), (lesson.slug, row)
                goes_back = "goes back to" in mend or "Then go on sharing." in mend
                assert is_middle or goes_back or "the middle" not in mend, (lesson.slug, row)
    assert min(told[True], told[False]) >= 50


def test_what_is_read_on_cards_or_as_the_answer_is_not_said_to_lie_on_trays() -> None:
    rows = [symptom_row(SAID, symptom, share(5230, 4)) for symptom in telling_slips(share(5230, 4), most=20)]
    assert any(row.seen.startswith("On the cards: ") for row in rows)
    ribbons = share(3432, 12, ribbons=True)
    assert symptom_row(SAID, telling_slips(ribbons)[0], ribbons).seen == "2,860 is read as the answer"


def test_where_a_bead_may_be_lost_all_are_counted_first() -> None:
    """On a sheet too, which has no room to say where to look: with every cause that the page tells."""
    stop = "Stop, and count all unit beads"
    for sharing in (
        share(5230, 4),
        share(1199, 12),
        share(7, 12),
        share(3, 5),
        share(777, 7),
        share(11, 12),
        share(36, 12, ribbons=True),
    ):
        short = [symptom for symptom in telling_slips(sharing) if symptom.off_by == ONE_BEAD_SHORT]
        assert short
        for symptom in short:
            row, on_paper = symptom_row(SAID, symptom, sharing), row_on_paper(SAID, symptom, sharing)
            assert row.look.startswith(f"{stop}: in the middle,")
            assert on_paper.mends[0].startswith(f"{stop}. If one is missing, nobody goes on until it is found.")
            assert on_paper.happened == row.happened
            assert any("A unit bead was lost" in one for one in row.happened)


def test_a_sheet_tells_only_the_likeliest_cause_where_no_bead_is_missing() -> None:
    others = [symptom for symptom in telling_slips(share(5230, 4)) if symptom.off_by != ONE_BEAD_SHORT]
    assert any(len(symptom.causes) > 1 for symptom in others)
    for symptom in others:
        row, on_paper = symptom_row(SAID, symptom, share(5230, 4)), row_on_paper(SAID, symptom, share(5230, 4))
        assert (on_paper.happened, on_paper.mends) == (row.happened[:1], row.mends[:1])


def test_on_a_sheet_too_the_work_is_closed_where_a_larger_piece_is_lost() -> None:
    """4,326 among two: nine bars came from the bank, or one of the ten was lost. Own reasoning."""
    lost = [
        row_on_paper(SAID, symptom, share(4326, 2))
        for symptom in telling_slips(share(4326, 2))
        if symptom.off_by == -10 and any(cause.slip is Slip.ROLLED_AWAY for cause in symptom.causes)
    ]
    assert lost
    assert {len(row.mends) for row in lost} == {2}
    counted = (
        "Count all bars, the bank too. If one is missing, look for it. Not found? End the lesson. When all are there:"
    )
    assert {row.mends[0] for row in lost} == {counted}


@pytest.mark.parametrize(
    ("dividend", "divisor", "slip", "spot", "seen"),
    [
        (2770, 123, Slip.NOT_BANKED, Spot.LEFT_OVER, "1 hundred, 6 tens and 4 units still in the middle"),
        (4503, 2, Slip.NOT_BANKED, Spot.LEFT_OVER, "1 hundred and 1 unit still in the middle"),
        (4504, 2, Slip.NOT_BANKED, Spot.LEFT_OVER, "1 hundred still in the middle"),
        (2770, 123, Slip.BIG_TRAY_READ, None, "64 left over"),
        (2770, 123, Slip.ROLLED_AWAY, Spot.MIDDLE, "63 left over"),
    ],
)
def test_all_that_is_not_on_a_tray_lies_in_the_middle_still_or_is_left_over(
    dividend: int, divisor: int, slip: Slip, spot: Spot | None, seen: str
) -> None:
    """Of 2,770 for 123 six tens and four units are left over. Own reasoning."""
    sharing = share(dividend, divisor, ribbons=divisor > 12)
    told = {
        what_is_seen(SAID, outcome.seen, sharing.ribbons, outcome.left, sharing.end.middle)
        for outcome in simulate(sharing)
        if (outcome.occasion.slip, outcome.occasion.spot) == (slip, spot)
    }
    assert any(one.endswith(f", {seen}") for one in told), told


def test_larger_pieces_that_are_given_away_come_from_the_middle() -> None:
    """Of 2,770 for 123 tens are left over, but the one that a tray lacks is not one of them. Own reasoning."""
    back = (Movement(1, 1, At.LEFT_OVER, At.TRAY, taking=Reading(210, 1, 10)),)
    cause = Cause(Slip.SKIPPED, 1, (Occasion(Slip.SKIPPED, place=1, turn=1),), back)
    assert explain(SAID, cause, share(2770, 123, ribbons=True)).mend == (
        "Give one bar from the middle to the tray for 10 that reads 210."
    )


def test_a_lost_bead_is_found_or_comes_from_the_bank() -> None:
    """6,936 among three is 2,312 each: a bead lost from a tray. Own reasoning."""
    lost = (Movement(1, 0, At.FLOOR, At.TRAY, taking=Reading(2311, 1, 1)),)
    occasion = Occasion(Slip.ROLLED_AWAY, place=0, spot=Spot.ONE_TRAY)
    told = explain(SAID, Cause(occasion.slip, 0, (occasion,), lost), share(6936, 3))
    assert told.mend == (
        "Put the unit bead that was found, or one from the bank if none is missing, on the tray that reads 2,311."
    )
    assert "in the dish" in told.look


@pytest.mark.parametrize("place", [0, 1])
def test_that_too_few_were_laid_out_is_said_only_where_it_may_be(place: int) -> None:
    gave_nine, laid_few = (
        Cause(slip, place, (Occasion(slip, place=place, turn=1),)) for slip in (Slip.BANK_NINE, Slip.LAID_FEW)
    )
    said = "or one too few was laid out"
    assert said in explain(SAID, gave_nine, share(5234, 4), (gave_nine, laid_few)).look
    assert said not in explain(SAID, gave_nine, share(5234, 4), (gave_nine,)).look


def test_with_ribbons_it_is_said_for_whom_the_tray_is_that_was_passed_over() -> None:
    """4,096 for 132: the tray for one lacks its tens; those of the trays for a hundred are no sign. Own reasoning."""
    sharing = share(4096, 132, ribbons=True)
    looks = {
        (cause.occasions[0].other, explain(SAID, cause, sharing).look)
        for cause in causes(sharing)
        if cause.slip is Slip.NONE_OF_A_PLACE and cause.occasions[0].spot is Spot.LEFT_OVER and cause.place == 1
    }
    assert (0, "Look for the tray for 1 with no bar: what it should have is still in the middle.") in looks


def test_who_was_given_the_same_kind_is_named() -> None:
    """3,432 for twelve: in the last rounds a child for ten is due a bar. Own reasoning."""
    occasion = Occasion(Slip.SAME_KIND, 1, 6, 0, spot=Spot.ONE_TRAY)
    assert explain(SAID, Cause(occasion.slip, 1, (occasion,)), share(3432, 12, ribbons=True)).happened == (
        "In one round a child for 10 was given a unit bead, like a child for 1, instead of a bar."
    )
    occasion = Occasion(Slip.SAME_KIND, None, other=1)
    assert explain(SAID, Cause(occasion.slip, None, (occasion,)), share(4876, 23, ribbons=True)).happened == (
        "One child for 10 was given the pieces of a child for 1, in every round."
    )


@pytest.mark.parametrize(
    ("sharing", "held", "left", "looked_for"),
    [
        (share(2195, 3), [731, 731, 631], 12, "Count all squares, the bank too. If one is missing,"),
        (share(2195, 3), [701, 701, 701], 2, "Count all bars, the bank too. If some are missing,"),
        (share(903, 5), [180, 180, 180, 179, 171], 3, "Stop, and count all unit beads:"),
    ],
)
def test_what_a_tray_lacks_is_looked_for_also_where_others_have_too_many(
    sharing: Sharing, held: list[int], left: int, looked_for: str
) -> None:
    """A square less and a bar more are 90 too little, which is no nine bars; a bead and nine beads less are no bar."""
    seen = Observation(readings(Reading(value, 1) for value in held), left)
    assert unexplained(SAID, sharing, seen)[1].startswith(looked_for)


@pytest.mark.parametrize("slip", [Slip.LEFT_OVER_DEALT, Slip.SKIPPED, Slip.DEALT_TWICE, Slip.NOT_BANKED])
def test_of_two_trays_none_is_the_fullest(slip: Slip) -> None:
    looks = [explain(SAID, cause, share(4567, 2)).look for cause in causes(share(4567, 2)) if cause.slip is slip]
    assert looks
    assert not any("fullest" in look or "with the least" in look or "the others" in look for look in looks)


@pytest.mark.parametrize(("dividend", "divisor", "width"), [(3570, 210, 10), (1420, 20, 10), (4800, 200, 100)])
def test_where_nobody_stands_for_one_the_answer_is_asked_of_a_tray_that_gives_it(
    dividend: int, divisor: int, width: int
) -> None:
    """Shared among ten, a tray for a hundred would give ten times the answer."""
    sharing = share(dividend, divisor, ribbons=True)
    read = [cause for cause in causes(sharing) if cause.slip is Slip.BIG_TRAY_READ]
    assert read
    for cause in read:
        assert f"if a tray for {width} were shared among {width}:" in explain(SAID, cause, sharing).mend


def test_what_children_could_not_follow_is_shared_out_again_and_told_so() -> None:
    """5,230 among four, two squares to one tray: 1,382 once, 1,282 three times. The fewest movements change squares for
    bars and beads on every tray; in the room a square is only ever changed for ten bars, at the bank.
    """
    sharing = share(5230, 4)
    (symptom,) = (one for one in telling_slips(sharing, 20) if {tray.value for tray in one.seen.trays} == {1382, 1282})
    (cause,) = (one for one in symptom.causes if one.slip is Slip.DEALT_TWICE)
    assert len({step.place for step in cause.repair if isinstance(step, Movement | Exchange)}) == 3
    assert explain(SAID, cause, sharing).mend == (
        "Everything from the hundreds down goes back to the middle. Where there are ten or more of a smaller kind, "
        "change each ten for one of the next larger at the bank. Then share it out again."
    )
