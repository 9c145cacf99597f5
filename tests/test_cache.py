"""What is kept from build to build saves time and changes nothing, whatever happens to it."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from generator.build import Request, build
from generator.cache import Cache, fingerprint, key_of
from generator.staging import stage
from tests.small_handbook import contents, write_small_handbook

KEY = key_of("something", 1)
RESULT = b"a result\x00of some length"

DAMAGE: dict[str, Callable[[bytes], bytes]] = {
    "empty": lambda content: b"",
    "cut short": lambda content: content[: len(content) // 2],
    "cut by one": lambda content: content[:-1],
    "a digest without a result": lambda content: content[:32],
    "one byte more": lambda content: content + b"\n",
    "one bit turned": lambda content: content[:-1] + bytes([content[-1] ^ 1]),
    "digest damaged": lambda content: bytes([content[0] ^ 1]) + content[1:],
    "text from elsewhere": lambda content: b"# Shopping list\n",
    "zeros": lambda content: bytes(len(content)),
}


def quiet(line: str) -> None:
    """Say nothing."""


def files_of(cache: Path) -> Iterator[Path]:
    return (file for file in cache.rglob("*") if file.is_file())


def test_a_result_comes_back(tmp_path: Path) -> None:
    cache = Cache(tmp_path / "cache")
    assert cache.get(KEY) is None
    cache.put(KEY, RESULT)
    assert cache.get(KEY) == RESULT
    assert cache.get(key_of("something", 2)) is None


@pytest.mark.parametrize("damage", DAMAGE.values(), ids=DAMAGE)
def test_a_damaged_result_does_not(damage: Callable[[bytes], bytes], tmp_path: Path) -> None:
    cache = Cache(tmp_path)
    cache.put(KEY, RESULT)
    (file,) = files_of(tmp_path)
    file.write_bytes(damage(file.read_bytes()))
    assert cache.get(KEY) is None
    cache.put(KEY, RESULT)
    assert cache.get(KEY) == RESULT


def test_nor_does_a_whole_result_under_the_key_of_another(tmp_path: Path) -> None:
    cache, other = Cache(tmp_path), key_of("another")
    cache.put(KEY, RESULT)
    (file,) = files_of(tmp_path)
    (tmp_path / other[:2]).mkdir(exist_ok=True)
    file.rename(tmp_path / other[:2] / other)
    assert cache.get(other) is None


def test_a_folder_where_a_result_should_be_does_no_harm(tmp_path: Path) -> None:
    cache = Cache(tmp_path)
    (tmp_path / KEY[:2] / KEY).mkdir(parents=True)
    cache.put(KEY, RESULT)
    assert cache.get(KEY) is None


def test_a_folder_that_cannot_be_written_does_no_harm(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    cache = Cache(tmp_path / "file" / "cache")
    cache.put(KEY, RESULT)
    assert cache.get(KEY) is None


def test_keys_tell_parts_apart() -> None:
    keys = {key_of("ab", "c"), key_of("a", "bc"), key_of("abc"), key_of(("ab", "c")), key_of("ab", "c", None)}
    assert len(keys) == 5


def test_the_fingerprint_of_a_folder_sees_every_file(tmp_path: Path) -> None:
    def write(**files: str) -> str:
        shutil.rmtree(tmp_path / "code", ignore_errors=True)
        for name, text in files.items():
            file = tmp_path / "code" / name.replace("__", "/")
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text)
        return fingerprint(tmp_path / "code")

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


def test_only_results_of_the_same_code_are_kept(tmp_path: Path) -> None:
    old, new = Cache(tmp_path / "old"), Cache(tmp_path / "new")
    old.put(KEY, RESULT)
    new.put(KEY, RESULT)
    new.forget_others()
    assert old.get(KEY) is None
    assert new.get(KEY) == RESULT


def test_staging_makes_a_folder_hold_just_these_files_and_touches_no_more(tmp_path: Path) -> None:
    stage(tmp_path, {"a.md": b"1", "b/c.md": b"2", "b/d.md": b"3"})
    before = {file: file.stat().st_mtime_ns for file in files_of(tmp_path)}
    (tmp_path / "b" / "foreign.md").write_bytes(b"?")
    (tmp_path / "b" / "d.md").write_bytes(b"?")
    stage(tmp_path, {"a.md": b"1", "b/c.md": b"4", "b/d.md": b"3"})
    assert contents(tmp_path) == {"a.md": b"1", "b/c.md": b"4", "b/d.md": b"3"}
    assert (tmp_path / "a.md").stat().st_mtime_ns == before[tmp_path / "a.md"]


@pytest.fixture(scope="module")
def handbook(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_small_handbook(tmp_path_factory.mktemp("small") / "handbook")


@pytest.fixture(scope="module")
def first(handbook: Path) -> Request:
    """A build that found nothing kept."""
    request = Request(out=handbook.parent / "site", handbook=handbook, workshop=handbook.parent / "first", processes=1)
    build(request, quiet)
    return request


def test_a_build_is_right_whatever_happened_to_what_was_kept(first: Request, tmp_path: Path) -> None:
    """Every kind of damage at once, each to every ninth file, and foreign files among the staged ones."""
    right = contents(first.out)
    workshop = tmp_path / "workshop"
    shutil.copytree(first.workshop, workshop)
    kept = sorted(files_of(workshop / "cache"))
    assert len(kept) > 3 * len(DAMAGE)
    for number, file in enumerate(kept):
        file.write_bytes(list(DAMAGE.values())[number % len(DAMAGE)](file.read_bytes()))
    (workshop / "cache" / "notes.txt").write_text("not ours")
    (workshop / "docs" / "index.md").write_text("# Something else")
    (workshop / "docs" / "more.md").write_text("# More")
    build(Request(out=tmp_path / "site", handbook=first.handbook, workshop=workshop, processes=1), quiet)
    assert contents(tmp_path / "site") == right


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


def test_a_changed_lesson_costs_no_more_than_the_pages_that_say_it(first: Request, tmp_path: Path) -> None:
    handbook, workshop = tmp_path / "handbook", tmp_path / "workshop"
    shutil.copytree(first.handbook, handbook)
    shutil.copytree(first.workshop, workshop)
    lesson = handbook / "lessons" / "as-it-lies" / "6963-among-3.toml"
    before = {file.relative_to(workshop): file.stat().st_mtime_ns for file in files_of(workshop)}
    lesson.write_text(lesson.read_text().replace('reason = "', 'reason = "Anew: '))
    build(Request(out=tmp_path / "site", handbook=handbook, workshop=workshop, processes=1), quiet)
    staged = {file.relative_to(workshop): file.stat().st_mtime_ns for file in files_of(workshop / "docs")}
    written = {file.as_posix() for file, time in staged.items() if before.get(file) != time}
    assert written == {"docs/lessons/as-it-lies/6963-among-3.md", "docs/lessons/as-it-lies/index.md"}
    added = [file for file in files_of(workshop / "cache") if file.relative_to(workshop) not in before]
    pages = 3  # the lesson, its step and, in case a card says it too, the cards of the step
    readings = 2 * 3  # of the two pages that changed: the chapter of the book, the audit of the page and of the chapter
    assert len(added) <= pages + readings + 1, "no more than these, and the list of what the site holds"
