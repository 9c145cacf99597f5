"""Everything that people write for the handbook, read in one go: `load`, or `readable` to go on in spite of faults.

A school's folder is laid over the stock handbook by one rule: what stands at the same path replaces
ours, everything else is added. Three refinements:

- `school.toml` is laid over ours key by key, so a school states only what differs;
- `lessons/<step>/` may hold lessons without a `step.toml` where the step is one of ours;
- `notes/<path>.md`, plain Markdown without front matter, is added to the page at that path, also to
  one that the program writes, such as a lesson's.

Hidden files and what editors drop are ignored; anything else that has no business there is a fault.
"""

import os
import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from generator.errors import Fault, Faults
from generator.source.layers import Layer, Source, is_junk, overlaid, shown_name
from generator.source.lessons import read_steps
from generator.source.models import AuthoredPage, Lesson, Note, PageMeta, PathStep
from generator.source.reading import has_front_matter, parse_page, printable, read_toml, refused
from generator.source.school import School
from generator.source.theme import Theme, read_theme
from generator.source.validating import did_you_mean, rename_or_move, validated

A_BOOK = re.compile(r"book(-.*)?\.md")
_MADE_OTHERWISE = {("404.md",), ("today.md",)}
FOLDERS_OF_THE_SITE = {"assets", "css", "figures", "images", "js", "search", "server-config"}
_WRITTEN_BY_THE_PROGRAM = re.compile(
    r"(?:choosing/|lessons/|)index\.md|choosing/group-\d+\.md|reference/a-z\.md"
    r"|lessons/[^/]+/(?:index|cards|plans|[^/]+-(?:among|for)-\d+)\.md"
)
_SETTINGS = "school.toml"
IN_A_SCHOOL_FOLDER = (_SETTINGS, "lessons", "pages", "notes", "theme")
_BELOW_A_STEP = range(2, 3)
_UP_TO_TWO_SECTIONS_DEEP = range(1, 4)


@dataclass(frozen=True)
class Sources:
    """All that was read.

    steps: those the school includes, in teaching order, each with its lessons in teaching order
    every_step: also those it leaves out, and those without a lesson
    pages: by path
    notes: by path; whether there is such a page is checked where all pages are known
    changes: what a school's folder replaced or added, one line each, for the summary
    faults: what is wrong in files, most of which are therefore left out
    """

    school: School
    steps: tuple[PathStep, ...]
    every_step: tuple[PathStep, ...]
    pages: tuple[AuthoredPage, ...]
    notes: tuple[Note, ...]
    theme: Theme
    changes: tuple[str, ...]
    faults: tuple[Fault, ...]

    @property
    def lessons(self) -> tuple[Lesson, ...]:
        """All lessons in teaching order."""
        return tuple(lesson for step in self.steps for lesson in step.lessons)


def load(handbook: Path, school_folder: Path | None = None) -> Sources:
    """Read the stock handbook and, laid over it, a school's folder.

    Raises SourceError with every fault of both.
    """
    sources = readable(handbook, school_folder)
    Faults(sources.faults).raise_if_any()
    return sources


def readable(handbook: Path, school_folder: Path | None = None) -> Sources:
    """What can be read of both; every file with a fault is left out, but a page whose front matter alone has one.

    Raises SourceError only for a folder that cannot be opened.
    """
    layers = _layers(handbook, school_folder)
    faults = Faults(fault for layer in layers[1:] for fault in _strays(layer))
    lesson_files = overlaid(layers, "lessons", ".toml", _BELOW_A_STEP, faults)
    page_files = overlaid(layers, "pages", ".md", _UP_TO_TWO_SECTIONS_DEEP, faults)
    note_files = overlaid(layers[1:], "notes", ".md", _UP_TO_TWO_SECTIONS_DEEP, faults)
    if not lesson_files:
        faults.append(Fault.of_file(layers[0].named("lessons"), "holds no lesson", "add <step>/step.toml and a lesson"))
    steps = read_steps(lesson_files, faults)
    school = _read_school(layers, {source.parts[0] for source in lesson_files}, faults)
    pages = tuple(_pages(page_files, faults))
    notes = tuple(_notes(note_files, faults))
    faults.extend(_left_out(steps, notes, school))
    theme = Theme()
    for layer in layers[1:]:
        with faults.gathered():
            theme = read_theme(layer.folder / "theme", layer.named("theme"), faults)
    return Sources(
        school,
        tuple(step for step in steps if step.lessons and school.includes(step.slug)),
        steps,
        pages,
        notes,
        theme,
        tuple(_changes(layers[1:], [*lesson_files, *page_files], note_files, theme)),
        tuple(faults),
    )


def _left_out(steps: tuple[PathStep, ...], notes: tuple[Note, ...], school: School) -> Iterator[Fault]:
    """A fault for every lesson and note of a school in a step that its settings leave out: it would never be seen."""
    for step in steps:
        if not school.includes(step.slug):
            own = [lesson.file for lesson in step.lessons if lesson.from_school]
            own += [note.file for note in notes if note.path.startswith(f"lessons/{step.slug}/")]
            for file in own:
                problem = f"lies in the step {step.slug}, which steps in school.toml leaves out"
                yield Fault.of_file(file, problem, f"add {step.slug} to steps, or move the file elsewhere")


def _layers(handbook: Path, school_folder: Path | None) -> list[Layer]:
    """The folders to read, all of which can be opened."""
    stock = Layer(handbook, from_school=False)
    layers = [stock] if school_folder is None else [stock, Layer(school_folder, from_school=True)]
    faults = Faults()
    for layer in layers:
        try:
            for path in layer.folder.iterdir():
                path.lstat()
        except OSError:
            folder = shown_name(os.path.abspath(layer.folder), most=300)  # noqa: PTH100 - follows no link
            remedy = "check its place, name and rights"
            faults.append(Fault.of_file(folder, "is not a folder that can be opened", remedy))
    faults.raise_if_any()
    return layers


def _strays(layer: Layer) -> Iterator[Fault]:
    """A fault for everything at the top of a school's folder that does not belong there."""
    for name in (path.name for path in layer.folder.iterdir()):
        if name not in IN_A_SCHOOL_FOLDER and not is_junk(name):
            remedy = rename_or_move(name, IN_A_SCHOOL_FOLDER)
            yield Fault.of_file(layer.named(shown_name(name)), "does not belong in a school's folder", remedy)


def _read_school(layers: Iterable[Layer], steps: Collection[str], faults: Faults) -> School:
    """The settings of all layers, key by key, without those of a layer that has a fault."""
    values: dict[str, Any] = {}
    for layer in layers:
        path, file = layer.folder / _SETTINGS, layer.named(_SETTINGS)
        if not os.path.lexists(path):
            continue
        with faults.gathered():
            table = read_toml(path, file)
            named = table.values.get("steps")
            found = Faults(
                table.fault(("steps", number), f"there is no step {printable(slug)}", did_you_mean(slug, steps))
                for number, slug in enumerate(named if isinstance(named, tuple) else ())
                if isinstance(slug, str) and slug not in steps
            )
            with found.gathered():
                validated(School, table)
            found.raise_if_any()
            values = _laid_over(values, table.values)
    return School.model_validate(values)  # no rule spans two keys, so layers that are right are right together


def _laid_over(below: Mapping[str, Any], above: Mapping[str, Any]) -> dict[str, Any]:
    both = dict(below)
    for key, value in above.items():
        both[key] = _laid_over(below.get(key, {}), value) if isinstance(value, dict) else value
    return both


def _pages(files: Iterable[Source], faults: Faults) -> Iterator[AuthoredPage]:
    for source in files:
        parts = source.parts
        with faults.gathered():
            if parts in _MADE_OTHERWISE or (len(parts) == 1 and A_BOOK.fullmatch(parts[0])):
                raise refused(source.file, "has the name of a page that every build makes", "rename it")
            if len(parts) > 1 and parts[0] in FOLDERS_OF_THE_SITE:
                problem = f"lies in {parts[0]}/, a folder that every build fills with other things than pages"
                raise refused(source.file, problem, "give its folder another name")
            text = source.text()
            table, body = parse_page(text, source.file)
            # With a fault in its front matter it stands in its place all the same, so that its words are looked at.
            meta = PageMeta.model_construct(title=source.file, description="", order=1, reviewed=date.today())
            with faults.gathered():
                meta = validated(PageMeta, table)
            yield AuthoredPage(
                path="/".join(parts),
                meta=meta,
                body=body,
                title_line=table.line_of(("title",)),
                body_line=text.rstrip("\n").count("\n") - body.rstrip("\n").count("\n") + 1,
                file=source.file,
                from_school=source.from_school,
            )


def _notes(files: Iterable[Source], faults: Faults) -> Iterator[Note]:
    for source in files:
        with faults.gathered():
            text = source.text()
            if has_front_matter(text):
                raise refused(
                    source.file, "has front matter, which is for pages", "begin with the words of the note", 1
                )
            if not text.strip():
                raise refused(source.file, "is empty", "write what is to be added to the page, or take the file away")
            yield Note(path="/".join(source.parts), text=text, file=source.file)


def _changes(layers: Iterable[Layer], files: Iterable[Source], notes: Iterable[Source], theme: Theme) -> Iterator[str]:
    """What a school's folder changed, for the summary."""
    for layer in layers:
        if (layer.folder / _SETTINGS).exists():
            yield f"{layer.named(_SETTINGS)}: its own settings"
    for source in files:
        if source.from_school:
            path = "/".join(source.parts)
            if _WRITTEN_BY_THE_PROGRAM.fullmatch(path):
                yield f"{source.file}: replaces ours and all that it shows; to add words to ours, write notes/{path}"
            else:
                yield f"{source.file}: {'replaces ours' if source.replaces else 'added'}"
    for source in notes:
        yield f"{source.file}: a note added to a page"
    yield from (f"{file}: used" for file in theme.files)
