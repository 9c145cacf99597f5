"""Style sheets load nothing but files of the built site. A school brings none, so builds do not look for it."""

import re
from pathlib import Path

CSS_ADDRESS = re.compile(
    r"""/\*.*?\*/|url\(\s*(?:"([^"]*)"|'([^']*)'|([^)]*?))\s*\)|@import\s+(?:"([^"]*)"|'([^']*)')""",
    re.DOTALL | re.IGNORECASE,
)

COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
SELECTORS = re.compile(r"[^{};]+(?={)")
COMMA = re.compile(r",\s*\n\s*")  # between selectors, each of which has its line


def test_every_address_leads_to_a_file_beside_it(site: Path) -> None:
    sheets = sorted(site.rglob("*.css"))
    assert len(sheets) > 5
    for sheet in sheets:
        for match in CSS_ADDRESS.finditer(sheet.read_text("utf-8")):
            address = next((part.strip() for part in match.groups() if part), "")
            if address and not address.startswith(("data:", "#")):
                assert (sheet.parent / address.partition("#")[0]).is_file(), (sheet.name, match[0])


def test_what_an_older_browser_does_not_know_leaves_out_no_other_selector(site: Path) -> None:
    """One unknown selector has the whole list ignored; `:has` came to the last browser at the end of 2023 (MDN)."""
    lists = [
        selectors.strip()
        for sheet in sorted((site / "css").glob("*.css"))
        for selectors in SELECTORS.findall(COMMENT.sub("", sheet.read_text("utf-8")))
    ]
    with_has = [selectors for selectors in lists if ":has(" in selectors and not selectors.startswith("@")]
    assert len(with_has) > 20
    assert [selectors for selectors in with_has if not all(":has(" in one for one in COMMA.split(selectors))] == []
