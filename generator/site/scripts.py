"""Our scripts as pages load them: one file for each kind of page, without comments."""

from functools import cache
from pathlib import Path

import rjsmin  # type: ignore[import-untyped]
import yaml

from generator.site.run_mkdocs import MKDOCS_YML
from generator.source.reading import YAML_LOADER

FOLDER = "js/"
_STRICT = '"use strict";'


def lean(script: str) -> str:
    """A script without its comments, and with white space only where it must be."""
    return str(rjsmin.jsmin(script))


@cache
def listed() -> dict[str, list[str]]:
    """The scripts of each kind of page, in the order in which they run, as mkdocs.yml lists them."""
    scripts: dict[str, list[str]] = yaml.load(MKDOCS_YML.read_text("utf-8"), YAML_LOADER)["extra"]["scripts"]
    return scripts


def joined(folder: Path) -> dict[str, bytes]:
    """For each kind of page its scripts as one file, by path."""

    def body(script: str) -> str:
        return lean((folder / script).read_text("utf-8")).removeprefix(_STRICT)

    return {
        f"{FOLDER}{kind}.js": (_STRICT + "".join(map(body, scripts))).encode() for kind, scripts in listed().items()
    }
