"""Style sheets load nothing but files of the built site. A school brings none, so builds do not look for it."""

import re
from pathlib import Path

CSS_ADDRESS = re.compile(
    r"""/\*.*?\*/|url\(\s*(?:"([^"]*)"|'([^']*)'|([^)]*?))\s*\)|@import\s+(?:"([^"]*)"|'([^']*)')""",
    re.DOTALL | re.IGNORECASE,
)


def test_every_address_leads_to_a_file_beside_it(site: Path) -> None:
    sheets = sorted(site.rglob("*.css"))
    assert len(sheets) > 5
    for sheet in sheets:
        for match in CSS_ADDRESS.finditer(sheet.read_text("utf-8")):
            address = next((part.strip() for part in match.groups() if part), "")
            if address and not address.startswith(("data:", "#")):
                assert (sheet.parent / address.partition("#")[0]).is_file(), (sheet.name, match[0])
