"""Our scripts as pages load them: without comment lines and indentation, a third of what a reader waits for."""

from __future__ import annotations

import re

FOLDER = "js/"
_COMMENT = re.compile(r"^[ \t]*(?://[^\n]*|/\*\*(?:(?!\*/).)*\*/)[ \t]*\n", re.MULTILINE | re.DOTALL)
_INDENTATION = re.compile(r"^[ \t]+", re.MULTILINE)


def lean(script: str) -> str:
    """A script in which no text goes over several lines; a test holds all of ours to that."""
    return _INDENTATION.sub("", _COMMENT.sub("", script))
