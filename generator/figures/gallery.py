"""The figures that pages ask for: their sizes at once, their drawings when they are drawn."""

from dataclasses import replace
from functools import lru_cache

from generator.engine.places import UNITS, place_name
from generator.engine.sharing import Sharing, share
from generator.figures import charts
from generator.figures.draw import draw
from generator.figures.end_in_cards import end_in_cards_figure
from generator.figures.formats import NARROW, SMALL, WIDE
from generator.figures.picture import OF_A_PLAN, PART, SPRITE, Picture
from generator.figures.room import room_figure, small_figure
from generator.figures.scene import Frame, end_scene, frame_of, stage_scene, start_scene
from generator.figures.shapes import Part
from generator.figures.sprite import sprite
from generator.figures.view import View
from generator.words.phrases import Phrases


def size(words: Phrases, picture: Picture) -> tuple[float, float]:
    """Width and height of a figure in CSS pixels, without drawing it.

    The figures of a lesson's beginning, places and end are of one size, so that nothing jumps; so are those of its
    plan. It is therefore enough to lay out that of the units.
    """
    if picture.dividend and picture.kind != "cards":
        of_a_plan = OF_A_PLAN if picture.kind.startswith(OF_A_PLAN) else ""
        picture = replace(picture, kind=of_a_plan + place_name(UNITS))
    figure = shown(words, picture)
    return figure.width, figure.height


def drawing(words: Phrases, picture: Picture) -> bytes:
    """A figure as SVG."""
    return sprite() if picture == SPRITE else draw(shown(words, picture))


@lru_cache(maxsize=1000)
def shown(words: Phrases, picture: Picture) -> Part:
    """The figure that a picture names, as marks."""
    form = NARROW if picture.narrow else WIDE
    if picture.kind == "path":
        return charts.path_figure(picture.rows, form)
    if picture.kind == "allowed":
        return charts.allowed_figure(picture.rows, form, words)
    if picture.kind == "pieces":
        return charts.pieces_figure(form, words)
    sharing, frame = _division(picture.dividend, picture.divisor, picture.ribbons)
    _, of_a_plan, kind = picture.kind.rpartition(OF_A_PLAN)
    if kind == "cards":
        return end_in_cards_figure(sharing, form, words)
    if kind == "layout":
        scene = start_scene(sharing)
    elif kind == "end":
        scene = end_scene(sharing)
    else:
        place, _, part = kind.partition(PART)
        stage = next(stage for stage in sharing.stages if place_name(stage.level) == place)
        scene = stage_scene(sharing, stage.parts[int(part) - 1] if part else stage)
    if of_a_plan:
        return small_figure(View(scene, frame, SMALL, words))
    return room_figure(View(scene, frame, form, words))


@lru_cache(maxsize=100)
def _division(dividend: int, divisor: int, ribbons: bool) -> tuple[Sharing, Frame]:
    """The sharing and the frame of a lesson, which all of its figures have in common."""
    sharing = share(dividend, divisor, ribbons=ribbons)
    return sharing, frame_of(sharing)
