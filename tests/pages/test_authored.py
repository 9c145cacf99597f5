"""Pages and notes that a school writes: what is wrong with all of them comes in one run, and what is right is there."""

from functools import cache
from multiprocessing import get_context
from pathlib import Path

import pytest

from generator.errors import HandbookError, SourceError
from generator.pages.authored.allowed_html import reader
from generator.pages.handbook import Handbook, write_handbook
from generator.pages.kinds.overviews import write_a_z
from generator.pages.writing.writer import Writer
from generator.source.library import readable
from tests.in_turn import run_in_turn
from tests.sampling import only_in_a_whole_run, sample
from tests.source.cases import EXPECTED, STOCK, lay_out

INVALID = sorted(path for path in (Path(__file__).parent / "invalid").iterdir() if path.is_dir())
FRONT = '---\ntitle: "Ours"\ndescription: "What our room does."\norder: 1\nreviewed: 2026-11-16\n---\n'
LESSON = "lessons/static/8448-among-4.md"


def written(handbook: Path, school: Path | None) -> Handbook:
    sources = readable(handbook, school)
    return write_handbook(sources, Writer(sources.school), run_in_turn)


@cache
def stock() -> Handbook:
    return written(STOCK, None)


def with_files(folder: Path, **texts: str) -> Handbook:
    """The handbook of a school with these files; two underscores in a name stand for a slash."""
    for name, text in texts.items():
        file = folder / "school" / (name.replace("__", "/").replace("_", "-") + ".md")
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, "utf-8")
    return written(STOCK, folder / "school")


def page(handbook: Handbook, path: str) -> str:
    return next(page.body for page in handbook.pages if page.path == path)


@pytest.mark.parametrize("case", sample(INVALID, 3), ids=lambda case: case.name)
def test_every_fault_is_named_in_these_words(case: Path, tmp_path: Path) -> None:
    with pytest.raises(SourceError) as refused:
        written(*lay_out(case, tmp_path / "case"))
    assert str(refused.value) + "\n" == (case / EXPECTED).read_text("utf-8")


@only_in_a_whole_run
@pytest.mark.parametrize(
    "words", ["{% for x in range(100000) %}" * 3 + "{% endfor %}" * 3, "[" * 9000 + "\n" + "[" * 9000]
)
def test_what_takes_too_long_is_a_fault_with_its_file(
    words: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("generator.pages.authored.fill.SECONDS", 1.0)
    with pytest.raises(SourceError) as refused:
        with_files(tmp_path, pages__our_room__ours=FRONT + words)
    (fault,) = refused.value.faults
    assert (fault.file, fault.problem) == ("school/pages/our-room/ours.md", "takes too long")
    assert fault.line == (7 if "{" in words else 0)


@only_in_a_whole_run
def test_every_page_that_takes_too_long_is_named_and_what_is_wrong_on_others(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("generator.pages.authored.fill.SECONDS", 1.0)
    endless = "{% for x in range(100000) %}" * 3 + "{% endfor %}" * 3
    with pytest.raises(SourceError) as refused:
        with_files(
            tmp_path,
            pages__our_room__first=FRONT + endless,
            pages__our_room__second=FRONT.replace('"Ours"', '"Second"') + endless,
            pages__our_room__third=FRONT.replace('"Ours"', '"Third"') + "{{ nobody }}",
        )
    assert [fault.problem.partition(":")[0] for fault in refused.value.faults] == [
        *("takes too long", "takes too long", "uses a name that is not known")
    ]


@only_in_a_whole_run
def test_what_takes_too_much_memory_is_a_fault_with_its_line(tmp_path: Path) -> None:
    many = "\n{% set x = (['a' * 100000] * 20000) | map('upper') | list %}"
    with pytest.raises(SourceError) as refused:
        with_files(tmp_path, pages__our_room__ours=FRONT + many)
    assert str(refused.value) == (
        "school/pages/our-room/ours.md:8: takes too much memory; "
        "take out what repeats so often, or write smaller numbers"
    )


def test_what_the_program_writes_may_be_as_long_as_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    handbook, sources = stock(), readable(STOCK)
    monkeypatch.setattr("generator.pages.writing.writer.LARGEST_PAGE", 2_000)
    a_z = write_a_z(Writer(sources.school), handbook.pages[1:], sources.pages[0].meta.reviewed)
    assert len(a_z.body) > 2_000
    with pytest.raises(HandbookError, match="grows to more than 2000 characters"):
        Writer(sources.school).render_text("word " * 401, "ours.md", {}, "ours.md")


@only_in_a_whole_run
def test_a_note_that_says_nothing_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SourceError, match=r"notes/index\.md:1: adds nothing to the page; write what is to be added"):
        with_files(tmp_path, notes__index="{# nothing yet #}")


@only_in_a_whole_run
def test_a_note_stands_below_a_heading_on_any_page(tmp_path: Path) -> None:
    notes = {
        "notes__lessons__static__8448_among_4": "We share {{ share(8448, 4).quotient }} at the round table.",
        "notes__lessons__static__index": "Our *first* step.",
        "notes__index": "Our door.",
        "notes__lessons__index": "Our path.",
        "notes__choosing__group_4": "Our groups of four.",
        "notes__reference__a_z": "Our list.",
        "notes__when_it_goes_wrong__trays_differ": "Our trays.",
    }
    plain, noted = stock(), with_files(tmp_path, **notes)
    assert page(noted, LESSON).endswith("\n\n## At our school { #at-our-school }\n\nWe share 2,112 at the round table.")
    for name, words in list(notes.items())[1:]:
        path = name.removeprefix("notes__").replace("__", "/").replace("_", "-") + ".md"
        assert page(noted, path) == f"{page(plain, path).rstrip()}\n\n## At our school {{ #at-our-school }}\n\n{words}"
    assert sum("At our school" in each.body for each in noted.pages) == len(notes)
    assert noted.nav == plain.nav


@only_in_a_whole_run
def test_it_is_the_same_where_processes_cannot_be_forked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("generator.pages.other_processes.get_context", lambda _: get_context("spawn"))
    noted = with_files(tmp_path, notes__lessons__static__8448_among_4="We share {{ share(8448, 4).quotient }}.")
    assert page(noted, LESSON).endswith("We share 2,112.")
    with pytest.raises(SourceError, match=r"8448-among-4\.md:1: <script>: is not allowed"):
        with_files(tmp_path, notes__lessons__static__8448_among_4="<script></script>")


def test_what_converts_pages_is_made_once_for_all_of_them(tmp_path: Path) -> None:
    """And not again in the process of each, where it would be forgotten with it."""
    reader.cache_clear()
    with_files(tmp_path, notes__index="Our door.", notes__lessons__index="Our path.")
    assert reader.cache_info().misses == 1


@only_in_a_whole_run
def test_a_note_may_show_a_figure(tmp_path: Path) -> None:
    show = '{% import "parts.md.jinja" as parts %}{{ parts.figure(picture("cards", share(96, 3)), "a card", "") }}'
    handbook = with_files(tmp_path, notes__lessons__static__8448_among_4=show)
    noted = next(page for page in handbook.pages if page.path == LESSON)
    assert "../../figures/96-among-3-cards.svg" in noted.body
    shown = [picture.path for picture in noted.pictures]
    assert shown[-2:] == ["figures/96-among-3-cards.svg", "figures/96-among-3-cards-narrow.svg"]


def test_a_step_leads_to_the_steps_before_and_after_it() -> None:
    step = page(stock(), "lessons/exchange-tens/index.md")
    assert 'Before: <a href="../static/index.html">' in step
    assert 'After: <a href="../ribbons/index.html">' in step


def test_the_first_and_last_step_lead_to_what_the_path_says_comes_before_and_after() -> None:
    """What that is depends on the steps that a school has."""
    first, last = page(stock(), "lessons/static/index.md"), page(stock(), "lessons/ribbons/index.md")
    assert 'Before: <a href="../index.html#before">' in first
    assert 'After: <a href="../index.html#after">' in last


def test_a_schools_page_knows_what_ours_know(tmp_path: Path) -> None:
    words = "# Ours\n\n{{ lessons | length }} {{ steps | length }} {{ to('lessons/index.md') }} {{ school.name }}"
    handbook = with_files(tmp_path, pages__our_room__ours=FRONT + words)
    assert (
        page(handbook, "our-room/ours.md").split("\n")[-2] == "4 3 ../lessons/index.md Larkfield Children&#x27;s House"
    )
    assert {"Ours": [{"Ours": "our-room/ours.md"}]} in handbook.nav


@pytest.mark.parametrize(
    "path",
    sample([f"lessons/{name}" for name in ("index", "static/index", "static/8448-among-4")], 1)
    + sample(["index", "choosing/group-4", "reference/a-z"], 1),
)
def test_a_page_takes_the_place_of_ours_also_of_one_that_the_program_writes(path: str, tmp_path: Path) -> None:
    name = f"pages__{path.replace('/', '__').replace('-', '_')}"
    plain, replaced = stock(), with_files(tmp_path, **{name: f"{FRONT}# Ours alone\n"})
    assert page(replaced, f"{path}.md") == "# Ours alone\n"
    assert [each.path for each in replaced.pages] == [each.path for each in plain.pages]
