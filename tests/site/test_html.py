"""Pages become trees, whatever a page leaves out or holds besides."""

import pytest

from generator.site.html import inline_scripts, parse, words


def test_a_page_has_a_root_a_head_and_a_body_whatever_it_leaves_out() -> None:
    root = parse('<!doctype html>\n<title>A &amp; B</title>\n<P\nclass="a b">x</P>')
    assert (root.tag, root.findtext("head/title")) == ("html", "A & B")
    paragraph = root.find("body/p")
    assert paragraph is not None
    assert paragraph.get("class") == "a b"


@pytest.mark.parametrize("page", ["", " ", "<!doctype html>", "<!-- nothing -->", "\0"])
def test_a_page_of_nothing_is_a_page(page: str) -> None:
    assert parse(page).tag == "html"


@pytest.mark.parametrize(
    "written", ["href=../a.html#b", "href = '../a.html#b'", 'href="../a.html#b"', "x HREF=../a.html#b y"]
)
def test_reads_every_way_to_write_an_attribute(written: str) -> None:
    link = parse(f"<a {written}>").find(".//a")
    assert link is not None
    assert link.get("href") == "../a.html#b"


def test_words_leaves_out_tags_and_comments() -> None:
    page = "<h1>5,230 <em>among</em>\n four<!-- no --><?no?> &amp;&nbsp; more é</h1>"
    assert words(parse(page)) == "5,230 among four & more é"


def test_scripts_from_files_and_data_are_not_inline() -> None:
    page = """<script>1 < 2 && "<b>"</script><SCRIPT type=" Module ">2</SCRIPT><script src="a.js"></script>
    <script type="application/json">{}</script><!-- <script>3</script> -->"""
    assert [script.text for script in inline_scripts(parse(page))] == ['1 < 2 && "<b>"', "2"]
