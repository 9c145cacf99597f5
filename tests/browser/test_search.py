"""Search leads from the words people type to the page that helps, in a browser, from disk."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from playwright.sync_api import Browser

from generator.build import Request, build
from tests.browser.conftest import visiting

QUERIES = tomllib.loads(Path(__file__).with_name("queries.toml").read_text("utf-8"))
FIRST, NEAR = 3, 10

# The page's own worker and index, asked as the search field asks it; a page counts once, whatever its sections.
ASK = """async ([index, queries]) => {
  const slow = [];
  new PerformanceObserver(list => slow.push(...list.getEntries().map(entry => entry.duration)))
    .observe({ type: "longtask" });
  const worker = new Worker("search.js");
  const ask = message => new Promise(done => {
    worker.onmessage = event => done(event.data);
    worker.postMessage(message);
  });
  await ask({ type: 0, data: { ...index, options: { suggest: false } } });
  const found = [];
  for (const query of queries) {
    const answer = await ask({ type: 2, data: query });
    found.push(answer.data.items.map(item => item[0].location.split("#")[0]));
  }
  return { found, longest: Math.max(0, ...slow) };
}"""


class Asked(NamedTuple):
    """A query, the pages that may answer it, and the place of the first of them among the results, from 1."""

    query: str
    pages: list[str]
    rank: int


@pytest.fixture(scope="module")
def answers(chromium: Browser, tmp_path_factory: pytest.TempPathFactory) -> tuple[list[Asked], float]:
    """Every query asked of the stock handbook, and the longest task of the page meanwhile, in milliseconds."""
    site = tmp_path_factory.mktemp("search") / "site"
    build(Request(out=site), say=lambda line: None)
    listed = [(query, entry["pages"]) for kind in QUERIES.values() for query, entry in kind.items()]
    for _, pages in listed:
        assert all((site / f"{page}.html").is_file() for page in pages), pages
    with visiting(chromium) as visit:
        visit.page.goto((site / "index.html").as_uri())
        index = json.loads((site / "search" / "search_index.json").read_text("utf-8"))
        answer: dict[str, Any] = visit.page.evaluate(ASK, [index, [query for query, _ in listed]])
        assert not visit.outside
    asked = [
        Asked(query, pages, _rank([place.removesuffix(".html") for place in places], pages))
        for (query, pages), places in zip(listed, answer["found"], strict=True)
    ]
    return asked, float(answer["longest"])


def _rank(places: list[str], pages: list[str]) -> int:
    return min((places.index(page) + 1 for page in pages if page in places), default=len(places) + NEAR + 1)


def test_there_are_queries_for_every_kind_of_page() -> None:
    assert sum(map(len, QUERIES.values())) >= 80
    assert len(QUERIES) >= 8


def test_the_right_page_is_among_the_first(answers: tuple[list[Asked], float]) -> None:
    asked, _ = answers
    late = [one for one in asked if one.rank > FIRST]
    assert len(late) <= 0.05 * len(asked), late
    assert [one for one in asked if one.rank > NEAR] == []


def test_searching_keeps_the_page_free(answers: tuple[list[Asked], float]) -> None:
    """No task over 100 milliseconds while all queries are asked: the work is the worker's."""
    assert answers[1] <= 100
