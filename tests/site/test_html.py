"""The page reader is held against the parser of the standard library."""

from __future__ import annotations

from html import escape
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.site.html import closing, line_at, tags, telling, words

LETTERS = "ab é÷/<>&;=\"'#0"
NAMES = st.sampled_from(["a", "p", "td", "h1", "img", "svg", "my-part"])
ATTRIBUTES = st.dictionaries(
    st.sampled_from(["id", "href", "class", "data-x", "alt", "hidden", "xlink:href", "Title"]),
    st.text(LETTERS, max_size=12),
    max_size=3,
)


class Reference(HTMLParser):
    """Records what the standard library sees."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.seen: list[tuple[str, bool, dict[str, str]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append((tag, False, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        self.seen.append((tag, True, {}))


@st.composite
def pages(draw: st.DrawFn) -> str:
    """Well-formed pieces in any order: tags with quoted attributes, text, comments, scripts."""
    pieces = []
    for _ in range(draw(st.integers(0, 12))):
        match draw(st.sampled_from(["tag", "text", "comment", "script"])):
            case "tag":
                written = "".join(
                    f" {name}={quote}{escape(value)}{quote}"
                    for name, value in draw(ATTRIBUTES).items()
                    for quote in draw(st.sampled_from(["'", '"']))
                )
                pieces.append(f"<{draw(NAMES)}{written}>")
                pieces.append(f"</{draw(NAMES)}>")
            case "text":
                pieces.append(escape(draw(st.text(LETTERS, max_size=10)), quote=False))
            case "comment":
                pieces.append("<!-- <p id='no'> -->")
            case "script":
                pieces.append("<script type='x'>if (1 < 2) { '<p>' }</script>")
    return "".join(pieces)


@given(pages())
def test_sees_the_same_tags_as_the_standard_library(page: str) -> None:
    reference = Reference()
    reference.feed(page)
    reference.close()
    expected = [seen for seen in reference.seen if seen[:2] != ("script", True)]
    assert [(tag.name, tag.closes, dict(tag.attributes)) for tag in tags(page)] == expected


@given(pages())
def test_passing_over_plain_tags_leaves_all_others(page: str) -> None:
    told = [
        tag
        for tag in tags(page)
        if tag.inner or (tag.name == "p" if tag.closes else tag.source or tag.name in ("p", "script"))
    ]
    assert list(tags(page, which=telling(opening=("p",), closing=("p",)))) == told


def test_gives_positions_and_bare_text() -> None:
    page = "<!doctype html>\n<title>A &amp; B</title>\n<P\nclass='a b'>x</P><script>'<b>'</script>"
    title, opening, end, script = tags(page)
    assert title.inner == "A &amp; B"
    assert opening.name == "p"
    assert opening.classes == frozenset({"a", "b"})
    assert page[opening.start : opening.end] == "<P\nclass='a b'>"
    assert (end.closes, page[end.start : end.end]) == (True, "</P>")
    assert script.inner == "'<b>'"
    assert line_at(page, opening.start) == 3


@pytest.mark.parametrize(
    "written", ["href=../a.html#b", "href = '../a.html#b'", 'href="../a.html#b"', "x href=../a.html#b y"]
)
def test_reads_every_way_to_write_an_attribute(written: str) -> None:
    (tag,) = tags(f"<a {written}>")
    assert tag.attributes["href"] == "../a.html#b"


def test_finds_the_closing_tag_of_nested_elements() -> None:
    page = "<div><div>x</div><p></div></p></div></div>"
    end = closing(page, next(tags(page)))
    assert end is not None
    assert end.start == page.index("</div></p>")
    assert closing("<div><p>", next(tags("<div><p>"))) is None


def test_words_leaves_out_tags_scripts_and_comments() -> None:
    assert (
        words("<h1>5,230 <em>among</em>\n four<script>1</script><!-- no --> &amp; more</h1>")
        == "5,230 among four & more"
    )
