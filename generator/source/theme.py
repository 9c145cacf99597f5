"""A school's logo and colours, from the theme/ folder of its own folder."""

import re
from dataclasses import dataclass, field
from pathlib import Path
from struct import unpack
from typing import Annotated
from zlib import crc32

from pydantic import AfterValidator, Field

from generator.errors import Faults
from generator.source.fields import Model, fault_in_value
from generator.source.layers import entry_names, shown_name
from generator.source.reading import printable, read_bytes, read_toml, refused
from generator.source.validating import rename_or_move, validated

LARGEST_LOGO = 1024 * 1024
LONGEST_SIDE = 4000  # pixels
_PNG_BEGINS, _PNG_ENDS = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", b"IEND\xaeB`\x82"
_LEAST_CONTRAST = 4.5
_COLOUR = re.compile(r"#[0-9a-fA-F]{6}")
_COLOURS = "colours.toml"
_LOGO = "logo.png"


def _contrast_with_white(colour: str) -> float:
    """The contrast ratio of WCAG 2.2 between white and a colour such as "#2f5d50"."""
    channels = (int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 1.05 / (0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05)


def _readable(value: str) -> str:
    if not _COLOUR.fullmatch(value):
        raise fault_in_value(f'is "{printable(value)}"')
    if (contrast := _contrast_with_white(value)) < _LEAST_CONTRAST:
        shown = int(10 * contrast) / 10  # rounded down: 4.48 is not enough
        problem = f"{value} against white has a contrast of {shown} to 1"
        raise fault_in_value(problem, f"choose a darker one: {_LEAST_CONTRAST} to 1")
    return value.lower()


ColourOrNone = Annotated[
    Annotated[str, AfterValidator(_readable)] | None, Field(description='a colour such as "#2f5d50"')
]


class Colours(Model):
    """The keys of theme/colours.toml; each colour is used with white, so it must be dark enough.

    header: the band at the top of every page, with white words on it
    links: links on the white page
    """

    header: ColourOrNone = None
    links: ColourOrNone = None


def _is_whole(logo: bytes) -> bool:
    """Whether a PNG picture has all its chunks, each as it was written: length, kind, data, checksum of these two."""
    at = 8
    while at < len(logo):
        end = at + 8 + int.from_bytes(logo[at : at + 4])
        if crc32(logo[at + 4 : end]) != int.from_bytes(logo[end : end + 4]):
            return False
        at = end + 4
    return logo.startswith(_PNG_BEGINS) and b"IDAT" in logo and logo.endswith(_PNG_ENDS)


@dataclass(frozen=True)
class Theme:
    """What a school's theme/ folder holds.

    logo: the bytes of a PNG picture, or b""
    files: the files that were read, as faults name them
    """

    logo: bytes = b""
    colours: Colours = field(default_factory=Colours)
    files: tuple[str, ...] = ()


def read_theme(folder: Path, shown: str, faults: Faults) -> Theme:
    """The theme/ folder of a school, all of it optional. Raises SourceError where it cannot be opened."""
    logo, colours, files = b"", Colours(), []
    for name in entry_names(folder, shown):
        file = f"{shown}/{shown_name(name)}"
        with faults.gathered():
            if name == _LOGO:
                logo = read_bytes(folder / name, file, LARGEST_LOGO)
                if not _is_whole(logo):
                    raise refused(file, "is not a whole PNG picture", "save the logo as PNG once more")
                width, height = unpack(">II", logo[16:24])
                if not (0 < width <= LONGEST_SIDE and 0 < height <= LONGEST_SIDE):
                    problem = f"is {width} pixels wide and {height} high"
                    raise refused(file, problem, f"save the logo with no more than {LONGEST_SIDE} a side")
            elif name == _COLOURS:
                colours = validated(Colours, read_toml(folder / name, file))
            else:
                raise refused(file, "does not belong in a theme folder", rename_or_move(name, (_LOGO, _COLOURS)))
        files.append(file)
    return Theme(logo, colours, tuple(files))
