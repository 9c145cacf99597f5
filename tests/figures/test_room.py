"""What holds for the geometry of every figure: nothing overlaps or runs off the sheet, and no place ever moves."""

import pickle
from collections import Counter, defaultdict
from collections.abc import Iterator
from itertools import combinations

import pytest

from generator.engine.places import HUNDREDS, THOUSANDS, place_name
from generator.figures.charts import allowed_figure, path_figure, pieces_figure
from generator.figures.formats import NARROW, WIDE, Format
from generator.figures.shapes import Bow, Boxes, Label, Look, Part, Pieces, Stroke, footprint
from generator.figures.style import DARK, LIGHT
from tests.engine.divisions import RIBBON_DIVISORS
from tests.figures.cases import FORMS, PLAIN, SHOWN, WORDS, Case, figure, figures, kinds, name, worked
from tests.figures.legible import ON_A_PHONE, contrast, ems
from tests.sampling import sample

RIBBONS = tuple((dividend, divisor, True) for divisor in RIBBON_DIVISORS[::7] for dividend in (4, 608, 9999))
STEPS = [
    ("Every place shares out as it lies", 8),
    ("Empty places in the number and in the share", 12),
    ("Nobody yet", 0),
]
SHELF = [(2, 1.0, 1.0), (7, 0.38, 0.6), (12, 0.003, 0.1)]
CHARTS = tuple(
    chart
    for form in FORMS
    for chart in (
        pieces_figure(form, WORDS),
        path_figure(STEPS, form),
        allowed_figure(SHELF, form, WORDS),
    )
)
CASES = sample(SHOWN + PLAIN[::2] + RIBBONS[::9], 16)
Rectangle = tuple[float, float, float, float]


def of_label(label: Label) -> Rectangle:
    width = ems(label.text, label.bold) * label.size
    left = label.x - {"start": 0.0, "middle": width / 2, "end": width}[label.anchor]
    return left, label.y - 0.73 * label.size, left + width, label.y + 0.2 * label.size


def of_pieces(pieces: Pieces) -> list[Rectangle]:
    wide, high = footprint(pieces.place, pieces.size)
    return [(pieces.x + x, pieces.y + y, pieces.x + x + wide, pieces.y + y + high) for x, y in pieces.spots]


def overlap(one: Rectangle, other: Rectangle) -> bool:
    slack = 0.05
    return (
        one[0] + slack < other[2]
        and other[0] + slack < one[2]
        and one[1] + slack < other[3]
        and other[1] + slack < one[3]
    )


def inside(inner: Rectangle, outer: Rectangle) -> bool:
    return outer[0] <= inner[0] and outer[1] <= inner[1] and inner[2] <= outer[2] and inner[3] <= outer[3]


def labels(drawing: Part) -> list[Label]:
    return [mark for mark in drawing.marks if isinstance(mark, Label)]


def all_pieces(drawing: Part) -> list[Pieces]:
    return [mark for mark in drawing.marks if isinstance(mark, Pieces)]


def assert_sound(drawing: Part) -> None:
    drawn = [(mark.text, of_label(mark)) for mark in labels(drawing)]
    drawn += [(mark.gid, place) for mark in all_pieces(drawing) for place in of_pieces(mark)]
    sheet = (0.0, 0.0, drawing.width, drawing.height)
    for what, place in drawn:
        assert inside(place, sheet), what
    for (what, one), (other_what, other) in combinations(drawn, 2):
        assert not overlap(one, other), f"{what} lies on {other_what}"
    assert len({mark.gid for mark in all_pieces(drawing)}) == len(all_pieces(drawing))


@pytest.mark.parametrize("form", FORMS, ids=["wide", "narrow"])
@pytest.mark.parametrize("case", CASES, ids=name)
def test_nothing_overlaps_or_runs_off_the_sheet(case: Case, form: Format) -> None:
    for drawing in figures(case, form):
        assert_sound(drawing)


@pytest.mark.parametrize("chart", [chart for chart in CHARTS if not any(m.group == "ten" for m in all_pieces(chart))])
def test_no_chart_overlaps_or_runs_off_the_sheet(chart: Part) -> None:
    assert_sound(chart)


def rooms(case: Case, form: Format) -> Iterator[Part]:
    return (figure(case, kind, form) for kind in kinds(worked(case)) if kind != "cards")


@pytest.mark.parametrize("form", FORMS, ids=["wide", "narrow"])
@pytest.mark.parametrize("case", CASES, ids=name)
def test_every_place_stands_at_the_same_position_and_scale_in_all_figures_of_a_lesson(case: Case, form: Format) -> None:
    found: defaultdict[object, set[object]] = defaultdict(set)
    places = max(2, len(worked(case).start))
    for drawing in rooms(case, form):
        found["size"].add((drawing.width, drawing.height))
        for place in range(places):
            word = WORDS.say(f"place.{place_name(place)}")
            (head,) = (mark for mark in labels(drawing) if mark.text == word and mark.anchor == "middle")
            found["head", place].add((head.x, head.y))
        for mark in (mark for mark in all_pieces(drawing) if mark.group != "key"):
            left = form.x(mark.place, places)
            for spot in of_pieces(mark):
                assert left < spot[0], mark.gid
                assert spot[2] < left + form.column, mark.gid
            if mark.group in ("middle", "trays"):
                found[mark.group, mark.place].add(mark.size)
        rims = next(
            mark for mark in drawing.marks if isinstance(mark, Boxes) and mark.edge == "rim" and mark.fill == "tray"
        )
        found["trays"].add(rims.spots)
    for what, different in found.items():
        assert len(different) == 1, f"{what}: {different}"


@pytest.mark.parametrize("form", FORMS, ids=["wide", "narrow"])
@pytest.mark.parametrize("case", CASES, ids=name)
def test_every_count_is_written_beside_its_pieces(case: Case, form: Format) -> None:
    """In the column of a place stand how many lie in the middle, came from the bank, and went to each tray."""
    places = max(2, len(worked(case).start))
    sharing = worked(case)
    for stage in sharing.stages:
        drawing = figure(case, place_name(stage.level), form)
        written: defaultdict[int, list[str]] = defaultdict(list)
        for mark in labels(drawing):
            for place in range(places):
                if form.x(place, places) <= mark.x < form.x(place, places) + form.column:
                    written[place].append(mark.text)
        for place, count in enumerate(stage.end):
            assert WORDS.grouping.written(count) in written[place]
        for place in stage.exchanged.places_held:
            assert any(text.startswith(f"{stage.exchanged[place]} to ") for text in written[place])
            assert any(text.startswith(f"{10 * stage.exchanged[place]} ") for text in written[place - 1])
        for place in {stage.level + width for width in sharing.mat.widths if stage.rounds}:
            assert any(text.startswith(f"{stage.rounds} ") for text in written[place])


@pytest.mark.parametrize("form", FORMS, ids=["wide", "narrow"])
def test_with_ribbons_the_way_to_the_trays_says_which_trays(form: Format) -> None:
    """3,432 for 12, hundreds: one tray for ten is given thousands alone, two trays for one hundreds alone."""
    written = labels(figure((3432, 12, True), "hundreds", form))
    one, several = ("2 to tray", "2 each") if form.narrow else ("2 to the tray", "2 to each tray")
    for place, way, whose in ((THOUSANDS, one, "for ten"), (HUNDREDS, several, "for one")):
        column = [mark for mark in written if form.x(place, 4) <= mark.x < form.x(place, 4) + form.column]
        line = next(mark.y for mark in column if mark.text == way)
        below = min((mark for mark in column if mark.y > line), key=lambda mark: mark.y)
        assert below.text == whose


@pytest.mark.parametrize("case", CASES, ids=name)
def test_the_pieces_of_a_stage_are_outlined_on_the_trays(case: Case) -> None:
    sharing = worked(case)
    for stage in sharing.stages:
        drawing = figure(case, place_name(stage.level))
        frames = [
            (mark.x, mark.y, mark.x + mark.width, mark.y + mark.height)
            for mark in drawing.marks
            if isinstance(mark, Boxes) and mark.edge == "ink" and not mark.fill
        ]
        on_trays = [mark for mark in all_pieces(drawing) if mark.group == "trays"]
        assert sum(len(mark.spots) for mark in on_trays if mark.look is Look.FULL) == sharing.sharers * stage.rounds
        for mark in on_trays:
            for spot in of_pieces(mark):
                assert any(inside(spot, frame) for frame in frames) == (mark.look is Look.FULL), mark.gid


@pytest.mark.parametrize("form", FORMS, ids=["wide", "narrow"])
@pytest.mark.parametrize("case", [case for case in SHOWN if worked(case).remainder], ids=name)
def test_the_dish_lies_within_the_slot_of_its_place(case: Case, form: Format) -> None:
    drawing = figure(case, "units", form)
    dishes = [mark for mark in drawing.marks if isinstance(mark, Boxes) and (mark.fill, mark.edge) == ("tray", "ink")]
    places = max(2, len(worked(case).start))
    slots = [(form.x(place, places) + 3, form.x(place, places) + form.column - 3) for place in range(places)]
    assert dishes
    for dish in dishes:
        assert any(left < dish.x and dish.x + dish.width < right for left, right in slots)


@pytest.mark.parametrize("form", FORMS, ids=["wide", "narrow"])
def test_the_card_of_the_children_touches_neither_middle_nor_tray(form: Format) -> None:
    boxes = [mark for mark in figure((5230, 4, False), "layout", form).marks if isinstance(mark, Boxes)]
    (middle,) = (mark for mark in boxes if mark.edge == "stitch")
    (card,) = (mark for mark in boxes if mark.edge == "card-edge" and mark.line > 2)
    (trays,) = (mark for mark in boxes if (mark.fill, mark.edge) == ("tray", "rim"))
    assert middle.y + middle.height + 3 < card.y
    assert card.y + card.height + 3 < trays.y + trays.spots[0][1]


@pytest.mark.parametrize("form", FORMS, ids=["wide", "narrow"])
@pytest.mark.parametrize("case", [case for case in SHOWN if case[2]], ids=name)
def test_every_child_with_a_ribbon_has_a_bow_and_the_words(case: Case, form: Format) -> None:
    sharing = worked(case)
    with_ribbon = sum(sharing.mat[width] for width in sharing.mat.widths if width)
    for drawing in rooms(case, form):
        assert sum(isinstance(mark, Bow) for mark in drawing.marks) == with_ribbon
        written = Counter(mark.text for mark in labels(drawing) if mark.x < form.rail)
        for width in sharing.mat.widths:
            each = 1 if form.narrow else sharing.mat[width]  # on a phone it stands above the trays of a kind
            assert written[WORDS.say(f"figure.for-{10**width}")] == each


@pytest.mark.parametrize("form", FORMS, ids=["wide", "narrow"])
@pytest.mark.parametrize("case", [case for case in SHOWN if not case[2]], ids=name)
def test_every_tray_is_numbered(case: Case, form: Format) -> None:
    sharing = worked(case)
    for drawing in rooms(case, form):
        written = [mark.text for mark in labels(drawing) if mark.x < form.rail]
        trays = [str(number) for number in range(1, sharing.sharers + 1)]
        assert set(trays if form.narrow else [f"tray {number}" for number in trays]) <= set(written)


@pytest.mark.parametrize("case", CASES, ids=name)
def test_the_share_grows_digit_by_digit(case: Case) -> None:
    """A zero inside is written, one in front is not."""
    sharing = worked(case)
    shown = []
    for stage in sharing.stages:
        drawing = figure(case, place_name(stage.level))
        digits = sorted((mark for mark in labels(drawing) if mark.size == WIDE.digit), key=lambda mark: mark.x)
        shown.append("".join(mark.text for mark in digits))
    whole = str(sharing.quotient)
    expected = [whole[: max(len(whole) - stage.level, 0)] for stage in sharing.stages]
    assert shown == [digits if int(digits or 0) or digits == whole else "" for digits in expected]


def test_no_text_is_smaller_than_12_px_on_a_phone() -> None:
    drawings = [*CHARTS[len(CHARTS) // 2 :], *(drawing for case in CASES for drawing in figures(case, NARROW))]
    for drawing in drawings:
        assert drawing.width <= NARROW.width(4, ribbons=True)
        scale = min(1.0, ON_A_PHONE / drawing.width)
        assert min(mark.size for mark in labels(drawing)) * scale >= 12


def test_text_can_be_read_where_a_wide_figure_is_700_px_wide() -> None:
    for case in CASES:
        for drawing in figures(case, WIDE):
            assert min(mark.size for mark in labels(drawing)) * min(1.0, 700 / drawing.width) >= 12


def ground(drawing: Part, before: int, x: float, y: float) -> str:
    """What was drawn last at a spot before a mark."""
    colour = "paper"
    for mark in drawing.marks[:before]:
        if isinstance(mark, Boxes) and mark.fill:
            for dx, dy in mark.spots:
                if 0 <= x - mark.x - dx <= mark.width and 0 <= y - mark.y - dy <= mark.height:
                    colour = mark.fill
    return colour


INKS = {
    Look.FULL: ("gold", "gold-edge"),
    Look.LIGHT: ("light", "light-edge"),
    Look.DOTTED: ("gone",),
}


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_text_and_edges_have_the_contrast_of_wcag(palette: dict[str, str]) -> None:
    """1.4.3: text 4.5. 1.4.11: pieces, arrows and the outline of the place at work 3, by their edge or their fill."""
    pairs: set[tuple[str, tuple[str, ...], str, float]] = set()
    for drawing in [*CHARTS, *(drawing for case in CASES[:12] for drawing in figures(case))]:
        for index, mark in enumerate(drawing.marks):
            match mark:
                case Label():
                    pairs.add((mark.text, (mark.colour,), ground(drawing, index, mark.x, mark.y), 4.5))
                case Pieces():
                    x, y = mark.spots[0]
                    pairs.add((mark.gid, INKS[mark.look], ground(drawing, index, mark.x + x, mark.y + y), 3))
                case Boxes() if mark.edge == "ink":
                    pairs.add(("outline", ("ink",), ground(drawing, index, mark.x, mark.y), 3))
                case Bow():
                    pairs.add(("bow", (mark.colour,), ground(drawing, index, mark.x, mark.y), 3))
    for what, inks, under, least in pairs:
        assert max(contrast(palette[ink], palette[under]) for ink in inks) >= least, f"{what} on {under}"


def test_full_light_and_dotted_differ_in_grey() -> None:
    """As fills on the middle of a slot, in either palette; the edge and what is written carry it too."""
    for palette in (LIGHT, DARK):
        assert contrast(palette["gold"], palette["light"]) >= 1.5
        assert contrast(palette["gold"], palette["now"]) >= 1.5


def test_outline_and_wire_stand_out_from_piece_and_mat() -> None:
    """In either palette; the wire of a bar is drawn in the colour of its outline."""
    for palette in (LIGHT, DARK):
        assert contrast(palette["gold-edge"], palette["gold"]) >= 2
        assert contrast(palette["gold-edge"], palette["mat-slot"]) >= 3


def test_a_figure_is_a_value() -> None:
    for drawing in (*figures((5230, 4, False)), *CHARTS):
        assert pickle.loads(pickle.dumps(drawing)) == drawing
        assert hash(pickle.loads(pickle.dumps(drawing))) == hash(drawing)


def on_cards(case: Case) -> list[Label]:
    return [mark for mark in labels(figure(case, "cards")) if mark.anchor == "middle" and mark.size > 30]


def test_cards_read_as_the_number_and_carry_no_mark() -> None:
    """Common practice, no source: cards show digits only."""
    assert "".join(mark.text for mark in on_cards((5230, 4, False))) == "5230" + "4" + "1307"


@pytest.mark.parametrize(
    ("case", "whose"),
    [
        ((5230, 4, False), "Each has"),
        ((3432, 12, True), "A child for one has"),
        ((4680, 20, True), "The answer"),
    ],
)
def test_the_cards_of_a_share_say_whose_it_is(case: Case, whose: str) -> None:
    """Of twenty nobody stands for one."""
    titles = [mark.text for mark in labels(figure(case, "cards")) if mark.bold and mark.anchor == "start"]
    assert whose in titles
    assert len({"Each has", "A child for one has", "The answer"} & set(titles)) == 1


def test_a_zero_on_cards_is_that_of_the_card_beneath() -> None:
    """Common practice, no source: there is no card for an empty place."""
    number = on_cards((5005, 5, False))[:4]
    assert [(mark.text, mark.colour) for mark in number] == [
        ("5", "card-thousands"),
        ("0", "card-thousands"),
        ("0", "card-thousands"),
        ("5", "card-units"),
    ]


def test_the_path_has_one_bead_for_every_lesson() -> None:
    beads = {mark.gid: len(mark.spots) for mark in path_figure(STEPS, WIDE).marks if isinstance(mark, Pieces)}
    assert beads == {"step-1-units-full": 8, "step-2-units-full": 12}


def test_bars_of_the_shelf_are_as_long_as_their_share_and_say_it() -> None:
    drawing = allowed_figure([(2, 1.0, 1.0), (5, 0.25, 0.5), (12, 0.0, 0.0)], WIDE, WORDS)
    bars = [mark.width for mark in drawing.marks if isinstance(mark, Boxes) and mark.fill == "gold"][1:]
    assert bars[1] / bars[0] == pytest.approx(0.25)
    assert len(bars) == 2
    striped = [mark.width for mark in drawing.marks if isinstance(mark, Boxes) and mark.edge == "light-edge"][1:]
    assert striped[0] / bars[0] == pytest.approx(0.25)
    assert sum(isinstance(mark, Stroke) for mark in drawing.marks) == 2
    assert {"100%", "25% → 50%", "0%"} <= {mark.text for mark in labels(drawing)}


def test_no_share_is_rounded_to_all_or_nothing() -> None:
    drawing = allowed_figure([(3, 0.9999, 0.9999), (12, 0.0001, 0.0001)], WIDE, WORDS)
    assert {">99%", "<1%"} <= {mark.text for mark in labels(drawing)}
