"""A second invented school, different from the stock handbook in every setting: all of it shows in what is built."""

import re
from pathlib import Path

import pytest

from generator import HANDBOOK
from generator.build.straight_line import Request, Summary, build
from generator.source.fields import Model
from generator.source.library import load
from tests.conftest import quiet
from tests.pages.reading import is_book
from tests.sampling import only_in_a_whole_run
from tests.site.numbers_audit import audit_numbers
from tests.small_handbook import contents, write_small_handbook
from tests.stock import sources

SCHOOL = Path(__file__).with_name("herisson-lane")
NAME = "Hérisson Lane Children's House, Zoë & Åse's room"
THIN = "\u202f"


def built(school: Path | None, folder: Path, handbook: Path = HANDBOOK) -> Summary:
    return build(Request(school, folder / "site", handbook=handbook, workshop=folder / "workshop"), quiet)


@pytest.fixture(scope="module")
def summary(tmp_path_factory: pytest.TempPathFactory) -> Summary:
    return built(SCHOOL, tmp_path_factory.mktemp("a school"))


@pytest.fixture(scope="module")
def own(summary: Summary) -> Path:
    return summary.index.parent


def text(site: Path, page: str) -> str:
    return (site / page).read_text("utf-8")


def words(site: Path, page: str) -> str:
    """The words of a page as they are read."""
    return re.sub(r"<[^>]+>", " ", text(site, page))


def test_it_differs_in_every_setting() -> None:
    def leaves(settings: Model) -> dict[str, object]:
        found: dict[str, object] = {}
        for key, value in settings:
            inner = leaves(value) if isinstance(value, Model) else {"": value}
            found |= {f"{key}.{name}": each for name, each in inner.items()}
        return found

    stock, ours = leaves(sources().school), leaves(load(HANDBOOK, SCHOOL).school)
    # There is one language so far. Four digits must be grouped for the thin space to be seen in them.
    assert {key for key in stock if stock[key] == ours[key]} == {"language.", "numbers.group_four_digits."}


def test_what_is_replaced_and_added_is_listed(summary: Summary) -> None:
    assert summary.sources.changes == (
        "herisson-lane/school.toml: its own settings",
        "herisson-lane/lessons/left-over/4486-among-4.toml: replaces ours",
        "herisson-lane/lessons/our-long-table/4837.toml: added",
        "herisson-lane/lessons/our-long-table/garden-end.toml: added",
        "herisson-lane/lessons/our-long-table/step.toml: added",
        "herisson-lane/pages/our-room/index.md: added",
        "herisson-lane/pages/our-room/mornings.md: added",
        "herisson-lane/pages/when-it-goes-wrong/trays-differ.md: replaces ours",
        "herisson-lane/notes/lessons/one-exchange/4632-among-2.md: a note added to a page",
        "herisson-lane/notes/new-here/the-room.md: a note added to a page",
        "herisson-lane/theme/colours.toml: used",
        "herisson-lane/theme/logo.png: used",
    )


def test_its_name_is_on_every_page(own: Path) -> None:
    titles = {page: re.findall("<title>(.*?)</title>", page.read_text("utf-8")) for page in own.rglob("*.html")}
    assert len(titles) > 70
    escaped = "Hérisson Lane Children&#x27;s House, Zoë &amp; Åse&#x27;s room"
    assert 'title="Hérisson Lane' in text(own, "index.html"), "the whole name, where the head has no room for it"
    with_it = {page for page, (title,) in titles.items() if escaped in title.replace("&#39;", "&#x27;")}
    assert titles.keys() - with_it == set()


@pytest.mark.parametrize("role", ["Lernbegleiterin", "second adult", "keeper of the bank", "stand-in"])
def test_people_are_called_what_they_are_called_there(role: str, own: Path) -> None:
    assert role in words(own, "new-here/the-roles.html")


def test_cautions_name_the_guide_as_it_is_called_there(own: Path) -> None:
    assert "The trained Lernbegleiterin and local rules" in words(own, "lessons/left-over/plans.html")
    assert "trained guide" not in text(own, "index.html")


def test_only_its_steps_and_groups_are_there(own: Path) -> None:
    assert {folder.name for folder in (own / "lessons").iterdir() if folder.is_dir()} == {
        *("one-exchange", "left-over", "our-long-table"),
    }
    assert {page.name for page in (own / "choosing").glob("group-*.html")} == {
        *("group-3.html", "group-4.html", "group-5.html"),
    }


def test_numbers_have_a_thin_space_and_never_a_comma(own: Path) -> None:
    lesson = words(own, "lessons/our-long-table/garden-end.html")
    assert f"5{THIN}560 among five" in lesson
    for page in own.glob("*/**/*.html"):
        if page.name == "change-the-shelf.html":  # explains how numbers may be written
            continue
        assert not re.search(r"\d,\d{3}\b", page.read_text("utf-8").partition("<body")[2]), page


def test_every_number_is_right(own: Path, tmp_path: Path) -> None:
    for page in own.rglob("*.html"):
        if not is_book(page.name):
            copy = tmp_path / page.relative_to(own)
            copy.parent.mkdir(parents=True, exist_ok=True)
            # In tables of contents the renderer makes every kind of space a plain one.
            copy.write_text(re.sub(rf"(?<=\d)[{THIN} ](?=\d{{3}}\b)", ",", page.read_text("utf-8")), "utf-8")
    report = audit_numbers(tmp_path, load(HANDBOOK, SCHOOL).school)
    assert report.wrong == []
    assert sum(report.verified.values()) > 5000


def test_nothing_is_begun_there_that_cannot_be_finished(own: Path) -> None:
    lesson = words(own, "lessons/one-exchange/4632-among-2.html")
    assert "Not enough for a whole round" in lesson
    assert "is not finished" not in lesson
    assert 'class="start-round"' not in text(own, "lessons/one-exchange/4632-among-2.html")
    explains = {"a-z.html", "change-the-shelf.html"}
    pages = [page for page in own.rglob("*.html") if page.name not in explains]
    begun = re.compile("round back|a round that is taken back|unfinished round", re.IGNORECASE)
    assert [page for page in pages if begun.search(words(own, str(page.relative_to(own))))] == []


def test_its_shelf_decides(own: Path) -> None:
    assert "short of" in words(own, "lessons/our-long-table/index.html")
    assert "It holds 5 trays" in words(own, "our-room/index.html")


def test_its_paper_and_its_reviews(own: Path) -> None:
    assert "letter" in text(own, "index.html").partition("</head>")[0].lower()
    assert 'review due <time datetime="2027-04-05">' in text(own, "our-room/index.html")


def test_its_own_pages_and_notes(own: Path) -> None:
    replaced = words(own, "when-it-goes-wrong/trays-differ.html")
    assert f"With 4{THIN}486 among four, every tray must hold 1{THIN}121." in replaced
    assert "The keeper of the bank wears the apron" in words(own, "lessons/one-exchange/4632-among-2.html")
    assert "Our large mat hangs behind the door" in words(own, "new-here/the-room.html")
    assert "fetch it before the cubes" in words(own, "lessons/left-over/4486-among-4.html")
    assert 'href="our-room/index.html"' in text(own, "index.html")


def test_its_logo_its_colours_and_its_address(own: Path) -> None:
    assert (own / "images" / "school.png").read_bytes() == (SCHOOL / "theme" / "logo.png").read_bytes()
    assert {"#5b2a5e", "#1d4e89"} <= set(re.findall(r"#[0-9a-f]{6}", text(own, "css/school.css")))
    assert 'href="/rooms/sharing/' in text(own, "404.html")


@only_in_a_whole_run
def test_an_empty_folder_changes_nothing(tmp_path: Path) -> None:
    handbook = write_small_handbook(tmp_path / "handbook")
    (tmp_path / "empty").mkdir()
    ours = built(None, tmp_path / "ours", handbook).index.parent
    empty = built(tmp_path / "empty", tmp_path / "laid over", handbook).index.parent
    assert contents(empty) == contents(ours)
