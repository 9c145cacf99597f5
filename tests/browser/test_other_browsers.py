"""Firefox and WebKitGTK open the handbook from disk like Chromium: pages, search, today's number, paper, no complaints.

What does not run there, and why:
- WebKitGTK tells no lines of its console, so a script in the page hears what is said there and which errors rise.
- WebKitGTK's driver cannot print, so its sheets are not counted; in both, the rules for paper take the place of those
  for a screen and are held against Chromium's.
- Accessibility: axe-core looks at the same pages in Chromium (test_accessible.py).
- All searches, and the policy of a server on every page: some searches here show that the worker is the same
  (test_search.py), and the pages for paper come from the server with its policy.
"""

import base64
import os
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from generator.engine.sharing import Sharing, share
from tests.browser.conftest import visiting
from tests.browser.other_browsers import BROWSERS, Other
from tests.browser.search import QUERIES, TYPE, below, typed
from tests.browser.test_movement_by_movement import ALL_MOVEMENTS, SHAPES, pieces, states, trays
from tests.browser.test_movement_by_movement import address as address_today
from tests.browser.test_today import TODAY
from tests.sampling import only_in_a_whole_run, spread

pytestmark = only_in_a_whole_run

LOOK = """async () => {
  const { scrollWidth, clientWidth } = document.documentElement;
  const heading = document.querySelector("h1").getBoundingClientRect().height > 0;
  return { heading, wider: scrollWidth - clientWidth, heard };
}"""

WATCH = """window.heard = [];
for (const kind of ["error", "securitypolicyviolation"])
  addEventListener(kind, event => heard.push(event.message ?? event.violatedDirective ?? event.target.src), true);
for (const kind of ["error", "warn"]) console[kind] = (...words) => heard.push(words.join(" "));"""


@pytest.fixture(scope="module", params=BROWSERS)
def other(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Other]:
    programs, started = BROWSERS[request.param]
    if not all(map(shutil.which, programs)):
        pytest.skip(f"no {request.param} found; install {' and '.join(programs)}")
    with started(tmp_path_factory.mktemp(request.param)) as running:
        yield running


@pytest.fixture(scope="module")
def watched(site: Path, kinds: list[str], tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the site in which a page of every kind notes what goes wrong in it, from its beginning."""
    copy = tmp_path_factory.mktemp("watched") / "site"
    shutil.copytree(site, copy, copy_function=os.link)
    (copy / "watch.js").write_text(WATCH, "utf-8")
    for page in kinds:
        text = (copy / page).read_text("utf-8")
        (copy / page).unlink()
        watch = f'<script src="{"../" * page.count("/")}watch.js"></script>'
        (copy / page).write_text(text.replace("<head>", f"<head>{watch}", 1), "utf-8")
    return copy


def test_every_kind_of_page_opens_and_fits_and_does_not_complain(other: Other, watched: Path, kinds: list[str]) -> None:
    for page in kinds:
        other.open((watched / page).as_uri())
        assert other.run(LOOK) == {"heading": True, "wider": 0, "heard": []}, page
    other.run('async () => console.error("said")')
    assert other.run(LOOK)["heard"] == ["said"], "the watch has missed a message"
    if other.console:
        assert [line for line in other.console() if watched.as_uri() in line and "said" not in line] == []


def test_the_search_answers_as_in_chromium(other: Other, chromium: Browser, site: Path) -> None:
    words = [query.words for query in spread(QUERIES, 15)]
    other.open((site / "index.html").as_uri())
    shown = [below(site.as_uri(), pages) for pages in other.run(TYPE, words)]
    assert shown == list(typed(chromium, site.as_uri(), words).values())


def test_what_is_not_found_is_shown_a_way(other: Other, site: Path) -> None:
    note = 'async () => document.getElementById("search-note").textContent.trim()'
    other.open((site / "index.html").as_uri())
    assert other.run(TYPE, ["choaking"]) != [[]]
    assert other.run(note) == "Nothing for choaking. Showing choking."
    assert other.run(TYPE, ["zzzzzz"]) == [[]]
    assert "A-Z of situations" in other.run(note)


def on_paper(other: Other, address: str, folder: Path) -> str:
    """The text of a page's sheets, each ended by a form feed."""
    if other.printed is None:
        pytest.skip("this browser cannot be told to print")
    other.open(address)
    paper = folder / "paper.pdf"
    paper.write_bytes(base64.b64decode(other.printed()))
    return subprocess.run(["pdftotext", "-layout", paper, "-"], capture_output=True, text=True, check=True).stdout


def test_a_lesson_on_paper_has_its_words_and_not_the_buttons(other: Other, site: Path, tmp_path: Path) -> None:
    lesson = next(page for page in sorted(site.glob("lessons/left-over/*-among-*.html")))
    text = on_paper(other, lesson.as_uri(), tmp_path)
    assert "left over" in text
    assert "Emergency" not in text.splitlines()[0]
    assert "Type to start searching" not in text


@pytest.mark.parametrize("sheets", ["plans", "cards"])
def test_what_the_address_names_is_printed_alone(sheets: str, other: Other, site: Path, tmp_path: Path) -> None:
    text = on_paper(other, f"{(site / 'lessons' / 'left-over' / sheets).as_uri()}.html#4486-among-4", tmp_path)
    assert "4,486 among four" in text
    assert text.count("\f") == 1


def test_what_an_address_leads_to_stays_where_it_is(other: Other, site: Path) -> None:
    """WebKit does not scroll along when a part above grows, as one does that is laid out late."""
    for part, name in (("not-right", "not-right"), ("movement=7", "movement-by-movement")):
        other.open("about:blank")
        other.open(f"{(site / TODAY).as_uri()}#number=7391&children=6&{part}")
        script = """async (name) => {
          while (document.getAnimations().some(({ animationName }) => animationName === "far-away"))
            await new Promise((done) => setTimeout(done, 50));
          return document.getElementById(name).getBoundingClientRect().top;
        }"""
        assert 0 <= other.run(script, name) <= 150


@pytest.mark.parametrize("name", ["when-it-goes-wrong/emergency", "new-here/practice", "new-here/the-rules"])
def test_no_heading_stands_alone_at_the_foot_of_a_sheet(name: str, other: Other, site: Path, tmp_path: Path) -> None:
    """Firefox does not keep a heading with what follows it."""
    sheets = on_paper(other, f"{(site / name).as_uri()}.html", tmp_path).split("\f")
    headings = other.run("async () => [...document.querySelectorAll('h2, h3, h4, h5')].map(one => one.textContent)")
    feet = [sheet.strip().splitlines()[-1].strip() for sheet in sheets if sheet.strip()]
    assert len(feet) > 1
    assert set(feet).isdisjoint(heading.strip() for heading in headings)


# What a reader does with a page, and waiting until it shows something.
HANDS = """
const byId = id => document.getElementById(id);
const text = id => byId(id).textContent;
const until = async isSo => { while (!isSo()) await new Promise(requestAnimationFrame); };
const enter = (id, value) => {
  byId(id).value = value;
  byId(id).dispatchEvent(new Event("input", { bubbles: true }));
};
const press = label => document.querySelector(`[aria-label="${label}"]`).click();
const key = name =>
  document.activeElement.dispatchEvent(new KeyboardEvent("keydown", { key: name, bubbles: true, cancelable: true }));
"""


def hands(steps: str) -> str:
    return f"async (...given) => {{ {HANDS} {steps} }}"


def test_todays_number_answers_and_tells_what_is_not_right(other: Other, watched: Path) -> None:
    """Worked by hand: 6 x 721 = 4,326 and 5 x 865 = 4,325; the slip as in test_today.py."""
    other.open((watched / TODAY).as_uri() + "#number=4327&children=6")
    steps = """
      const each = [text("answer-each")];
      enter("ask-children", "5");
      await until(() => text("answer-each") !== each[0]);
      each.push(text("answer-each"), location.hash);
      enter("ask-children", "six");
      await until(() => text("ask-children-fault"));
      location.hash = "#number=4817&children=4";
      await until(() => text("answer-name") === "4,817 among four");
      press("Tray 3: one less");
      press("Left over, or still in the middle: one more");
      await until(() => document.querySelector("#not-right-told .cause"));
      return { each, cause: document.querySelector("#not-right-told .cause").textContent, hash: location.hash, heard };
    """
    seen = other.run(hands(steps))
    assert seen["each"] == [
        "Each has 721, and 1 is left over.",
        "Each has 865, and 2 are left over.",
        "#number=4327&children=5",
    ]
    assert "Give one unit bead from what is left over to the tray that reads 1,203." in seen["cause"]
    assert seen["hash"].endswith("&seen=1204,1204,1203,1204&left=2")
    assert seen["heard"] == []


def test_what_is_gone_back_to_is_as_it_was_left(other: Other, watched: Path) -> None:
    """WebKit brings a page back with its answer and empties the fields that asked for it."""
    other.open((watched / TODAY).as_uri() + "#number=3432&children=12&ribbons")
    steps = """
      byId("shelf-form").parentElement.open = true;
      enter("shelf-units", "30");
      await until(() => text("shelf-needs").includes("30 here"));
    """
    other.run(hands(steps))
    other.ask("url", {"url": (watched / "index.html").as_uri()})
    other.ask("back", {})
    steps = """
      const fields = ["ask-number", "ask-for-ten", "ask-for-one", "shelf-tens", "shelf-units"];
      const values = () => fields.map(id => byId(id).value).join();
      await until(() => values().startsWith("3432,"));
      const there = { values: values(), ribbons: byId("ask-ribbons").checked, heard: window.heard };
      byId("shelf-form").reset();
      return there;
    """
    assert other.run(hands(steps)) == {"values": "3432,1,2,45,30", "ribbons": True, "heard": []}


def test_more_addresses_than_a_browser_takes_leave_the_answers_right(other: Other, watched: Path) -> None:
    other.open((watched / TODAY).as_uri() + "#number=4327&children=6")
    steps = """
      byId("movement-by-movement").focus();
      for (let times = 0; times < 150; times += 1) key(times % 2 ? "ArrowLeft" : "ArrowRight");
      enter("ask-number", "5230");
      await until(() => text("answer-name") === "5,230 among six");
      const movement = text("movement-now");
      document.querySelector("#present-it").click();
      await until(() => document.documentElement.matches(".presenting"));
      key("Escape");
      await until(() => !document.documentElement.matches(".presenting"));
      return [movement, ...heard];
    """
    assert other.run(hands(steps)) == ["Set out: 5 thousands, 2 hundreds and 3 tens. Nothing has been shared yet."]


def test_going_forward_from_what_is_presented_leads_to_what_was_not_right(other: Other, watched: Path) -> None:
    other.open((watched / TODAY).as_uri() + "#number=5230&children=4&present-hundreds")
    steps = """
      document.querySelector(".to-not-right").click();
      await until(() => scrollY > 0);
      history.back();
      await until(() => document.documentElement.matches(".presenting"));
      history.forward();
      await until(() => !document.documentElement.matches(".presenting"));
      await until(() => Math.abs(byId("not-right").getBoundingClientRect().top) < innerHeight / 2);
      return heard;
    """
    assert other.run(hands(steps)) == []


def test_find_me_a_number_finds_what_the_command_finds(other: Other, watched: Path) -> None:
    other.open((watched / TODAY).as_uri() + "#number=5230&children=5")
    steps = """
      const before = text("found");
      byId("find-shelf").checked = false;
      enter("find-kind", "exchange-tens");
      await until(() => text("found") !== before);
      const links = [...byId("found").querySelectorAll("a")];
      const shown = links.map(link => Number(link.textContent.split(" ")[0].replace(",", "")));
      const { numbers } = sharing.choose(5, { exchange_from: ["tens"], remainder: "none", zeros: "none" });
      return { shown, best: numbers.slice(0, shown.length), heard };
    """
    seen = other.run(hands(steps))
    assert len(seen["shown"]) > 3
    assert seen["shown"] == seen["best"]
    assert seen["heard"] == []


@pytest.mark.parametrize("sharing", [share(4327, 6), share(5230, 4), share(3432, 12, ribbons=True)])
def test_every_movement_shows_what_the_engine_says(sharing: Sharing, other: Other, watched: Path) -> None:
    other.open(address_today(watched, sharing, 0))
    room = states(sharing)
    seen = other.run(f"async given => ({ALL_MOVEMENTS})(given)", [len(room), SHAPES])
    assert [moment["middle"] for moment in seen] == [pieces(state.middle) for state in room]
    assert [moment["trays"] for moment in seen] == [trays(sharing, state) for state in room]
    assert all(moment["columns"] == seen[0]["columns"] for moment in seen)
    steps = """
      document.querySelector("[data-go=back]").focus();
      key("Home");
      await until(() => location.hash.endsWith("&movement=0"));
      key("ArrowRight");
      await until(() => location.hash.endsWith("&movement=1"));
      return heard;
    """
    assert other.run(hands(steps)) == []


def test_a_lesson_is_presented_a_part_at_a_time(other: Other, watched: Path, kinds: list[str]) -> None:
    lesson = next(page for page in kinds if "among" in page)
    other.open((watched / lesson).as_uri())
    steps = """
      const shown = () => [...document.querySelectorAll(".lesson > *, .places > *")]
        .filter(part => part.matches(".part") && part.getClientRects().length).map(part => part.id);
      const plain = shown();
      const went = [];
      document.querySelector(".present-it").click();
      await until(() => document.documentElement.matches(".presenting"));
      went.push(shown());
      for (const name of ["ArrowRight", "ArrowLeft"]) {
        const before = location.hash;
        key(name);
        await until(() => location.hash !== before && shown().join() !== went.at(-1).join());
        went.push(shown());
      }
      key("Escape");
      await until(() => !document.documentElement.matches(".presenting"));
      return { plain, went, after: shown(), heard };
    """
    seen = other.run(hands(steps))
    assert seen["went"][0] == seen["went"][2] == ["present-set-out"]
    assert len(seen["went"][1]) == 1
    assert seen["plain"] == seen["after"]
    assert {"present-set-out", *seen["went"][1]} < set(seen["plain"])
    assert seen["heard"] == []


# Puts the rules for paper in the place of those for a screen; no medium is called "tty" any more.
PUT_ON_PAPER = """async () => {
  const lists = rules =>
    [...rules].flatMap(rule => [...(rule.media ? [rule.media] : []), ...lists(rule.cssRules ?? [])]);
  for (const list of [...document.styleSheets].flatMap(sheet => [sheet.media, ...lists(sheet.cssRules)]))
    list.mediaText = list.mediaText.replace(/print|screen/g, medium => (medium === "print" ? "all" : "tty"));
}"""

# Of everything that has a place in the page: what it is, and how it looks; but for what browsers dress themselves.
LOOKS = """async () => {
  await Promise.allSettled(document.getAnimations().map(animation => animation.finished));
  const seen = [...document.querySelectorAll("body, body :not(input, button, select)")]
    .filter(part => part.getClientRects().length && !part.closest("svg, details"));
  return seen.map(part => {
    const { color, backgroundColor, display, fontSize } = getComputedStyle(part);
    const size = parseFloat(fontSize).toFixed(1);
    return [part.localName, part.className, color, backgroundColor, display, size].join(" | ");
  });
}"""


def test_the_styles_for_paper_are_those_of_chromium(
    other: Other, address: str, chromium: Browser, kinds: list[str]
) -> None:
    width, height = other.run("async () => [innerWidth, innerHeight]")
    with visiting(chromium, viewport={"width": width, "height": height}) as visit:
        visit.page.emulate_media(media="print")
        for page in spread(kinds, 6):
            other.open(address + page)
            other.run(PUT_ON_PAPER)
            visit.page.goto(address + page)
            assert other.run(LOOKS) == visit.page.evaluate(LOOKS), page
