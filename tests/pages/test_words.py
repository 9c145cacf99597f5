"""The built pages use the words of the room, and in one situation they all advise the same.

`words.toml` holds the words that pages do not use, `situations.toml` the situations and their advice.
"""

import re
import tomllib
from fnmatch import fnmatch
from pathlib import Path
from typing import Any

import pytest
from lxml import html

from tests.pages.reading import Read, read_pages

HERE = Path(__file__).parent
WORDS = tomllib.loads((HERE / "words.toml").read_text("utf-8"))["not"]
SITUATIONS = tomllib.loads((HERE / "situations.toml").read_text("utf-8"))["situation"]


@pytest.fixture(scope="module")
def pages(site: Path) -> dict[str, Read]:
    return read_pages(site)


def with_surroundings(found: re.Match[str]) -> str:
    return found.string[max(0, found.start() - 40) : found.end() + 40]


@pytest.mark.parametrize("entry", WORDS, ids=lambda entry: entry["word"].split("|")[0])
def test_a_word_that_pages_do_not_use(entry: dict[str, Any], pages: dict[str, Read]) -> None:
    word = re.compile(rf"\b(?:{entry['word']})\b", re.IGNORECASE)
    used = [
        f"{name}: {with_surroundings(found)} (rather: {entry['instead']})"
        for name, page in pages.items()
        if not any(fnmatch(name, pattern) for pattern in entry.get("but", ()))
        for text in (*page.around, page.text)
        for found in word.finditer(text)
    ]
    assert used == []


@pytest.mark.parametrize(("word", "name"), [(entry["word"], name) for entry in WORDS for name in entry.get("but", ())])
def test_a_page_that_may_use_a_word_uses_it(word: str, name: str, pages: dict[str, Read]) -> None:
    used = re.compile(rf"\b(?:{word})\b", re.IGNORECASE)
    excused = [page for path, page in pages.items() if fnmatch(path, name)]
    assert any(used.search(text) for page in excused for text in (*page.around, page.text))


@pytest.mark.parametrize("situation", SITUATIONS, ids=lambda situation: situation["name"])
def test_every_page_that_speaks_of_a_situation_gives_its_advice_or_leads_to_it(
    situation: dict[str, Any], pages: dict[str, Read]
) -> None:
    speaks, advice = (re.compile(situation[key], re.IGNORECASE) for key in ("speaks", "advice"))
    spoken_of = [(name, found) for name, page in pages.items() for found in speaks.finditer(page.text)]
    assert len({name for name, _ in spoken_of}) >= situation["fewest"]
    silent = [
        f"{name}: {with_surroundings(found)}"
        for name, found in spoken_of
        if not advice.search(beside(found, situation)) and situation["page"] not in {name, *pages[name].links}
    ]
    assert silent == []


def beside(found: re.Match[str], situation: dict[str, Any]) -> str:
    """Where the advice must stand: on the page, or from where it speaks of the situation on."""
    return found.string[found.start() :][: situation["within"]] if "within" in situation else found.string


@pytest.mark.parametrize("situation", SITUATIONS, ids=lambda situation: situation["name"])
def test_no_page_advises_otherwise(situation: dict[str, Any], pages: dict[str, Read]) -> None:
    never = re.compile(situation["never"], re.IGNORECASE)
    found = [
        f"{name}: {with_surroundings(match)}" for name, page in pages.items() for match in never.finditer(page.text)
    ]
    assert found == []


def test_wherever_one_bead_is_missing_in_all_a_lesson_and_its_plan_say_stop_first(site: Path) -> None:
    """With both causes: the bank gave nine or the number was laid out short, and a bead was lost."""
    rows = {
        page: [
            " ".join(row.text_content().split())
            for row in html.parse(str(page)).getroot().xpath("//tr[th] | //li[h3]")
            if row.xpath("string(th | h3)").strip().endswith(". 1 too few in all")
        ]
        for page in (site / "lessons").rglob("*.html")
    }
    assert sum(map(len, rows.values())) > 100
    for page, told in rows.items():
        for row in told:
            assert "Stop, and count all unit beads" in row, page
            assert "A unit bead was lost" in row, page
