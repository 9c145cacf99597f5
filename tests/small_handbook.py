"""A handbook as small as one can be, with every kind of page: builds of it take a second or two."""

import shutil
from pathlib import Path

from generator import HANDBOOK, PROJECT

LESSONS = (
    *("as-it-lies/2684-among-2.toml", "as-it-lies/3693-among-3.toml", "as-it-lies/96-among-3.toml"),
    *("left-over/2685-among-2.toml", "left-over/4241-among-3.toml"),
    *("ten-ribbons/1353-for-11.toml", "ten-ribbons/2350-for-11.toml"),
)
_SETTINGS = 'name = "Hazel Lane"\n[groups]\nsizes = [2, 3]\n'
_PAGES = {
    "reference/index.md": "Look things up",
    "reference/age-and-group.md": "Age and group in the small",
    "reference/for-parents.md": "Parents of the small",
    "reference/cautions.md": "Cautions for the small",
    "reference/shelf.md": "Shelf of the small",
    "when-it-goes-wrong/index.md": "When it goes wrong",
    "when-it-goes-wrong/emergency.md": "In an emergency in the small",
    "when-it-goes-wrong/child-leaves-or-joins.md": "A child leaves the small",
    "for-the-school/index.md": "For the small school",
    "for-the-school/print.md": "Print the small",
    "for-the-school/who-has-had.md": "Who has had the small",
    "new-here/index.md": "New in the room",
    "new-here/role-guide.md": "Guides of the small",
    "new-here/role-bank-keeper.md": "The bank of the small",
    "new-here/role-assistant.md": "Assistants of the small",
}
_PAGE = """\
---
title: {title}
description: One of a few pages in a handbook that is small.
order: 1
reviewed: 2026-11-16
tags: [{title} again]
---
{{% import "parts.md.jinja" as parts with context %}}
# {title}

{{% for link in lessons %}}
- [{{{{ link.title }}}}]({{{{ to(link.path) }}}}), {{{{ link.sharing.exchanges }}}} at the bank
{{% endfor %}}

{{{{ parts.figure(picture("pieces"), "The four pieces.", "The four pieces.") }}}}

Ready for two: {{{{ ready_numbers(2, "static")[0] }}}}.
"""


def write_small_handbook(folder: Path) -> Path:
    """Write it into a folder that may be there already, and return that folder."""
    for lesson in LESSONS:
        for name in (lesson, f"{lesson.split('/')[0]}/step.toml"):
            _copy(HANDBOOK / "lessons" / name, folder / "lessons" / name)
    (folder / "school.toml").write_text(_SETTINGS, encoding="utf-8")
    for path, title in _PAGES.items():
        page = folder / "en" / "pages" / path
        page.parent.mkdir(parents=True, exist_ok=True)
        page.write_text(_PAGE.format(title=title), encoding="utf-8")
    return folder


def check_out_small(folder: Path) -> Path:
    """Everything that a build of the project needs, with this handbook in the place of ours; returns the folder."""
    others = shutil.ignore_patterns("__pycache__", "lessons", "pages", "school.toml")
    shutil.copytree(PROJECT / "generator", folder / "generator", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(HANDBOOK, folder / "handbook", ignore=others)
    shutil.copy(PROJECT / "mkdocs.yml", folder)
    write_small_handbook(folder / "handbook")
    return folder


def contents(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, by path."""
    return {file.relative_to(folder).as_posix(): file.read_bytes() for file in folder.rglob("*") if file.is_file()}


def _copy(file: Path, to: Path) -> None:
    to.parent.mkdir(parents=True, exist_ok=True)
    shutil.copyfile(file, to)
