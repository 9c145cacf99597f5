"""Run a command line in this process, as `python -m generator` would."""

import sys
from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from typing import NamedTuple
from unittest.mock import patch

from generator.__main__ import run


class Ran(NamedTuple):
    code: int
    out: str
    err: str


def run_command(*arguments: object) -> Ran:
    """The exit code and what was printed. Every argument is turned into text."""
    out, err = StringIO(), StringIO()
    with patch.object(sys, "argv", ["generator", *map(str, arguments)]), redirect_stdout(out), redirect_stderr(err):
        code = run()
    return Ran(code, out.getvalue(), err.getvalue())
