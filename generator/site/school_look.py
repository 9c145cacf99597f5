"""A school's own logo and colours, as files among the pages that take the place of the theme's own."""

from pathlib import Path

from jinja2 import Environment, StrictUndefined

from generator.source.theme import Colours, Theme

STOCK_LOGO = "images/trays.svg"
_SCHOOL_LOGO = "images/school.png"
_STYLE_SHEET = "css/school.css"

_TEMPLATE = Environment(undefined=StrictUndefined, trim_blocks=True, keep_trailing_newline=True).from_string(
    Path(__file__).with_name("school.css.jinja").read_text("utf-8")
)


def logo(theme: Theme) -> str:
    """Return the path of the logo inside the site."""
    return _SCHOOL_LOGO if theme.logo else STOCK_LOGO


def files(theme: Theme) -> dict[str, bytes]:
    """Return the files to stage among the pages, by path; none for a school that keeps the stock look."""
    staged = {}
    if theme.colours != Colours():
        staged[_STYLE_SHEET] = _TEMPLATE.render(dict(theme.colours)).encode()
    if theme.logo:
        staged[_SCHOOL_LOGO] = theme.logo
    return staged
