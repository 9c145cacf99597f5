"""What is kept from build to build saves time and changes nothing, whatever happens to it."""

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from generator import HANDBOOK
from generator.build import kept_between_builds
from generator.build.kept_between_builds import made_by
from generator.build.results_file import Results, digests, key_of
from generator.build.straight_line import Request, build
from generator.errors import HandbookError
from generator.site.staging import stage, write_files
from tests.conftest import quiet
from tests.sampling import only_in_a_whole_run
from tests.small_handbook import contents, write_small_handbook

KEY, OTHER = key_of("something", 1), key_of("something", 2)
RESULT = b"a result\x00of some length"

DAMAGE: dict[str, Callable[[bytes], bytes]] = {
    "empty": lambda content: b"",
    "cut short": lambda content: content[: len(content) // 2],
    "cut by one": lambda content: content[:-1],
    "a beginning alone": lambda content: content[:32],
    "one byte more": lambda content: content + b"\n",
    "a bit turned at the end": lambda content: content[:-1] + bytes([content[-1] ^ 1]),
    "a bit turned at the beginning": lambda content: bytes([content[0] ^ 1]) + content[1:],
    "a bit turned in a result": lambda content: content.replace(RESULT, RESULT[:-1] + b"i"),
    "a bit turned in a key": lambda content: content.replace(OTHER.encode(), b"\xb0" + OTHER.encode()[1:]),
    "text from elsewhere": lambda content: b"# Shopping list\n",
    "zeros": lambda content: bytes(len(content)),
}


def files_of(folder: Path) -> Iterator[Path]:
    return (file for file in folder.rglob("*") if file.is_file())


def kept(file: Path, *results: tuple[str, bytes], made_by: str = "this code") -> Results:
    """A cache after a build that put these results into it."""
    with Results(file, made_by) as cache:
        for key, result in results:
            cache.put(key, result)
    return Results(file, made_by)


def test_results_come_back(tmp_path: Path) -> None:
    file = tmp_path / "results"
    assert Results(file, "this code").get(KEY) is None
    cache = kept(file, (KEY, RESULT), (OTHER, b""))
    assert (cache.get(KEY), cache.get(OTHER), cache.get(key_of("third"))) == (RESULT, b"", None)
    assert [found.name for found in file.parent.iterdir()] == ["results"]


@pytest.mark.parametrize("seconds", [-1, 2**32])
def test_results_are_kept_whatever_the_clock_says(
    seconds: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A packed file has room for the years from 1970 to 2106."""
    monkeypatch.setattr("time.time", lambda: float(seconds))
    assert kept(tmp_path / "results", (KEY, RESULT)).get(KEY) == RESULT


@pytest.mark.parametrize("damage", DAMAGE.values(), ids=DAMAGE)
def test_a_damaged_file_counts_as_empty(damage: Callable[[bytes], bytes], tmp_path: Path) -> None:
    file = tmp_path / "results"
    kept(file, (OTHER, b"another"), (KEY, RESULT))
    file.write_bytes(damage(file.read_bytes()))
    assert Results(file, "this code").get(KEY) is None
    assert kept(file, (KEY, RESULT)).get(KEY) == RESULT


def test_a_file_of_other_code_counts_as_empty(tmp_path: Path) -> None:
    kept(tmp_path / "results", (KEY, RESULT), made_by="other code")
    assert Results(tmp_path / "results", "this code").get(KEY) is None


def test_a_folder_where_the_file_should_be_does_no_harm(tmp_path: Path) -> None:
    (tmp_path / "results").mkdir()
    assert kept(tmp_path / "results", (KEY, RESULT)).get(KEY) is None


def test_what_was_written_in_vain_is_cleared_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(path: Path, target: Path) -> None:
        raise OSError

    monkeypatch.setattr(Path, "replace", refuse)
    kept(tmp_path / "results", (KEY, RESULT))
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_cannot_be_written_does_no_harm(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    assert kept(tmp_path / "file" / "results", (KEY, RESULT)).get(KEY) is None


def test_nothing_is_written_when_nothing_is_new(tmp_path: Path) -> None:
    file = tmp_path / "results"
    kept(file, (KEY, RESULT))
    file.chmod(0o444)
    before = file.stat().st_mtime_ns
    with Results(file, "this code") as cache:
        cache.get(KEY)
    assert file.stat().st_mtime_ns == before


def test_what_is_not_asked_for_is_left_out(tmp_path: Path) -> None:
    file = tmp_path / "results"
    kept(file, (KEY, RESULT), (OTHER, b"another"))
    with Results(file, "this code") as results:
        assert results.get(OTHER) == b"another"
        results.put("third", b"3")
    after = Results(file, "this code")
    assert (after.get(KEY), after.get(OTHER), after.get("third")) == (None, b"another", b"3")


def add_and_fail(file: Path) -> None:
    with Results(file, "this code") as results:
        results.put(OTHER, b"another")
        raise HandbookError("a fault")


def test_where_a_build_fails_halfway_everything_is_kept(tmp_path: Path) -> None:
    file = tmp_path / "results"
    kept(file, (KEY, RESULT))
    with pytest.raises(HandbookError):
        add_and_fail(file)
    after = Results(file, "this code")
    assert (after.get(KEY), after.get(OTHER)) == (RESULT, b"another")


def test_keys_tell_parts_apart() -> None:
    keys = {key_of("ab", "c"), key_of("a", "bc"), key_of("abc"), key_of(("ab", "c")), key_of("ab", "c", None)}
    assert len(keys) == 5


def test_the_digests_of_a_folder_see_every_file_in_one_order(tmp_path: Path) -> None:
    def write(**files: str) -> str:
        shutil.rmtree(tmp_path / "code", ignore_errors=True)
        for name, text in files.items():
            file = tmp_path / "code" / name.replace("__", "/")
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text)
        return key_of(digests(tmp_path / "code"))

    first = write(a="1", b="2")
    assert write(b="2", a="1") == first
    others = {
        write(a="1", b="3"),
        write(a="1", c="2"),
        write(a="1", b="2", c=""),
        write(a="1", d__b="2"),
        write(a="12"),
    }
    assert len(others | {first}) == 6


def test_staging_makes_a_folder_hold_just_these_files_and_touches_no_more(tmp_path: Path) -> None:
    stage(tmp_path, {"a.md": b"1", "b/c.md": b"2", "b/d.md": b"3"}.items())
    before = {file: file.stat().st_mtime_ns for file in files_of(tmp_path)}
    (tmp_path / "b" / "foreign.md").write_bytes(b"?")
    (tmp_path / "b" / "d.md").write_bytes(b"?")
    stage(tmp_path, {"a.md": b"1", "b/c.md": b"4", "b/d.md": b"3"}.items())
    assert contents(tmp_path) == {"a.md": b"1", "b/c.md": b"4", "b/d.md": b"3"}
    assert (tmp_path / "a.md").stat().st_mtime_ns == before[tmp_path / "a.md"]


def test_filling_puts_files_into_a_folder(tmp_path: Path) -> None:
    write_files(tmp_path / "new", [("a", b"1"), ("b/c", b"2"), ("a", b"3")])
    assert contents(tmp_path / "new") == {"a": b"3", "b/c": b"2"}


@pytest.fixture(scope="module")
def handbook(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_small_handbook(tmp_path_factory.mktemp("small") / "handbook")


@pytest.fixture(scope="module")
def first(handbook: Path) -> Request:
    """A build that found nothing kept."""
    request = Request(out=handbook.parent / "site", handbook=handbook, workshop=handbook.parent / "first", processes=1)
    build(request, quiet)
    return request


@only_in_a_whole_run
@pytest.mark.parametrize("name", ["cut short", "a bit turned at the end", "text from elsewhere"])
def test_a_build_is_right_whatever_happened_to_what_was_kept(name: str, first: Request, tmp_path: Path) -> None:
    workshop = tmp_path / "workshop"
    shutil.copytree(first.workshop, workshop)
    stock = workshop / "stock"
    results = stock / "results"
    results.write_bytes(DAMAGE[name](results.read_bytes()))
    (stock / "docs" / "index.md").write_text("# Something else")
    (stock / "docs" / "more.md").write_text("# More")
    (stock / "rendered" / "index.html").write_text("?")
    build(Request(out=tmp_path / "site", handbook=first.handbook, workshop=workshop, processes=1), quiet)
    assert contents(tmp_path / "site") == contents(first.out)


HARM: dict[str, Callable[[Path], object]] = {
    "a page is gone": lambda site: (site / "index.html").unlink(),
    "a page was changed": lambda site: (site / "index.html").write_text("?"),
    "a figure has one byte more": lambda site: next((site / "figures").iterdir()).open("ab").write(b" "),
}


def test_a_whole_site_is_left_as_it_is_and_a_damaged_one_is_built_again(first: Request) -> None:
    right = contents(first.out)
    inode = first.out.stat().st_ino
    said: list[str] = []
    build(first, said.append)
    assert first.out.stat().st_ino == inode
    assert said[-1] == "Nothing has changed since the last build"
    for name, harm in HARM.items():
        harm(first.out)
        build(first, quiet)
        assert contents(first.out) == right, name


@only_in_a_whole_run
def test_a_changed_lesson_costs_no_more_than_the_pages_that_say_it(
    first: Request, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    worked_out: list[str] = []
    put = Results.put

    def noted(results: Results, key: str, result: bytes) -> None:
        worked_out.append(key)
        put(results, key, result)

    monkeypatch.setattr(Results, "put", noted)
    handbook, top = tmp_path / "handbook", tmp_path / "workshop"
    shutil.copytree(first.handbook, handbook)
    shutil.copytree(first.workshop, top)
    workshop = top / "stock"
    lesson = handbook / "lessons" / "as-it-lies" / "3693-among-3.toml"
    before = {file.relative_to(workshop): file.stat().st_mtime_ns for file in files_of(workshop)}
    lesson.write_text(lesson.read_text().replace('reason = "', 'reason = "Anew: '))
    build(Request(out=tmp_path / "site", handbook=handbook, workshop=top, processes=1), quiet)
    staged = {file.relative_to(workshop): file.stat().st_mtime_ns for file in files_of(workshop / "docs")}
    written = {file.as_posix() for file, time in staged.items() if before.get(file) != time}
    assert written == {f"docs/lessons/as-it-lies/{page}.md" for page in ("3693-among-3", "index", "plans")}
    pages = 4  # these and, in case a card says it too, the cards of the step
    lists = 2  # of the files that MkDocs has made, and of those of the site
    audited = 5  # the pages and the books that they are bound into
    assert 0 < len(worked_out) <= pages + lists + audited
    rendered = {file.relative_to(workshop): file.stat().st_mtime_ns for file in files_of(workshop / "rendered")}
    again = {file.as_posix() for file, time in rendered.items() if before.get(file) != time}
    assert {path for path in again if path.endswith(".html")} == {
        "rendered/404.html",
        *(path.replace("docs/", "rendered/").replace(".md", ".html") for path in written),
    }


@pytest.mark.parametrize("part", ["theme/css/lesson.css", "en/templates/parts.md.jinja", "en/phrases.toml"])
def test_results_do_not_outlive_the_look_and_the_words_that_they_were_made_of(
    part: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = Path(shutil.copytree(HANDBOOK, tmp_path / "handbook"))
    before = made_by()
    monkeypatch.setattr(kept_between_builds, "HANDBOOK", copy)
    assert made_by() == before
    file = copy / part
    file.write_text(file.read_text("utf-8") + "# new\n", "utf-8")
    assert made_by() != before


def rendered_at(workshop: Path) -> dict[str, int]:
    """When each page was rendered, in nanoseconds."""
    return {file.relative_to(workshop).as_posix(): file.stat().st_mtime_ns for file in workshop.rglob("*.html")}


@only_in_a_whole_run
def test_the_next_morning_no_page_is_rendered_again(
    handbook: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """86,400 seconds after 2026-01-01 begins 2026-01-02."""
    request = Request(out=tmp_path / "site", handbook=handbook, workshop=tmp_path / "workshop", processes=1)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1767225600")
    build(request, quiet)
    before = rendered_at(request.workshop)
    assert before
    monkeypatch.setenv("SOURCE_DATE_EPOCH", str(1767225600 + 86_400))
    build(request, quiet)
    assert rendered_at(request.workshop) == before
    text = (request.out / "index.html").read_text("utf-8")
    assert "2026-01-02" in text
    assert "2026-01-01" not in text


def test_a_school_may_have_as_long_a_name_as_a_folder_can(tmp_path: Path) -> None:
    schools = [tmp_path / f"{'é' * 125}{end}" for end in "12"]
    folders = set()
    for school in schools:
        with kept_between_builds.workshop(tmp_path / "workshop", school, 1, quiet) as place:
            folders.add(place.docs.parent)
    assert len(folders) == 2


@only_in_a_whole_run
def test_a_school_and_the_stock_handbook_by_turns_render_nothing_again(handbook: Path, tmp_path: Path) -> None:
    (tmp_path / "school").mkdir()
    (tmp_path / "school" / "school.toml").write_text('name = "Hazel House"', "utf-8")
    requests = [
        Request(school, tmp_path / "site", 1, handbook, tmp_path / "workshop") for school in (None, tmp_path / "school")
    ]
    for request in requests:
        build(request, quiet)
    before = rendered_at(tmp_path / "workshop")
    for request in requests:
        build(request, quiet)
    assert rendered_at(tmp_path / "workshop") == before
