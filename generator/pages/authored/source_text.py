"""Words as somebody wrote them into a file, so that what is wrong with them can be found there."""

from __future__ import annotations

from dataclasses import dataclass

_IN_MARKDOWN = {"<img": "![", "<th": "|"}


@dataclass(frozen=True)
class SourceText:
    """Markdown as it stands in a file from a line on; `text` is empty where no line of the file can be named."""

    text: str
    file: str
    first_line: int = 1

    def line_of(self, sought: str) -> int:
        """The first line that holds some text, or what Markdown writes for it, whatever its case; 0 if none does."""
        lines = self.text.casefold().split("\n") if sought else []
        for wanted in (sought.casefold(), _IN_MARKDOWN.get(sought)):
            for at, line in enumerate(lines, self.first_line):
                if wanted and wanted in line:
                    return at
        return 0
