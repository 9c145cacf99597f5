"""The figures that pages ask for: their sizes at once, their drawings when they are drawn."""

from __future__ import annotations

from functools import lru_cache

from generator.engine.places import place_name
from generator.engine.sharing import share
from generator.figures import charts, spec
from generator.figures.picture import Picture
from generator.figures.shapes import Figure
from generator.words.phrases import Phrases

# Sheets are measured for print; on a screen they are shown a quarter larger, 700 CSS pixels wide.
_ON_SCREEN = 1.25


def size(words: Phrases, picture: Picture) -> tuple[float, float]:
    """Width and height of a figure in CSS pixels, without drawing it."""
    figure = _figure(words, picture)
    return figure.width * _ON_SCREEN, figure.height * _ON_SCREEN


def drawing(words: Phrases, picture: Picture) -> bytes:
    """A figure as SVG."""
    from generator.figures.draw import draw  # matplotlib is slow to import and often not needed

    return draw(_figure(words, picture))


@lru_cache(maxsize=1000)
def _figure(words: Phrases, picture: Picture) -> Figure:
    """What a picture shows."""
    if picture.kind == "path":
        return charts.path_figure(picture.rows)
    if picture.kind == "allowed":
        more = {sharers: with_more for sharers, _, with_more in picture.rows}
        return charts.allowed_figure([(sharers, allowed) for sharers, allowed, _ in picture.rows], more, words)
    if picture.kind == "pieces":
        return charts.pieces_figure(words)
    sharing = share(picture.dividend, picture.divisor, ribbons=picture.ribbons)
    if picture.kind == "layout":
        return spec.layout_figure(sharing, words)
    if picture.kind == "cards":
        return spec.cards_figure(sharing, words)
    stage = next(stage for stage in sharing.stages if place_name(stage.level) == picture.kind)
    return spec.stage_figure(sharing, stage, words)
