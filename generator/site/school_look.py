"""A school's own logo and colours, as files among the pages that take the place of the theme's own."""

from generator.source.theme import Theme

STOCK_LOGO = "images/trays.svg"
_SCHOOL_LOGO = "images/school.png"
_STYLE_SHEET = "css/school.css"

# A school's colours are checked against white, so white is what they are shown with.
_HEADER = """\
:root {{
  --walnut: {colour};
}}

[data-md-color-scheme] {{
  --head: {colour};
  --head-ink: #ffffff;
  --header-focus: #ffffff;
  --md-primary-bg-color: #ffffff;
}}
"""
_LINKS = """\
[data-md-color-scheme="default"] {{
  --cream: #ffffff;
  --panel: #ffffff;
  --warn-panel: #ffffff;
  --md-default-bg-color: #ffffff;
  --md-typeset-a-color: {colour};
  --md-accent-fg-color: {colour};
  --focus: {colour};
}}
"""


def logo(theme: Theme) -> str:
    """Return the path of the logo inside the site."""
    return _SCHOOL_LOGO if theme.logo else STOCK_LOGO


def files(theme: Theme) -> dict[str, bytes]:
    """Return the files to stage among the pages, by path; none for a school that keeps the stock look."""
    chosen = ((_HEADER, theme.colours.header), (_LINKS, theme.colours.links))
    rules = [rule.format(colour=colour) for rule, colour in chosen if colour]
    staged = {_STYLE_SHEET: "\n".join(rules).encode()} if rules else {}
    if theme.logo:
        staged[_SCHOOL_LOGO] = theme.logo
    return staged
