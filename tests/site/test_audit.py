"""The audit finds each kind of fault when it is planted, with its page, and nothing else."""

from pathlib import Path
from typing import NamedTuple

import pytest

from generator.errors import Fault
from generator.site.audit.audit import audit, html_files
from generator.site.audit.page import read_page
from generator.site.html import inline_scripts, parse
from generator.site.policy import script_hash

KNOWN = "document.title"
TABLE = """<table><caption>Rounds</caption>
<tr><th scope="col">Place</th><th scope="col">Rounds</th></tr>
<tr><th scope="row">tens</th><td>2</td></tr></table>"""


def page(title: str, body: str = "") -> str:
    """A page without faults."""
    return f"""<!doctype html>
<html lang="en"><head><title>{title}</title>
<link rel="stylesheet" href="{{up}}look/style.css"><script>{KNOWN}</script></head>
<body><h1 id="start">{title}</h1>
{body}
</body></html>"""


def write(site: Path, body: str = "", path: str = "steps/first.html") -> None:
    """A tiny site with a home, a lesson and the page for unknown addresses; `body` stands in one of them."""
    files = {
        "index.html": page("Home", '<a href="steps/first.html#start">first</a>').format(up=""),
        "steps/first.html": page("First").format(up="../"),
        "404.html": page("Not here", '<a href="/school/index.html">home</a>').format(up="/school/"),
        "look/style.css": "p { color: red }",
        "look/icon.svg": "<svg/>",
    }
    if body:
        up = {"index.html": "", "404.html": "/school/"}.get(path, "../")
        files[path] = page(
            "Not here" if path == "404.html" else "First", body.replace("{", "{{").replace("}", "}}")
        ).format(up=up)
    for name, text in files.items():
        (site / name).parent.mkdir(exist_ok=True)
        (site / name).write_text(text, "utf-8")


def faults(site: Path) -> list[Fault]:
    """Each once, by page and key."""
    allowed = set(map(script_hash, inline_scripts(parse(f"<script>{KNOWN}</script>"))))
    return sorted(set(audit(site, [read_page(allowed, file) for file in html_files(site)], base="/school/")))


class Planted(NamedTuple):
    name: str
    body: str
    says: str
    path: str = "steps/first.html"


PLANTED = [
    Planted("page not there", '<p>\n<a href="secnd.html">x</a>', "steps/secnd.html, which is not there"),
    Planted("hidden characters", '<a href="x%1b%0Ay.html">x</a>', r"leads to steps/x\x1b\ny.html, which is not there"),
    Planted("file not there", '<img src="x.svg" alt="x">', 'src="x.svg": leads to steps/x.svg'),
    Planted(
        "one of a set not there", '<img src="../look/icon.svg" srcset="../look/icon.svg 1x, b.png 2x" alt="x">', "b.png"
    ),
    Planted("anchor not there", '<a href="../index.html#end">x</a>', "no anchor 'end' on index.html"),
    Planted("anchor not here", '<p>\n\n<a href="#end">x</a>', "no anchor 'end' on steps/first.html"),
    Planted("anchor in other letters", '<a href="#Start">x</a>', "no anchor 'Start'"),
    Planted("file in other letters", '<a href="../Index.html">x</a>', "write index.html"),
    Planted("Markdown of a page", '<a href="../index.md">x</a>', "within HTML write .html in place of .md"),
    Planted("folder", '<a href="../steps/">x</a>', "names a folder"),
    Planted("top folder", '<a href="..">x</a>', "names a folder"),
    Planted("empty address", '<a href="">x</a>', "empty address"),
    Planted("absolute address", '<a href="/school/index.html">x</a>', "is absolute"),
    Planted("out of the site", '<a href="../../other.html">x</a>', "leads out of the handbook"),
    Planted("relative where nothing is", '<a href="index.html">x</a>', "does not begin with /school/", path="404.html"),
    Planted("not there from anywhere", '<a href="/school/no.html">x</a>', "leads to no.html", path="404.html"),
    Planted("script address", '<a href=" java\nscript:alert(1)">x</a>', "script in place of an address"),
    Planted("file address", '<a href="file:///c:/x">x</a>', "uses file:"),
    Planted("outside image", '<img src="https://example.org/a.png" alt="x">', "request to another host"),
    Planted("outside image, no scheme", '<img src="//example.org/a.png" alt="x">', "how to reach the other host"),
    Planted("outside link, no scheme", '<a href="//example.org/">x</a>', "how to reach the other host"),
    Planted(
        "outside set", '<img src="../look/icon.svg" srcset="http://example.org/a.png 2x" alt="x">', "request to another"
    ),
    Planted("outside script", '<script src="https://example.org/a.js"></script>', "request to another host"),
    Planted(
        "outside style sheet", '<link rel="stylesheet" href="https://example.org/a.css">', "request to another host"
    ),
    Planted(
        "canonical and style sheet",
        '<link rel="canonical stylesheet" href="https://example.org/a.css">',
        "request to another",
    ),
    Planted("early connection", '<link rel="preconnect" href="https://example.org">', "request to another host"),
    Planted("outside frame", '<iframe src="https://example.org/"></iframe>', "request to another host"),
    Planted("outside form", '<form action="https://example.org/"></form>', "request to another host"),
    Planted("outside ping", '<a href="#start" ping="https://example.org/">x</a>', "request to another host"),
    Planted("outside drawing", '<svg><use xlink:href="https://example.org/a.svg#b"/></svg>', "request to another host"),
    Planted("unknown script", "<p>\n<script>alert(1)</script>", "content policy does not know it"),
    Planted("handler", '<p onclick="go()">x</p>', "onclick: is a script"),
    Planted("style attribute", '<p style="color: red">x</p>', "style: is an attribute"),
    Planted("style element", "<style>p { color: red }</style>", "style: is an element"),
    Planted("image without alternative", '<img src="../look/icon.svg">', "no alternative text"),
    Planted("image with an empty one", '<img src="../look/icon.svg" alt="">', "no alternative text"),
    Planted("one id twice", '<p id="a">\n<p id="a">', 'id="a": is on this page twice'),
    Planted("table without caption", TABLE.replace("<caption>Rounds</caption>", ""), "has no caption"),
    Planted("table with an empty caption", TABLE.replace("Rounds</caption>", " </caption>"), "has no caption"),
    Planted("table without row headers", TABLE.replace('th scope="row"', "td"), "has no row headers"),
    Planted("table without column headers", TABLE.replace('th scope="col"', "td"), "has no column headers"),
    Planted("tag of several lines", '<p>\n<a\n  class="x"\n  href="gone.html">x</a>', "which is not there"),
    Planted(
        "table around a right one",
        f"<table><caption>x</caption><tr><th scope='col'>x<td>{TABLE}</table>",
        "row headers",
    ),
    Planted("header without scope", TABLE.replace("<td>2", "<th>2"), "does not say what it names"),
]

ALLOWED = [
    '<a href="https://www.w3.org/TR/WCAG22/">a public standard</a>',
    '<a href="mailto:office@school.example">write</a>',
    '<a href="#">up</a> <a href="#top">up</a> <a href="?q=tens">search</a>',
    '<p id="a:b">x</p><a href="first.html#a%3Ab">x</a><a name="old"></a><a href="#old">x</a>',
    '<a href="first.html#number=4327&amp;children=6">what a script reads</a>',
    '<a href="../look/icon.svg#part">a part of a picture</a>',
    '<img src="../look/icon.svg" alt="" role="presentation">',
    '<img src="data:image/gif;base64,R0lGODlhAQABAAAAACw=" alt="a dot">',
    '<link rel="canonical" href="https://school.example/handbook/">',
    '<script type="application/json">{"not": "a program"}</script>',
    f"<script>{KNOWN}</script>",
    '<!-- <img src="gone.png"> --><svg xmlns="http://www.w3.org/2000/svg"><title>First</title></svg>',
    TABLE,
    '<table role="presentation"><tr><td>x</td></tr></table>',
]


def test_a_site_without_faults_passes(tmp_path: Path) -> None:
    write(tmp_path)
    assert faults(tmp_path) == []


@pytest.mark.parametrize("planted", PLANTED, ids=[planted.name for planted in PLANTED])
def test_finds_what_is_planted(planted: Planted, tmp_path: Path) -> None:
    write(tmp_path, planted.body, planted.path)
    (fault,) = faults(tmp_path)
    assert fault.file == planted.path
    assert planted.says in str(fault)
    assert fault.remedy


@pytest.mark.parametrize("body", ALLOWED)
def test_lets_pass_what_is_right(body: str, tmp_path: Path) -> None:
    write(tmp_path, body)
    assert faults(tmp_path) == []


@pytest.mark.parametrize(
    ("whole", "without", "key"),
    [
        ('<html lang="en">', "<html>", "lang"),
        ("<title>First</title>", "", "title"),
        ('<h1 id="start">First</h1>', '<p id="start"></p><h1> </h1>', "h1"),
    ],
)
def test_a_page_needs_language_title_and_heading(whole: str, without: str, key: str, tmp_path: Path) -> None:
    write(tmp_path)
    first = tmp_path / "steps/first.html"
    assert whole in first.read_text("utf-8")
    first.write_text(first.read_text("utf-8").replace(whole, without), "utf-8")
    (fault,) = faults(tmp_path)
    assert (fault.file, fault.key, fault.problem) == ("steps/first.html", key, "is missing")


def test_two_pages_must_not_have_one_title(tmp_path: Path) -> None:
    write(tmp_path)
    (tmp_path / "steps/second.html").write_text(page("First").format(up="../"), "utf-8")
    (fault,) = faults(tmp_path)
    assert fault.file == "steps/second.html"
    assert "steps/first.html" in fault.problem


def test_tells_every_fault_of_every_page(tmp_path: Path) -> None:
    write(tmp_path, '<p style="a">\n<a href="gone.html">x</a><img src="../look/icon.svg">')
    (tmp_path / "steps/second.html").write_text("<h1>x</h1>", "utf-8")
    assert [fault.file for fault in faults(tmp_path)] == [*["steps/first.html"] * 3, *["steps/second.html"] * 2]
