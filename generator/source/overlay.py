"""The stock handbook with a school's folder laid over it: the same path replaces, any other adds."""

import os
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from generator.errors import Fault, SourceError
from generator.source.folders import Parts, files_in, shown_name
from generator.source.reading import decode, read_bytes


class Faults(list[Fault]):
    """The faults of a run so far."""

    @contextmanager
    def gathered(self) -> Iterator[None]:
        """Keep the faults of what is done inside, and go on after it."""
        try:
            yield
        except SourceError as error:
            self.extend(error.faults)

    def raise_if_any(self) -> None:
        if self:
            raise SourceError(self)


@dataclass(frozen=True)
class Layer:
    """One of the two folders. Faults name its files as <folder's name>/<path>."""

    folder: Path
    from_school: bool

    @property
    def shown(self) -> str:
        return shown_name(os.path.basename(os.path.abspath(self.folder)))  # noqa: PTH100, PTH119 - follows no link

    def named(self, *parts: str) -> str:
        return "/".join((self.shown, *parts))


@dataclass(frozen=True)
class Source:
    """One file and the layer it comes from; `replaces` tells whether a lower layer has it too."""

    parts: Parts
    path: Path
    file: str
    from_school: bool
    replaces: bool

    def text(self) -> str:
        return decode(read_bytes(self.path, self.file), self.file)


def overlaid(layers: Iterable[Layer], kind: str, ending: str, depths: range, faults: Faults) -> list[Source]:
    """The files of one kind ("lessons", "pages"), sorted by their path below it; later layers win."""
    files: dict[Parts, Source] = {}
    for layer in layers:
        ours_by_language = kind == "pages" and not layer.from_school
        place = f"en/{kind}" if ours_by_language else kind
        with faults.gathered():
            for found in files_in(layer.folder / place, layer.named(place), ending, depths):
                if isinstance(found, Fault):
                    faults.append(found)
                else:
                    path = layer.folder.joinpath(place, *found)
                    files[found] = Source(found, path, layer.named(place, *found), layer.from_school, found in files)
    return [files[parts] for parts in sorted(files)]
