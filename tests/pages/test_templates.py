"""What a template may use, and the one line that is said of what it may not."""

import tomllib
from datetime import date
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from jinja2.exceptions import SecurityError
from markdown import markdown

from generator.errors import Fault
from generator.pages.writing.template_faults import template_fault
from generator.pages.writing.writer import Writer
from generator.source.school import School

CASES = tomllib.loads(Path(__file__).with_name("templates.toml").read_text("utf-8"))
WRITER = Writer(School())


def fill(template: str, **names: Any) -> str:
    return WRITER.render_text(template, "section/page.md", names, "page.md")[0]


def fault(template: str) -> Fault | None:
    """What is said of a template that begins on line 10 of its file."""
    try:
        fill(template)
    except Exception as error:
        return template_fault(error, "page.md", 10)
    return None


@pytest.mark.parametrize("case", CASES["refused"], ids=lambda case: case["template"][:40])
def test_a_fault_in_a_template_is_one_line(case: dict[str, str]) -> None:
    assert str(fault(case["template"])) == case["says"]


def test_of_a_date_only_itself_is_told() -> None:
    """Not today's: two builds of the same files would differ."""
    assert fill("{{ day.year }}-{{ day.month }}", day=date(2026, 10, 1)) == "2,026-10"
    with pytest.raises(SecurityError, match="'today'"):
        fill("{{ day.today() }}", day=date(2026, 10, 1))


@pytest.mark.parametrize("depth", [40, 5000])
def test_braces_and_loops_may_not_lie_too_deep(depth: int) -> None:
    for template in (
        "{{ " + "(" * depth * 10 + ")" * depth * 10 + " }}",
        "{% for x in 'x' %}" * depth + "{% endfor %}" * depth,
    ):
        told = fault(template)
        assert told
        assert str(told).isprintable()


def test_what_templates_are_for() -> None:
    template = """{% set s = share(5230, 4) %}{{ s.quotient }} {{ school.roles.guide }} {{ school.shelf.owned.trays }}
{{ (s.stages | first).movements | length }} {{ picture("layout", s).src }} {{ to("new-here/index.md") }}
{{ 12 * 12 }} {{ 2 ** 10 }} {{ "ab" * 2 }}"""
    assert fill(template).split() == [
        *("1,307", "guide", "12", "4", "../figures/5230-among-4-layout.svg", "../new-here/index.md", "144", "1,024"),
        "abab",
    ]


def test_what_stands_between_values_is_whole_also_where_it_is_escaped() -> None:
    assert (
        fill("""{{ [to("a.md"), "b", "c"] | join(" & ") }} {{ ["d", "e"] | join("-") }}""")
        == "../a.md &amp; b &amp; c d-e"
    )


@pytest.mark.parametrize(
    ("template", "shown"),
    [
        ("Our rule. {# ask Ana #}\n\n- one", "Our rule. \n\n- one"),
        ("{{ 1 }}{#- ask -#}\n\nTwo", "1Two"),
        ("One\n  {# ask Ana #}\nTwo", "One\nTwo"),
        ("{% if true %}{# always #}\nOne{% endif %}", "One"),
    ],
)
def test_a_comment_takes_its_line_with_it_where_it_stands_alone(template: str, shown: str) -> None:
    assert fill(template) == shown


@pytest.mark.parametrize(
    ("words", "shown"),
    [
        ("<script>window.hacked = 1</script>", "&lt;script&gt;window.hacked = 1&lt;/script&gt;"),
        ("[x](javascript:alert(1))", "&#91;x&#93;(javascript:alert(1))"),
        ("**b** _i_ `c`", "&#42;&#42;b&#42;&#42; &#95;i&#95; &#96;c&#96;"),
        ("{{ 7 * 7 }}", "&#123;&#123; 7 &#42; 7 &#125;&#125;"),
        ('" onclick="x', "&quot; onclick=&quot;x"),
        ("{: onclick=x }", "&#123;: onclick=x &#125;"),
        ("2024. A year", "2024&#46; A year"),
        ("12) Twelve\n 7. Seven", "12&#41; Twelve\n&#32;7&#46; Seven"),
    ],
)
def test_values_are_words_whatever_is_in_them(words: str, shown: str) -> None:
    assert fill("{{ words }}", words=words) == shown


def test_a_number_at_the_start_of_a_value_stays_a_number() -> None:
    shown = markdown(fill("{{ words }}", words="2024. A year in beads"))
    assert unescape(shown) == "<p>2024. A year in beads</p>"


@pytest.mark.parametrize("function", ["to", "href"])
def test_addresses_are_printed_so_that_a_markdown_reader_takes_them(function: str) -> None:
    template = f"[x]({{{{ {function}('section/the-room.md#the-bank') }}}})"
    ending = "md" if function == "to" else "html"
    assert fill(template) == f"[x](the-room.{ending}#the-bank)"
    assert fill(f"{{{{ {function}('section/a (b).md') }}}}") == f"a%20%28b%29.{ending}"
