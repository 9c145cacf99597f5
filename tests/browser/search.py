"""What people type into the search, and what it finds: asked in the field of a page, or of its worker alone."""

import json
import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any, NamedTuple

from playwright.sync_api import Browser

from tests.browser.conftest import visiting

# Types one after the other into the search field and gives the pages found for each, a page once, in their order. The
# theme answers every key; what was found before is taken away first, so that nothing old is read.
TYPE = """async all => {
  const field = document.querySelector(".md-search__input");
  const list = document.querySelector(".md-search-result__list");
  const note = document.querySelector(".md-search-result__meta");
  const changes = () => new Promise(done => {
    const watch = new MutationObserver(() => { watch.disconnect(); done(); });
    for (const one of [list, note]) watch.observe(one, { childList: true, characterData: true, subtree: true });
  });
  const isEmpty = () => note.textContent === "Type to start searching" && !list.children.length;
  const type = async (text, isDone) => {
    field.value = text;
    field.dispatchEvent(new KeyboardEvent("keyup"));
    while (!isDone()) await changes();
  };
  field.focus();
  const found = [];
  for (const words of all) {
    await type("", isEmpty);
    await type(words, () => !isEmpty());
    found.push([...list.children].map(item => item.querySelector("a").href.split(/[?#]/)[0]));
  }
  return found;
}"""

# Asks a search worker, as a page does; gives of each answer the pages found, and what was asked in place of the words.
ASK = """async ([source, index, asked]) => {
  const worker = new Worker(URL.createObjectURL(new Blob([source], { type: "text/javascript" })));
  const ask = message => new Promise(done => {
    worker.onmessage = event => done(event.data);
    worker.postMessage(message);
  });
  await ask({ type: 0, data: { ...index, options: {} } });
  const answers = [];
  for (const words of asked) {
    const { items, shown } = (await ask({ type: 2, data: words })).data;
    answers.push({ pages: items.map(([page]) => page.location.split("#")[0]), shown: shown ?? null });
  }
  worker.terminate();
  return answers;
}"""


class Query(NamedTuple):
    """Words, the pages of which one should be among the first found, and why they should."""

    kind: str
    words: str
    pages: tuple[str, ...]
    why: str


QUERIES = [
    Query(kind, words, tuple(right["pages"]), right["why"])
    for kind, queries in tomllib.loads(Path(__file__).with_name("queries.toml").read_text("utf-8")).items()
    for words, right in queries.items()
]


def typed(browser: Browser, address: str, words: Sequence[str]) -> dict[str, list[str]]:
    """The pages that the search field of the first page shows for each, as paths below the address."""
    with visiting(browser) as visit:
        visit.page.goto(f"{address}/index.html")
        shown = visit.page.evaluate(TYPE, words)
        assert visit.outside == []
        assert visit.errors == []
    return {asked: below(address, pages) for asked, pages in zip(words, shown, strict=True)}


def below(address: str, pages: Sequence[str]) -> list[str]:
    return [page.removeprefix(f"{address}/") for page in pages]


class Answer(NamedTuple):
    """The pages found, as paths of the site, and what was asked in place of the words; None where the words were."""

    pages: list[str]
    shown: str | None


def answers(browser: Browser, worker: str, index: dict[str, Any], words: Sequence[str]) -> dict[str, Answer]:
    """What a search worker answers to each; it needs no page."""
    with visiting(browser) as visit:
        found = visit.page.evaluate(ASK, [worker, index, words])
    return {asked: Answer(**answer) for asked, answer in zip(words, found, strict=True)}


def worker_of(site: Path) -> str:
    """The script of the search worker, as pages that are opened from disk have it."""
    text = (site / "js" / "search-worker.js").read_text("utf-8")
    return str(json.loads(text.removeprefix("window.searchWorker = ").rstrip(";\n")))


def index_of(site: Path) -> dict[str, Any]:
    index: dict[str, Any] = json.loads((site / "search" / "search_index.json").read_text("utf-8"))
    return index
