"""The reader that tests use tells every tag with its place in the text."""

from tests.site.tags import line_at, tags


def test_gives_positions_and_bare_text() -> None:
    page = "<!doctype html>\n<title>A &amp; B</title>\n<P\nclass='a b'>x</P><script>'<b>'</script><!-- <p> -->"
    title, opening, end, script = tags(page)
    assert (title.name, title.inner) == ("title", "A &amp; B")
    assert (opening.name, opening.classes) == ("p", frozenset({"a", "b"}))
    assert page[opening.start : opening.end] == "<P\nclass='a b'>"
    assert (end.closes, page[end.start : end.end]) == (True, "</P>")
    assert (script.inner, page[script.start : script.end]) == ("'<b>'", "<script>'<b>'</script>")
    assert line_at(page, opening.start) == 3


def test_reads_a_stretch() -> None:
    page = "<p><b>x</b></p><i>y</i>"
    assert [page[tag.start : tag.end] for tag in tags(page, 3, 11)] == ["<b>", "</b>"]
