"""What pages say where a school is unlike the stock one, in ways that its settings allow."""

import re
from datetime import date
from pathlib import Path

import pytest

from generator import HANDBOOK
from generator.pages.authored.fill import WritingContext, write_authored
from generator.pages.kinds.choosing import write_choosing, write_group
from generator.pages.kinds.overviews import write_home, write_path
from generator.pages.writing.links import lesson_link, step_link
from generator.pages.writing.page import Page
from generator.pages.writing.writer import Writer
from generator.source.library import load
from tests.stock import sources

LESSON = (
    'dividend = {dividend}\ndivisor = {divisor}\norder = 1\nreviewed = 2026-11-16\nreason = "A number of our own."\n'
)


def of_a_school(folder: Path, settings: str = "", **lessons: str) -> WritingContext:
    """What pages are written with for a school with these settings; lessons by step and name with two underscores."""
    folder.mkdir(exist_ok=True)
    (folder / "school.toml").write_text(f'name = "Hazel Lane"\n{settings}', "utf-8")
    for name, text in lessons.items():
        file = folder / "lessons" / (name.replace("__", "/").replace("_", "-") + ".toml")
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, "utf-8")
    sources = load(HANDBOOK, folder)
    writer = Writer(sources.school)
    links = tuple(lesson_link(lesson, writer) for lesson in sources.lessons)
    return WritingContext(writer, tuple(map(step_link, sources.steps)), links)


def authored(context: WritingContext, path: str) -> str:
    """The text of a page of ours; it can be filled in."""
    (page,) = [page for page in sources().pages if page.path == path]
    written = write_authored(context, (page, ()))
    assert isinstance(written, Page)
    return written.body


@pytest.mark.parametrize(("dividend", "leads_there"), [(2684, True), (4862, False)])
def test_the_first_lesson_leads_to_the_lesson_about_its_own_number(
    dividend: int, leads_there: bool, tmp_path: Path
) -> None:
    own = {"as_it_lies__2684_among_2": LESSON.format(dividend=dividend, divisor=2)}
    text = authored(of_a_school(tmp_path / "school", **own), "new-here/first-lesson.md")
    assert ("2684-among-2.html" in text) == leads_there


def test_practice_leaves_out_what_the_shelf_allows_only_for_a_lesson(tmp_path: Path) -> None:
    """By hand: with two cubes, two squares, three bars and twelve beads only 2,232 goes between two by one bar."""
    shelf = "[shelf]\nthousands = 2\nhundreds = 2\ntens = 3\nunits = 12\n"
    own = {"one_exchange__2232_among_2": LESSON.format(dividend=2232, divisor=2)}
    assert "2,232 between two" in authored(of_a_school(tmp_path / "school", shelf), "new-here/practice.md")
    text = authored(of_a_school(tmp_path / "with-it", shelf, **own), "new-here/practice.md")
    assert "2,232 between two" not in text
    assert "1,000 among eight" in text


@pytest.mark.parametrize(
    ("settings", "sizes"),
    [
        ("[groups]\nsizes = [2, 3, 12]", ["2", "3"]),
        ("[groups]\nsizes = [2, 3, 4]\n[shelf]\ntrays = 3", ["2", "3"]),
        ("[shelf]\nthousands = 1", ["2", "3", "4"]),
        ("[shelf]\nunits = 1", []),
        ('steps = ["one-exchange"]', []),
        ('steps = ["left-over"]', []),
        ('steps = ["hundred-ribbons", "ten-ribbons"]\n[groups]\nsizes = [11, 12]', []),
    ],
)
def test_a_very_first_lesson_shares_out_as_it_lies_for_a_group_of_the_school_whose_shelf_has_it(
    settings: str, sizes: list[str], tmp_path: Path
) -> None:
    context = of_a_school(tmp_path / "school", settings)
    first_step = load(HANDBOOK, tmp_path / "school").steps[0]
    home = write_home(context.writer, context.lessons, first_step, date(2026, 11, 16)).body
    assert re.findall(r">(\d+) children: ", home) == sizes
    assert ("The very first lesson" in home) == bool(sizes)


@pytest.mark.parametrize(
    ("shelf", "short"),
    [
        ("trays = 6\nsmall_sets = 12", "6 trays"),
        ("trays = 1\nsmall_sets = 10", "1 tray and 10 sets of small cards"),
        ("trays = 12\nsmall_sets = 12", ""),
    ],
)
def test_too_few_trays_or_sets_are_told_on_the_page_of_a_group_too(shelf: str, short: str, tmp_path: Path) -> None:
    context = of_a_school(tmp_path / "school", f"[groups]\nsizes = [11]\n[shelf]\n{shelf}\n")
    reviewed = date(2026, 11, 16)
    group = write_group((context.writer, reviewed), (11, [])).body
    assert (f"For 11 children at once we have only {short}." in group) == bool(short)
    choosing = write_choosing(context.writer, reviewed).body
    assert (f"For eleven children we have only {short}." in choosing) == bool(short)


def test_the_first_lesson_of_a_kind_stands_among_its_five_best_numbers() -> None:
    """For four 4,848 and 4,880 are two of 54 that share out as they lie, and more than five come before them."""
    writer = Writer(sources().school)
    stock = sources().lessons[0]
    lessons = [
        lesson_link(stock.model_copy(update={"dividend": dividend, "divisor": 4}), writer) for dividend in (4848, 4880)
    ]
    group = write_group((writer, date(2026, 11, 16)), (4, lessons)).body
    table = group.partition('<tbody id="static">')[2].partition("</tbody>")[0]
    shown = re.findall(r'<th scope="row"><a [^>]*>(.*?)</a>', table)
    assert len(shown) == 5
    assert shown[0] == "4,848"
    assert "4,880" not in shown


@pytest.mark.parametrize(("size", "said"), [(9, False), (10, True)])
def test_why_no_number_goes_round_as_it_lies_is_told_from_ten_children_on(size: int, said: bool) -> None:
    group = write_group((Writer(sources().school), date(2026, 11, 16)), (size, [])).body
    assert (f"It would need {size} cubes or more" in group) == said


@pytest.mark.parametrize(
    ("boost", "search"), [(0.5, {"search": {"boost": 0.5}}), (1.0, {}), (2.0, {"search": {"boost": 2.0}})]
)
def test_a_page_is_found_before_or_after_others_as_it_asks_for(boost: float, search: dict[str, object]) -> None:
    page = sources().pages[0]
    asking = page.model_copy(update={"meta": page.meta.model_copy(update={"boost": boost}), "body": "# Ours"})
    written = write_authored(WritingContext(Writer(sources().school), (), ()), (asking, ()))
    assert isinstance(written, Page)
    assert {key: value for key, value in written.meta.items() if key == "search"} == search


def test_a_path_of_one_step_is_no_path_of_steps(tmp_path: Path) -> None:
    context = of_a_school(tmp_path / "school", 'steps = ["as-it-lies"]')
    path = write_path(context.writer, context.steps, context.lessons, date(2026, 11, 16)).body
    assert "# The path: one step\n" in path
    assert "wait for the ribbons" not in path
    assert "The lessons come in one step." in authored(context, "new-here/what-next.md")


@pytest.mark.parametrize(("step", "said"), [("ten-ribbons", True), ("as-it-lies", False)])
def test_a_path_of_ribbons_alone_says_what_comes_before_them(step: str, said: bool, tmp_path: Path) -> None:
    context = of_a_school(tmp_path / "school", f'steps = ["{step}"]')
    path = write_path(context.writer, context.steps, context.lessons, date(2026, 11, 16)).body
    assert ("They have shared out numbers without ribbons." in path) == said


def test_pages_for_newcomers_say_what_the_shelf_lacks(tmp_path: Path) -> None:
    stock, poor = of_a_school(tmp_path / "stock"), of_a_school(tmp_path / "poor", "[shelf]\nhundreds = 0\n")
    for path, said in {
        "new-here/first-lesson.md": "Our shelf does not have enough: hundreds (6 needed, we have 0).",
        "new-here/practice.md": "With the next number our shelf does not have enough: hundreds (",
        "new-here/the-material.md": "Our shelf does not have all of these pieces.",
    }.items():
        assert said in authored(poor, path)
        assert said not in authored(stock, path)


@pytest.mark.parametrize(
    ("settings", "plans"),
    [
        ("", ["one-exchange"]),
        ('steps = ["left-over", "several-exchanges"]', ["several-exchanges"]),
        ('steps = ["as-it-lies"]', []),
    ],
)
def test_the_banker_reads_plans_of_lessons_that_go_to_the_bank(settings: str, plans: list[str], tmp_path: Path) -> None:
    text = authored(of_a_school(tmp_path / "school", settings), "new-here/role-bank-keeper.md")
    assert re.findall(r"lessons/([\w-]+)/plans.html", text) == plans


def test_the_shelf_is_counted_in_forms_for_one_and_nothing_is_counted_that_is_not_there(tmp_path: Path) -> None:
    shelf = (
        "[shelf]\nhundreds = 0\ntens = 1\nunits = 21\nsmall_sets = 1\ntrays = 0\nten_ribbons = 1\nhundred_ribbons = 0\n"
    )
    context = of_a_school(tmp_path / "school", f'steps = ["as-it-lies"]\n{shelf}')
    text = authored(context, "reference/shelf.md")
    told = text[text.index("#count") : text.index("#unserved")]
    for said in ("21: 2 rows and 1 bead.", "have 1.", "1 set of small cards", "1 ribbon for ten."):
        assert said in told
    assert not re.search(r"squares|trays|for a hundred|\b0 ", told)
    assert re.findall(r">(Ribbons[^<]*)</th>" + 4 * "<td>(.*?)</td>", text) == [
        ("Ribbons for ten", "1", "0", "yes", "\N{EN DASH}")
    ]
    assert "Small, 1 set<" in authored(context, "reference/cards.md")


@pytest.mark.parametrize(("sizes", "told"), [("[2, 5]", True), ("[5]", False)])
def test_cards_for_two_are_told_of_where_two_share(sizes: str, told: bool, tmp_path: Path) -> None:
    context = of_a_school(tmp_path / "school", f"[groups]\nsizes = {sizes}")
    assert ("for two children" in write_choosing(context.writer, date(2026, 11, 16)).body) == told


@pytest.mark.parametrize(
    ("seconds", "said"),
    [("1", "1 minute. Allow half an hour"), ("60", "40 minutes. Allow twice as long")],
)
def test_a_first_lesson_allows_more_time_than_the_moving_takes(seconds: str, said: str, tmp_path: Path) -> None:
    context = of_a_school(tmp_path / "school", f"[time]\nseconds_per_handling = {seconds}")
    assert said in authored(context, "new-here/first-lesson.md")
