"""What a page asks for -> the figure that shows it."""

from __future__ import annotations

from generator.engine.places import place_name
from generator.engine.sharing import share
from generator.figures.shapes import Figure
from generator.figures.spec import cards_figure, layout_figure, stage_figure
from generator.pages.page import Picture


def figure_of(picture: Picture, grouping: str) -> Figure:
    """The figure for a picture."""
    sharing = share(picture.dividend, picture.divisor, ribbons=picture.ribbons)
    if picture.kind == "layout":
        return layout_figure(sharing, grouping)
    if picture.kind == "cards":
        return cards_figure(sharing, grouping)
    stage = next(stage for stage in sharing.stages if place_name(stage.level) == picture.kind)
    return stage_figure(sharing, stage)
