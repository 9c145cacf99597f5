"""The day of the build, written into finished pages, so that what MkDocs renders does not change from day to day.

The theme's template leaves two marks: `<!--built-->`, and `<!--due DAY|BEFORE|AFTER-->`, of which one text stays.
"""

import re
from collections.abc import Mapping
from datetime import UTC, date, datetime

from generator.errors import HandbookError

_BUILT = "<!--built-->"
_DUE = re.compile(r"<!--due ([0-9-]*)\|([^|]*)\|(.*?)-->")


def build_date(environ: Mapping[str, str]) -> date:
    """Return today in UTC, or the day that SOURCE_DATE_EPOCH states.

    The variable holds whole seconds since 1970 in ASCII digits (reproducible-builds.org, specification of
    SOURCE_DATE_EPOCH, which asks to refuse anything else).
    """
    text = environ.get("SOURCE_DATE_EPOCH")
    if text is None:
        return datetime.now(UTC).date()
    if not re.fullmatch("[0-9]{1,10}", text):  # to the year 2286; some systems know no later ones than 3000
        raise HandbookError(
            f"SOURCE_DATE_EPOCH: {text[:40]!r} is not a number of seconds since 1970; "
            "give digits only, such as 1767225600, or unset it"
        )
    return datetime.fromtimestamp(int(text), UTC).date()


def dated(text: str, built: date) -> str:
    """A page with both marks filled in: the day of the build, and whether the review was due before it."""
    today = built.isoformat()
    text = _DUE.sub(lambda due: due[3] if due[1] < today else due[2], text)
    return text.replace(_BUILT, today)
