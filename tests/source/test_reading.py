"""Text and tables: on which line a key stands, and what is taken off quietly."""

import pytest

from generator.errors import SourceError
from generator.source.reading import LARGEST_FILE, decode, parse_page, parse_toml, printable, shown_key

SETTINGS = '''# A comment = 1

name = "a = b"
long = """
key = 3
"""
list = [
  1,
  2,
]

[shelf]
tens = 3
"quoted key" = 4

[a.b]
c.d = 5
'''


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("name",), 3),
        (("long",), 4),
        (("key",), 0),
        (("list",), 7),
        (("list", 1), 7),
        (("shelf",), 12),
        (("shelf", "tens"), 13),
        (("shelf", "quoted key"), 14),
        (("shelf", "nothing"), 12),
        (("a", "b"), 16),
        (("a", "b", "c", "d"), 17),
        ((), 0),
    ],
)
def test_the_line_of_a_key(path: tuple[str | int, ...], line: int) -> None:
    assert parse_toml(SETTINGS, "x.toml").line_of(path) == line


def test_a_very_long_text_costs_no_time() -> None:
    table = parse_toml(
        'a = 1\nb = """\n' + "\n" * 100_000 + '"""\n' + " " * 100_000 + "c = 2\n" + " " * 100_000, "x.toml"
    )
    assert table.values["c"] == 2
    assert (table.line_of(("a",)), table.line_of(("c",))) == (1, 100_004)


def test_the_largest_file_of_keys_is_read() -> None:
    text = "".join(f"k{number} = {number}\n" for number in range(LARGEST_FILE // 16))
    assert parse_toml(text, "x.toml").line_of(("k9999",)) == 10_000


def test_lists_become_tuples_all_the_way_down() -> None:
    assert parse_toml("a = [[1, 2], [3]]", "x.toml").values == {"a": ((1, 2), (3,))}


def test_byte_order_mark_and_windows_line_ends() -> None:
    assert decode(b"\xef\xbb\xbfa\r\nb\r\n", "x") == "a\nb\n"


@pytest.mark.parametrize("end", ["---\n", "---   \n", "---"])
def test_front_matter_and_body(end: str) -> None:
    table, body = parse_page(f"---\ntitle: A page\ntags: [x, y]\n{end}", "x.md")
    assert table.values == {"title": "A page", "tags": ("x", "y")}
    assert table.line_of(("tags",)) == 3
    assert body.strip() == ""


def test_a_value_in_front_matter_is_the_text_that_was_written() -> None:
    table, _ = parse_page("---\na: 2026-02-30\nb: [1, yes, null]\nc: '5'\nd:\n---\n", "x.md")
    assert table.values == {"a": "2026-02-30", "b": ("1", "yes", "null"), "c": "5", "d": ""}


def test_a_rule_in_the_body_is_not_front_matter() -> None:
    _, body = parse_page("---\na: 1\n---\n\nOne\n\n---\n\nTwo\n", "x.md")
    assert body == "One\n\n---\n\nTwo\n"


@pytest.mark.parametrize(
    "written",
    ["title: Grüße 🐝 #2", "a: #2", "a: b\n  c\t#2", "tags:\n  - room #3", "tags: [a, room #3]"],
)
def test_what_would_be_a_comment_behind_words_is_refused(written: str) -> None:
    """Who wrote them would never learn that they are nowhere to be seen."""
    line = written.count("\n") + 2
    with pytest.raises(SourceError, match=rf'^x\.md:{line}: is cut off at " #"; put the text in "quotes"$'):
        parse_page(f"---\n{written}\nboost: 1\n---\n", "x.md")


def test_other_number_signs_in_front_matter_are_taken() -> None:
    front = "order: 5 # first\nboost: 1.5 # more\nasks: true # a number\nreviewed: 2026-11-26 # by hand\n"
    front += "# A comment\na: 'b #2' # more\nc: d#2\ne:\n  # Another\n  - f\ng: >\n  h #2\n"
    table, _ = parse_page(f"---\n{front}---\n", "x.md")
    plain = {"order": "5", "boost": "1.5", "asks": "true", "reviewed": "2026-11-26"}
    assert table.values == plain | {"a": "b #2", "c": "d#2", "e": ("f",), "g": "h #2\n"}


def test_yaml_that_grows_without_end_is_refused() -> None:
    bomb = "---\na: &a [x]\n" + "".join(
        f"{b}: &{b} [*{a}, *{a}]\n" for a, b in zip("abcdefgh", "bcdefghi", strict=True)
    )
    with pytest.raises(SourceError, match=r"x\.md:2: has front matter with an anchor"):
        parse_page(bomb + "---\n", "x.md")


def test_how_keys_are_shown() -> None:
    assert shown_key(("shelf", "tens")) == "shelf.tens"
    assert shown_key(("tags", 2)) == "tags, item 3"
    assert shown_key(("ev\nil\u202e",)) == "ev\\nil\\u202e"


def test_what_is_shown_is_short_and_printable() -> None:
    assert printable("x" * 100) == "x" * 59 + "…"
    assert printable("\x1b[31m\udc80é") == "\\x1b[31m\\udc80é"
