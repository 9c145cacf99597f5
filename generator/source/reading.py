"""From bytes to text, and from text to tables that know on which line each key stands.

Only `read_bytes` touches the disk. Everything here raises SourceError, with the file's shown name.
"""

import json
import re
import stat
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import islice
from pathlib import Path
from typing import Any

import yaml

from generator.errors import Fault, SourceError
from generator.source.fields import unprintable

LARGEST_FILE = 256 * 1024
LONGEST_LINE = 10_000
# The library's compiled reader takes a tenth of the time; it is left out where the library could not be compiled.
YAML_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_TEXTS_LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
_MOST_FAULTS = 10  # named for one file that cannot be read
_FENCE = "---"
_ONE_KEY = r"""[\w-]+|"[^"]*"|'[^']*'"""
_TOML_KEY = re.compile(rf"\s*(?:(\[+)\s*)?((?:{_ONE_KEY})(?:\s*\.\s*(?:{_ONE_KEY}))*)\s*[\]=]")
_AROUND_A_TEXT = re.compile("\"\"\"|'''")
_OTHER_SPACE = r"[\u00a0\u2000-\u200b\u202f\u2060\ufeff]"
_TOML_FAULTS: list[dict[str, str]] = tomllib.loads(Path(__file__).with_suffix(".toml").read_text("utf-8"))["faults"]

KeyPath = tuple[str | int, ...]


@dataclass(frozen=True)
class Table:
    """The keys and values of one file, lists as tuples, and the line of every key that is known.

    typed: whether a value says of which kind it is; in front matter all are text, as it is written
    """

    file: str
    values: dict[str, Any]
    lines: Mapping[KeyPath, int]
    typed: bool = True

    def line_of(self, path: KeyPath) -> int:
        """The line of a key or of the nearest thing around it; 0 where none is known."""
        known = (self.lines[path[:length]] for length in range(len(path), 0, -1) if path[:length] in self.lines)
        return next(known, 0)

    def fault(self, path: KeyPath, problem: str, remedy: str) -> Fault:
        return Fault(self.file, self.line_of(path), shown_key(path), problem, remedy)


def shown_key(path: KeyPath) -> str:
    """How a fault names a key: 'shelf.tens', or 'tags, item 3' within a list."""
    parts = (f", item {part + 1}" if isinstance(part, int) else f".{printable(part)}" for part in path)
    return "".join(parts).removeprefix(".")


def printable(words: str, most: int = 60) -> str:
    """Text on one line that any terminal can show, shortened where it is long."""
    short = words if len(words) <= most else words[: most - 1] + "…"
    return "".join(character if character.isprintable() else ascii(character)[1:-1] for character in short)


def refused(file: str, problem: str, remedy: str, line: int = 0, key: str = "") -> SourceError:
    """The error of one fault, to be raised."""
    return SourceError([Fault(file, line, key, problem, remedy)])


def read_bytes(path: Path, file: str, largest: int = LARGEST_FILE) -> bytes:
    """The bytes of an ordinary file that is not too large."""
    try:
        found = path.lstat()
        if stat.S_ISLNK(found.st_mode):
            raise refused(file, "is a link", "put the file itself there")
        if not stat.S_ISREG(found.st_mode):
            raise refused(file, "is not an ordinary file", "put a file there, or take it away")
        if found.st_size > largest:
            raise refused(file, f"has {found.st_size // 1024} KB", f"make it smaller: {largest // 1024} KB at most")
        return path.read_bytes()
    except OSError as error:
        raise refused(file, f"cannot be read ({error.strerror})", "check that it is there and may be read") from None


def decode(data: bytes, file: str) -> str:
    """UTF-8 text with plain line ends; a byte order mark and Windows line ends are quietly taken off."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise refused(file, "is saved as UTF-16", "save it as UTF-8")
    try:
        text = data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise refused(file, f"byte 0x{data[error.start]:02X} is not UTF-8 text", "save it as UTF-8", line) from None
    if faults := list(islice(_odd_lines(text, file), _MOST_FAULTS)):
        raise SourceError(faults)
    return text


def _odd_lines(text: str, file: str) -> Iterator[Fault]:
    """A fault for each line that is too long or holds a hidden character."""
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            yield Fault(file, number, "", f"has a line of {len(line)} characters", "break it into shorter lines")
        elif hidden := unprintable(line.replace("\t", " ")):
            yield Fault(file, number, "", f"holds the hidden character {hidden}", "take it out")


def parse_toml(text: str, file: str) -> Table:
    """The table of a TOML file. Raises SourceError with its faults, at most _MOST_FAULTS (`_toml_faults`)."""
    try:
        values = _frozen(tomllib.loads(text))
    except tomllib.TOMLDecodeError:
        raise SourceError(islice(_toml_faults(text, file), _MOST_FAULTS)) from None
    except ValueError:
        long = (number for number, line in enumerate(text.split("\n"), 1) if re.search(r"\d[\d_]{4000}", line))
        raise refused(file, "holds a number with too many digits", "write a shorter number", next(long, 0)) from None
    except RecursionError:
        raise refused(file, "has lists within lists without end", "take the inner lists out") from None
    return Table(file, values, _toml_lines(text))


def has_front_matter(text: str) -> bool:
    return text.partition("\n")[0].rstrip() == _FENCE


def parse_page(text: str, file: str) -> tuple[Table, str]:
    """The front matter and the Markdown body of a page."""
    _, *rest = text.split("\n")
    if not has_front_matter(text):
        raise refused(file, "does not begin with front matter", 'begin with "---", "title: ..." and so on, "---"', 1)
    end = next((number for number, line in enumerate(rest) if line.rstrip() == _FENCE), None)
    if end is None:
        raise refused(file, "has front matter without an end", 'close it with a line "---"', 1)
    return _parse_yaml("\n".join(["", *rest[:end], ""]), file), "\n".join(rest[end + 1 :]).strip("\n") + "\n"


def read_toml(path: Path, file: str) -> Table:
    return parse_toml(decode(read_bytes(path, file), file), file)


def as_toml(value: object) -> str:
    """A value as TOML writes it. JSON writes text, numbers, truth and lists just so."""
    return value.isoformat() if isinstance(value, date) else json.dumps(value, ensure_ascii=False)


def _frozen(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _frozen(inner) for key, inner in value.items()}
    return tuple(map(_frozen, value)) if isinstance(value, list) else value


def _toml_faults(text: str, file: str) -> Iterator[Fault]:
    """What the TOML reader complains about, in plain words: a line that is wrong by itself is emptied to read on."""
    lines = text.rstrip("\n").split("\n")
    complaint = _toml_complaint(text)
    while complaint:
        found = re.search(r"at line (\d+)", complaint)
        line = int(found[1]) if found else _last_text_opened(lines)
        written = lines[line - 1] if line <= len(lines) else ""
        told = f"{complaint}\n{written}"
        kind = next(kind for kind in _TOML_FAULTS if re.search(kind["pattern"], told))
        key = re.match(r"\s*([A-Za-z0-9_.-]+)\s*[=:]", written)
        yield Fault(file, line, printable(key[1]) if key else "", kind["problem"], kind["remedy"])
        if not _toml_complaint(written):
            return
        lines[line - 1] = ""
        complaint = _toml_complaint("\n".join((*lines, "")))


def _last_text_opened(lines: Sequence[str]) -> int:
    """The last line with an opening or closing triple quote; the last line of all if there is none."""
    numbers = range(len(lines), 0, -1)
    return next((number for number in numbers if len(_AROUND_A_TEXT.findall(lines[number - 1])) % 2), len(lines))


def _toml_complaint(text: str) -> str:
    """The message of the TOML reader about a text; "" if it accepts it, or fails for a reason other than syntax."""
    try:
        tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        return str(error) if isinstance(error, tomllib.TOMLDecodeError) else ""
    return ""


def _toml_lines(text: str) -> dict[KeyPath, int]:
    """The line of every key and table of a valid file, without what looks like one inside a text of several lines."""
    lines: dict[KeyPath, int] = {}
    table: KeyPath = ()
    in_a_text = False
    for number, line in enumerate(text.split("\n"), 1):
        if not in_a_text and (found := _TOML_KEY.match(line)):
            named = tuple(part.strip("\"'") for part in re.findall(_ONE_KEY, found[2]))
            table = named if found[1] else table
            path = named if found[1] else table + named
            for length in range(1, len(path) + 1):
                lines.setdefault(path[:length], number)
        in_a_text ^= len(_AROUND_A_TEXT.findall(line)) % 2 == 1
    return lines


def _parse_yaml(text: str, file: str) -> Table:
    """The keys of a page's front matter; `text` begins with an empty line for the opening fence."""
    remedy = 'write one `key: value` a line, text with a colon in "quotes"'
    loader, rows = _TEXTS_LOADER(text), text.split("\n")
    try:
        for event in yaml.parse(text, _TEXTS_LOADER):
            if getattr(event, "anchor", None) or getattr(event, "tag", None):
                line = event.start_mark.line + 1 if event.start_mark else 1
                raise refused(file, "has front matter with an anchor or a tag", remedy, line)
            if isinstance(event, yaml.ScalarEvent) and event.implicit[0] and (end := event.end_mark):
                is_text = not re.fullmatch("[0-9.-]+|true|false", event.value)  # behind those it is a comment
                if is_text and re.match(r"\s+#", rows[end.line][end.column :]):
                    raise refused(file, 'is cut off at " #"', 'put the text in "quotes"', end.line + 1)
        root = loader.get_single_node()
        if not isinstance(root, yaml.MappingNode):
            raise refused(file, "has front matter without keys", remedy, 1)
        values: dict[str, Any] = {}
        lines: dict[KeyPath, int] = {}
        for key_node, value_node in root.value:
            line = key_node.start_mark.line + 1
            if not isinstance(key_node, yaml.ScalarNode):
                raise refused(file, "has front matter with a list for a key", remedy, line)
            key = key_node.value
            if key in values:
                raise refused(file, "is written twice", "keep one of them", line, printable(key))
            lines[(key,)] = line
            values[key] = _frozen(loader.construct_object(value_node, deep=True))
        return Table(file, values, lines, typed=False)
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        line = mark.line + 1 if mark else 1
        for number, written in enumerate(rows[:line], 1):
            if re.search(rf"^\w+:{_OTHER_SPACE}|[\"']{_OTHER_SPACE}", written):
                raise refused(file, "has a space that a word processor wrote", "type the line anew", number) from None
        if re.search("[\u2018-\u201e]", rows[line - 1]):
            raise refused(file, "has curly quotation marks", 'write straight ones: "like these"', line) from None
        raise refused(file, "has front matter that is not YAML", remedy, line) from None
    except RecursionError:
        raise refused(file, "has lists within lists without end", "take the inner lists out", 1) from None
