"""The lanes between bank, middle and trays: arrows, and how many pieces go along them."""

from generator.engine.places import place_name
from generator.figures.cards import sharers_card
from generator.figures.formats import Format
from generator.figures.shapes import Label, Mark, Part, Stroke, text_width
from generator.figures.view import View
from generator.words.numbers import in_a_row, small_number


def lane_at_the_bank(view: View) -> Part:
    """An arrow up for what goes to the bank, and in the next column one down for what comes back; with ribbons, when.

    Where two places are exchanged, the second stands one line lower. All figures of a lesson have a lane of one height.
    """
    form, exchanged = view.form, view.scene.stage.exchanged
    line = _line(form)
    marks: list[Mark] = []
    for number, place in enumerate(exchanged.places_held):
        y = number * line
        marks += _way(view, place, view.say("figure.to-bank", count=exchanged[place]), up=True).at(0, y)
        marks += _way(view, place - 1, view.say("figure.come-back", count=10 * exchanged[place]), up=False).at(0, y)
        if view.frame.mat.ribbons and view.scene.stage.rounds:
            room = (1 if exchanged.at(place - 1) else 2) * form.column - form.pad
            marks.append(Label(view.left(place), y + line + _base(form), _when(view, place, room), form.text))
    lines = view.frame.exchanges + (1 if view.frame.mat.ribbons else 0)
    return Part(view.width, form.lane + (lines - 1) * line, tuple(marks))


def lane_to_the_trays(view: View) -> Part:
    """An arrow down for what a tray is given, or why it is given nothing; before the first round, who shares.

    With ribbons a second line says which trays, because each column is for those of one ribbon.
    """
    scene, form = view.scene, view.form
    ribbons = view.frame.mat.ribbons
    height = form.lane + (_line(form) if ribbons else 0)
    if scene.laid_out:
        return Part(view.width, height, _who_shares(view))
    marks: list[Mark] = []
    for place in scene.given.places_held:
        width = place - scene.stage.level
        key = "figure.to-the-tray" if ribbons and view.frame.mat[width] == 1 else "figure.each"
        marks += _way(view, place, view.say(key, count=scene.given[place]), up=False).marks
        if ribbons:
            whose = view.say(f"figure.for-{10**width}")
            marks.append(Label(view.left(place) + 0.8 * form.text, _line(form) + _base(form), whose, form.text))
    if scene.active and not scene.stage.rounds and not scene.stage.at_the_bank:
        place = max(scene.active)
        marks.append(Label(view.left(place), _base(form), _nothing_given(view, place), form.text))
    return Part(view.width, height, tuple(marks))


def _nothing_given(view: View, place: int) -> str:
    if not view.scene.stage.unfinished:
        return view.say(f"figure.none.{place_name(place)}")
    if view.frame.mat.ribbons:
        return view.say("figure.too-few-for-a-round")
    return view.say("figure.too-few", sharers=small_number(view.words, view.frame.mat.value))


def _who_shares(view: View) -> tuple[Mark, ...]:
    form = view.form
    card = sharers_card(view.frame.mat.value, 0.52 * form.lane)
    key = "figure.children-share-with-ribbons" if view.frame.mat.ribbons else "figure.children-share"
    said = view.say(key, count=len(view.frame.trays), number=view.frame.mat.value)
    return (*card.at(6, (form.lane - card.height) / 2), view.bold(6 + card.width + 6, _base(form), said))


def _when(view: View, place: int, room: float) -> str:
    """'before round 2'; 'between rounds' if there is no room for more."""
    last = view.scene.stage.rounds
    rounds = [trip.rounds for trip in view.scene.stage.trips if trip.place == place]
    before = [str(given + 1) for given in rounds if given < last]
    said = [view.say("figure.before-round", count=len(before), rounds=in_a_row(view.words, before))] if before else []
    if last in rounds:
        said.append(view.say("figure.after-round", count=1, rounds=str(last)))
    exact = in_a_row(view.words, said)
    return exact if text_width(exact, view.form.text) <= room else view.say("figure.between-rounds")


def _way(view: View, place: int, said: str, up: bool) -> Part:
    """An arrow at the left of a column, and its words."""
    form = view.form
    size = form.text
    x, foot, tip = view.left(place) + 0.42 * size, 2.0, min(form.lane, 1.1 * _line(form)) - 2
    if up:
        foot, tip = tip, foot
    back = tip + (0.62 if up else -0.62) * size
    stem = Stroke(x, 0, (((0, foot), (0, back)),), "ink", 0.2 * size)
    head = Stroke(x, 0, (((0, tip), (-0.36 * size, back), (0.36 * size, back)),), "ink", 0.6, "ink")
    words = Label(x + 0.8 * size, _base(form), said, size, "ink", bold=not form.narrow)
    return Part(0, form.lane, (stem, head, words))


def _line(form: Format) -> float:
    """From one line of a lane to the next."""
    return 0.85 * form.lane


def _base(form: Format) -> float:
    """The base line of the words in the first line of a lane."""
    return form.lane / 2 + 0.36 * form.text
