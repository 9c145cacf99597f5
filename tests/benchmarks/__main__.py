"""How fast the handbook is: `python -m tests.benchmarks`, or with names of parts after it.

Prints one table a part: what was measured, how much it is, what was aimed at. It asserts nothing: a table is for
people, who know what else the machine was doing. Most aims are ratios of two times from the same run.
"""

import sys
from collections.abc import Callable, Iterator

from tests.benchmarks import building, growing, parts, searching
from tests.benchmarks.measuring import Measured

PARTS: dict[str, Callable[[], Iterator[Measured]]] = {
    "engine": parts.engine,
    "commands": parts.commands,
    "figures": parts.figures,
    "build": building.stock_handbook,
    "growth": growing.many_lessons,
    "search": searching.search,
}


def main(names: list[str]) -> None:
    unknown = set(names) - set(PARTS)
    if unknown:
        sys.exit(f"There is no part {', '.join(sorted(unknown))}; there are {', '.join(PARTS)}.")
    for name in names or PARTS:
        print(f"\n{name}\n{'-' * len(name)}")
        for measured in PARTS[name]():
            print(measured.line, flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
