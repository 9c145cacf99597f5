"""The house stands: imports go down only, nothing heavy is loaded early, and no file grows too long."""

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
GENERATOR = ROOT / "generator"

# What each part of the house may import from the generator, besides its own modules.
LAYERS = {
    "errors": set[str](),
    "engine": {"errors"},
    "source": {"engine", "errors"},
    "words": {"", "engine", "errors"},
    "figures": {"engine", "words"},
    "pages": {"", "engine", "errors", "figures", "source", "words"},
    "site": {"", "errors", "source"},
    "build": {"", "errors", "figures", "pages", "site", "source"},
    "commands": {"", "build", "engine", "errors", "pages", "site", "source", "words"},
    "__main__": {"commands", "errors"},
}
# What the rooms of `pages` may import of one another.
WITHIN_PAGES = {
    "writing": {"writing"},
    "authored": {"authored", "other_processes", "writing"},
    "kinds": {"kinds", "writing"},
}
LONGEST_FILE = 300
MODULES = sorted(GENERATOR.rglob("*.py"))


def part_of(module: Path) -> str:
    relative = module.relative_to(GENERATOR)
    return relative.parts[0].removesuffix(".py")


def imported(module: Path) -> Iterator[str]:
    """Every module that a file imports by name, wherever in it."""
    for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            if node.module == "generator":
                yield from (f"generator.{alias.name}" for alias in node.names)
            else:
                yield node.module


def parts_imported(module: Path) -> set[str]:
    names = (name.split(".") for name in imported(module) if name.split(".")[0] == "generator")
    parts = {name[1] if len(name) > 1 else "" for name in names}
    return {"" if part in ("VERSION", "PROJECT", "HANDBOOK") else part for part in parts}


def test_modules_are_found() -> None:
    assert len(MODULES) > 40


@pytest.mark.parametrize("module", MODULES, ids=lambda path: path.relative_to(GENERATOR).as_posix())
def test_imports_go_down_only(module: Path) -> None:
    part = part_of(module)
    if part == "__init__":
        assert not parts_imported(module)
        return
    assert parts_imported(module) <= LAYERS[part] | {part}


@pytest.mark.parametrize("room", WITHIN_PAGES)
def test_what_pages_are_written_with_knows_no_page(room: str) -> None:
    names = [name.split(".") for module in (GENERATOR / "pages" / room).glob("*.py") for name in imported(module)]
    rooms = {name[2] for name in names if name[:2] == ["generator", "pages"] and len(name) > 2}
    assert rooms <= WITHIN_PAGES[room]


def test_every_way_that_is_open_is_used() -> None:
    used: dict[str, set[str]] = {}
    for module in MODULES:
        used.setdefault(part_of(module), set()).update(parts_imported(module))
    by_name = {"__main__": {"commands"}}  # the commands are loaded when they are called
    open_and_unused = {part: open_to - used[part] - by_name.get(part, set()) for part, open_to in LAYERS.items()}
    assert {part: ways for part, ways in open_and_unused.items() if ways} == {}


@pytest.mark.parametrize("module", sorted((GENERATOR / "engine").glob("*.py")), ids=lambda path: path.name)
def test_the_engine_needs_nothing_but_python(module: Path) -> None:
    outside = {name.split(".")[0] for name in imported(module)} - {"generator"}
    assert outside <= sys.stdlib_module_names


@pytest.mark.parametrize("module", MODULES, ids=lambda path: path.relative_to(GENERATOR).as_posix())
def test_no_file_is_too_long(module: Path) -> None:
    assert len(module.read_text(encoding="utf-8").splitlines()) <= LONGEST_FILE
