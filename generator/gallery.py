"""The figures that pages ask for: their sizes at once, their drawings when all are known."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from functools import cache, cached_property
from importlib.metadata import version
from multiprocessing import get_context
from pathlib import Path

from generator.cache import Cache, code_fingerprint, key_of
from generator.engine.places import place_name
from generator.engine.sharing import share
from generator.figures import charts, spec
from generator.figures.shapes import Figure
from generator.pages.page import Picture

# Sheets are measured for print; on a screen they are shown a quarter larger, 700 CSS pixels wide.
_ON_SCREEN = 1.25
_WORTH_A_SECOND_PROCESS = 40


@cache
def figure_of(picture: Picture, grouping: str) -> Figure:
    """What a picture shows."""
    if picture.kind == "path":
        return charts.path_figure(picture.rows)
    if picture.kind == "allowed":
        more = {sharers: with_more for sharers, _, with_more in picture.rows}
        return charts.allowed_figure([(sharers, allowed) for sharers, allowed, _ in picture.rows], more)
    if picture.kind == "pieces":
        return charts.pieces_figure(grouping)
    sharing = share(picture.dividend, picture.divisor, ribbons=picture.ribbons)
    if picture.kind == "layout":
        return spec.layout_figure(sharing, grouping)
    if picture.kind == "cards":
        return spec.cards_figure(sharing, grouping)
    stage = next(stage for stage in sharing.stages if place_name(stage.level) == picture.kind)
    return spec.stage_figure(sharing, stage)


class Gallery:
    """All figures of one handbook, drawn at most once each and kept in the cache."""

    def __init__(self, grouping: str, cache: Cache, workers: int) -> None:
        self._grouping = grouping
        self._cache = cache
        self._workers = workers

    def size(self, picture: Picture) -> tuple[float, float]:
        """Width and height in CSS pixels, without drawing anything."""
        figure = figure_of(picture, self._grouping)
        return figure.width * _ON_SCREEN, figure.height * _ON_SCREEN

    def drawings(self, pictures: Iterable[Picture]) -> dict[str, bytes]:
        """Every picture's SVG by its path in the handbook."""
        wanted = {picture: self._key(picture) for picture in dict.fromkeys(pictures)}
        drawn = {picture: self._cache.get(key) for picture, key in wanted.items()}
        missing = [picture for picture, svg in drawn.items() if svg is None]
        for picture, svg in zip(missing, self._draw(missing), strict=True):
            self._cache.put(wanted[picture], svg)
            drawn[picture] = svg
        return {picture.path: svg for picture, svg in drawn.items() if svg is not None}

    def _draw(self, pictures: list[Picture]) -> list[bytes]:
        from generator.figures.draw import draw  # matplotlib is slow to import and often not needed

        figures = [figure_of(picture, self._grouping) for picture in pictures]
        if self._workers == 1 or len(figures) < _WORTH_A_SECOND_PROCESS:
            return list(map(draw, figures))
        with ProcessPoolExecutor(self._workers, get_context("fork" if sys.platform == "linux" else "spawn")) as workers:
            return list(workers.map(draw, figures, chunksize=16))

    def _key(self, picture: Picture) -> str:
        return key_of((self._code, picture, self._grouping))

    @cached_property
    def _code(self) -> str:
        parts = (code_fingerprint(Path(spec.__file__).parent), version("matplotlib"))
        return key_of((*parts, code_fingerprint(Path(spec.__file__).parents[1] / "engine")))
