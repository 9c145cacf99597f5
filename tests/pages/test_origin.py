"""A fault in a finished page names what a person wrote, and the line where it stands."""

from pathlib import Path

import pytest

from generator.errors import Fault, SourceError
from generator.pages.authored.origin import faults_at_their_origin
from generator.source.library import load
from tests.source.cases import STOCK

FRONT = '---\ntitle: "Ours"\ndescription: "What our room does."\norder: 1\nreviewed: 2026-11-16\n---\n'


def told(folder: Path, file: str, key: str) -> str:
    """Where a fault at a key of a file of the site was made, for a school with one page and one note."""
    page = folder / "school" / "pages" / "when-it-goes-wrong" / "trays-differ.md"
    page.parent.mkdir(parents=True, exist_ok=True)
    page.write_text(f"{FRONT}# Ours\n\n[x](two.md#end)\n<table>\n[y]: <two.md?a&b>\n", "utf-8")
    note = folder / "school" / "notes" / "lessons" / "static" / "index.md"
    note.parent.mkdir(parents=True, exist_ok=True)
    note.write_text("Words\n\n{{ to('lessons/none.md') }}\n", "utf-8")
    with pytest.raises(SourceError) as raised, faults_at_their_origin(load(STOCK, folder / "school")):
        raise SourceError([Fault(file, 400, key, "is wrong", "mend it")])
    return str(raised.value).partition(";")[0]


@pytest.mark.parametrize(
    ("file", "key", "where"),
    [
        ("when-it-goes-wrong/trays-differ.html", 'href="two.html#end"', '9: href="two.html#end": is wrong'),
        ("when-it-goes-wrong/trays-differ.html", "table", "10: table: is wrong"),
        ("when-it-goes-wrong/trays-differ.html", 'href="two.md?a&b"', '11: href="two.md?a&b": is wrong'),
        ("when-it-goes-wrong/trays-differ.md", "", " is wrong"),
    ],
)
def test_on_an_authored_page_the_line_is_found(file: str, key: str, where: str, tmp_path: Path) -> None:
    assert told(tmp_path, file, key) == f"school/pages/when-it-goes-wrong/trays-differ.md:{where}"


def test_a_very_long_address_is_shortened_once_its_line_is_found(tmp_path: Path) -> None:
    page, key = "when-it-goes-wrong/trays-differ", f'href="two.html#end{"(" * 4000}"'
    said = told(tmp_path, f"{page}.html", key)
    assert said == f"school/pages/{page}.md: {key[:99]}…: is wrong"


def test_a_note_is_told_from_the_page_that_it_stands_on(tmp_path: Path) -> None:
    note = "school/notes/lessons/static/index.md:3"
    assert told(tmp_path, "lessons/static/index.html", 'href="../none.md"').startswith(f"{note}: ")


@pytest.mark.parametrize(
    ("file", "toml"),
    [
        ("lessons/static/8448-among-4.html", "lessons/static/8448-among-4.toml"),
        ("lessons/static/index.html", "lessons/static/step.toml"),
        ("lessons/static/cards.html", "lessons/static/step.toml"),
        ("lessons/static/plans.html", "lessons/static/step.toml"),
    ],
)
def test_pages_that_the_program_writes_name_their_toml(file: str, toml: str, tmp_path: Path) -> None:
    assert told(tmp_path, file, 'src="x.svg"') == f'stock/{toml}: src="x.svg": is wrong'


def test_a_heading_that_a_school_took_away_is_named_on_its_page(tmp_path: Path) -> None:
    said = told(tmp_path, "lessons/static/8448-among-4.html", 'href="../../when-it-goes-wrong/trays-differ.html#look"')
    where = "school/pages/when-it-goes-wrong/trays-differ.md"
    assert said == f'{where}: id="look": is missing, and other pages lead to it'


def test_what_no_person_wrote_stays_as_it_is(tmp_path: Path) -> None:
    assert told(tmp_path, "css/school.css", "url(x)") == "css/school.css:400: url(x): is wrong"
