"""Whatever a school writes where words belong is shown as words: nothing in it runs, loads or changes the page."""

import json
import tomllib
from collections.abc import Iterator
from datetime import date
from html import escape
from itertools import cycle, islice
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from playwright.sync_api import Browser, Page

from generator import HANDBOOK
from generator.build.straight_line import Request, build
from tests.browser.conftest import visiting
from tests.browser.search import index_of
from tests.conftest import quiet
from tests.sampling import only_in_a_whole_run, sample

TEXTS: list[str] = tomllib.loads(Path(__file__).with_name("injections.toml").read_text("utf-8"))["texts"]
STEP = "as-it-lies"
SHORT = 40  # characters that every place has room for

# What would be code if it had come from a school; the theme has none of it either.
CODE_IN_THE_PAGE = """() => [...document.querySelectorAll("*")].flatMap(element => [...element.attributes]
  .filter(({name, value}) => name.startsWith("on") || /^\\s*(javascript|data|vbscript):/i.test(value))
  .map(({name, value}) => `${element.tagName} ${name}=${value}`))"""
OUR_FORMS = "[class^=md-], .ask, .print-this"
FOREIGN = f"math, object, embed, base, body style, iframe, form:not({OUR_FORMS}), meta[http-equiv=refresh], bdo"

# Waits until every image has loaded or failed, as those would that run something then.
IMAGES_HAVE_ENDED = """async () => {
  const ended = image => new Promise(done => ["load", "error"].forEach(how => image.addEventListener(how, done)));
  await Promise.all([...document.images].filter(image => !image.complete).map(ended));
}"""

PAGE = """# {{ heading }}

{% import "parts.md.jinja" as parts with context %}
{% call parts.table("own-table", cell) %}
{{ parts.heads([cell, "Two"]) }}
<tbody><tr><th scope="row">{{ cell }}</th><td>{{ cell }}</td></tr></tbody>
{% endcall %}

{% set shown = picture("cards", share(96, 3)) %}
<figure class="work">
<img src="{{ shown.src }}" width="10" height="10" alt="{{ alt }}">
<figcaption>{{ alt }}</figcaption>
</figure>
"""


class Case(NamedTuple):
    """A text, where a school wrote it, and a page on which it must be read as it was written."""

    place: str
    text: str
    page: str


class School:
    """A school's folder with a text of the list in every place that takes words."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.cases: list[Case] = []
        self._texts: dict[str, Iterator[str]] = {}

    def write(self) -> None:
        self._settings()
        self._step()
        for stock in sorted((HANDBOOK / "lessons" / STEP).glob("[0-9]*.toml")):
            self._lesson(stock)
        for number, _ in enumerate(TEXTS):
            self._page(f"our-room/page-{number}")

    def _say(self, place: str, page: str, most: int = 200, ending: str = "") -> str:
        texts = self._texts.setdefault(place, _all_texts(beginning_with=len(self._texts)))
        text = next(text for text in texts if len(text) <= most) + ending
        self.cases.append(Case(place, text, page))
        return text

    def _settings(self) -> None:
        roles = ("guide", "assistant", "bank_keeper", "substitute")
        page = "new-here/the-roles.html"
        name = self._say("the school's name", "index.html")
        self._toml("school.toml", {"name": name, "steps": [STEP], "groups": {"sizes": [2, 3]}})
        with (self.folder / "school.toml").open("a", encoding="utf-8") as settings:
            settings.write(
                "[roles]\n" + "".join(f"{role} = {json.dumps(self._say(role, page, SHORT))}\n" for role in roles)
            )

    def _step(self) -> None:
        step = tomllib.loads((HANDBOOK / "lessons" / STEP / "step.toml").read_text("utf-8"))
        page = f"lessons/{STEP}/index.html"
        for key in ("title", "short", "new", "choosing"):
            step[key] = self._say(f"a step's {key}", page, 30 if key == "short" else 80)
        step["ready"] = [self._say("who is ready for a step", page) for _ in range(3)]
        step["tags"] = [self._say("a step's other words", "reference/a-z.html", 60)]
        self._toml(f"lessons/{STEP}/step.toml", step)

    def _lesson(self, stock: Path) -> None:
        lesson = tomllib.loads(stock.read_text("utf-8"))
        page = f"lessons/{STEP}/{stock.stem}.html"
        for key in ("reason", "opening", "note"):
            lesson[key] = self._say(f"a lesson's {key}", page)
        lesson["tags"] = [self._say("a lesson's other words", "reference/a-z.html", 60)]
        self._toml(f"lessons/{STEP}/{stock.name}", lesson)

    def _page(self, path: str) -> None:
        page = f"{path}.html"
        front = {
            "title": self._say("a page's title", page, ending=f" ({path})"),
            "description": self._say("a page's description", ""),
            "order": 100,
            "tags": [self._say("a page's other words", "reference/a-z.html", 60)],
        }
        printed = [
            self._say(f"printed by a template in {where}", page) for where in ("a cell", "a heading", "a picture")
        ]
        sets = [
            f"{{% set {name} = {json.dumps(text)} %}}"
            for name, text in zip(("cell", "heading", "alt"), printed, strict=True)
        ]
        body = "\n".join([*sets, PAGE])
        lines = [f"{key}: {json.dumps(value)}" for key, value in front.items()]
        file = self.folder / "pages" / f"{path}.md"
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text("\n".join(["---", *lines, "reviewed: 2026-11-16", "---", body]), "utf-8")

    def _toml(self, path: str, values: dict[str, Any]) -> None:
        tables = {key: value for key, value in values.items() if isinstance(value, dict)}
        lines = [f"{key} = {_toml(value)}" for key, value in values.items() if key not in tables]
        for name, table in tables.items():
            lines += [f"[{name}]", *(f"{key} = {_toml(value)}" for key, value in table.items())]
        file = self.folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text("\n".join(lines) + "\n", "utf-8")


def _all_texts(beginning_with: int) -> Iterator[str]:
    """The list again and again; each place begins elsewhere."""
    return islice(cycle(TEXTS), beginning_with, None)


def _toml(value: object) -> str:
    return value.isoformat() if isinstance(value, date) else json.dumps(value)


class Built(NamedTuple):
    site: Path
    cases: list[Case]


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Built:
    folder = tmp_path_factory.mktemp("injection")
    school = School(folder / "school")
    school.write()
    build(Request(folder / "school", folder / "site", workshop=folder / "workshop"), quiet)
    return Built(folder / "site", school.cases)


def shown(page: Page) -> str:
    return " ".join(page.evaluate("document.body.textContent + ' ' + document.title").split())


def code_in(page: Page) -> list[str]:
    found = list(page.evaluate(CODE_IN_THE_PAGE))
    return [*found, *page.evaluate("what => [...document.querySelectorAll(what)].map(one => one.outerHTML)", FOREIGN)]


def test_every_text_was_written_somewhere(built: Built) -> None:
    assert set(TEXTS) - {case.text for case in built.cases} == set()


def test_a_title_stands_in_the_search_index_as_words(built: Built) -> None:
    docs = index_of(built.site)["docs"]
    titles = {entry["location"]: entry["title"] for entry in docs}
    written = {case.page: case.text for case in built.cases if case.place == "a step's title"}
    assert written
    assert {page: titles[page] for page in written} == {page: escape(text, False) for page, text in written.items()}


def test_nothing_runs_and_everything_is_shown_as_it_was_written(built: Built, chromium: Browser) -> None:
    name = next(case.text for case in built.cases if case.place == "the school's name")
    by_page: dict[str, list[Case]] = {}
    for case in built.cases:
        by_page.setdefault(case.page or "index.html", []).append(case)
    with visiting(chromium) as visit:
        for path, cases in sample(by_page.items(), 5):
            visit.page.goto((built.site / path).as_uri())
            _touch_everything(visit.page)
            assert visit.page.evaluate("window.hacked") is None, path
            assert code_in(visit.page) == [], path
            text = shown(visit.page)
            for case in cases:
                assert not case.page or " ".join(case.text.split()) in text, (path, case)
                if case.place == "a page's title":
                    assert visit.page.title() == f"{case.text} - {name}"
        assert visit.errors == []
        assert visit.outside == []


@only_in_a_whole_run
@pytest.mark.parametrize(
    "path", sample(["book.html", "lessons/index.html", f"lessons/{STEP}/cards.html", "new-here/index.html"], 2)
)
def test_nothing_runs_where_the_words_come_together(path: str, built: Built, chromium: Browser) -> None:
    with visiting(chromium) as visit:
        visit.page.goto((built.site / path).as_uri())
        _touch_everything(visit.page)
        assert visit.page.evaluate("window.hacked") is None
        assert code_in(visit.page) == []
        assert (visit.errors, visit.outside) == ([], [])


@pytest.mark.parametrize("words", sample(["page", "script", "tags", "heading", "folded", "danger"], 1))
def test_nothing_runs_in_what_is_found(words: str, built: Built, chromium: Browser) -> None:
    with visiting(chromium) as visit:
        visit.page.goto((built.site / "index.html").as_uri())
        assert visit.search(words)
        visit.page.evaluate(IMAGES_HAVE_ENDED)
        assert visit.page.evaluate("window.hacked") is None
        assert code_in(visit.page) == []
        assert (visit.errors, visit.outside) == ([], [])


def _touch_everything(page: Page) -> None:
    """Let the pointer pass over every element and toggle whatever folds, as handlers would need it."""
    page.evaluate("""() => {
      for (const element of document.querySelectorAll("*")) {
        for (const kind of ["mouseover", "focus", "toggle"]) element.dispatchEvent(new Event(kind))
      }
    }""")
