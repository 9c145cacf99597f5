"""Plain text tables for a terminal."""

from collections.abc import Sequence

from generator.engine.places import UNITS
from generator.engine.sharing import Sharing

Cells = Sequence[str]


def counted(number: int, what: str) -> str:
    """A number of things: '1 tray', '12 trays'."""
    return f"{number:,} {what}{'' if number == 1 else 's'}"


def division_line(sharing: Sharing, ribbons: bool) -> str:
    """'5,230 among 4: each has 1,307, 2 left over'; `ribbons` says whether they were asked for."""
    one = "one who stands for one has" if sharing.mat[UNITS] else "the answer is"
    whose = one if sharing.ribbons else "each has"
    among = f"for {sharing.divisor:,} with ribbons" if ribbons else f"among {sharing.divisor:,}"
    left = f"{sharing.remainder:,}" if sharing.remainder else "nothing"
    return f"{sharing.dividend:,} {among}: {whose} {sharing.quotient:,}, {left} left over"


def text_column(title: str, cells: Cells) -> list[str]:
    """A column of words under its title, flush left: a list of lines of one width."""
    return _flush_left([title, *cells])


def number_columns(title: str, rows: Sequence[Cells]) -> list[str]:
    """Columns of numbers under one title, each flush right; every row has the same number of cells."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    lines = (" ".join(cell.rjust(width) for cell, width in zip(row, widths, strict=True)) for row in rows)
    return _flush_left([title, *lines])


def beside(*columns: Sequence[str]) -> list[str]:
    """Columns of one height, side by side."""
    return ["   ".join(line).rstrip() for line in zip(*columns, strict=True)]


def _flush_left(lines: Cells) -> list[str]:
    width = max(map(len, lines))
    return [line.ljust(width) for line in lines]
