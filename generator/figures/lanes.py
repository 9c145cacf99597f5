"""The ways between bank, middle and trays: arrows, and how many pieces go along them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from generator.engine.places import place_name
from generator.figures.cards import sharers_card
from generator.figures.formats import Format
from generator.figures.scene import Frame, Scene
from generator.figures.shapes import Label, Mark, Part, Stroke, text_width
from generator.words.numbers import in_a_row, small_number
from generator.words.phrases import Phrases


class Lanes:
    """What stands in the two lanes of a figure."""

    def __init__(self, scene: Scene, frame: Frame, form: Format, words: Phrases) -> None:
        self.scene, self.frame, self.form, self.words = scene, frame, form, words

    @property
    def height_at_the_bank(self) -> float:
        """The same in all figures of a lesson."""
        lines = self.frame.exchanges + (1 if self.frame.ribbons else 0)
        return self.form.lane + (lines - 1) * self._line

    def at_the_bank(self) -> Part:
        """Up what goes to the bank, one column to the right down what comes back; with ribbons also when.

        Where two places are exchanged, the second stands one line lower.
        """
        marks: list[Mark] = []
        form, exchanged = self.form, self.scene.exchanged
        for line, place in enumerate(exchanged.places_held):
            count, y = exchanged[place], line * self._line
            marks += self._way(place, y, self._say("figure.to-bank", count=count), up=True)
            marks += self._way(place - 1, y, self._say("figure.come-back", count=10 * count), up=False)
            if self.frame.ribbons and self.scene.rounds:
                room = (1 if exchanged.at(place - 1) else 2) * form.column - form.pad
                base = y + self._line + self._base
                marks.append(Label(self._x(place), base, self._when(place, room), form.text))
        return Part(0, 0, tuple(marks))

    def to_the_trays(self, divisor: int) -> Part:
        """Down what every tray is given, or why it is given nothing; before the first round, who shares."""
        scene, form = self.scene, self.form
        if scene.laid_out:
            return self._who(divisor)
        marks: list[Mark] = []
        for place in scene.given.places_held:
            marks += self._way(place, 0, self._say("figure.each", count=scene.given[place]), up=False)
        if scene.active and not scene.rounds:
            place = max(scene.active)
            marks.append(Label(self._x(place), self._base, self._nothing(place, divisor), form.text))
        return Part(0, 0, tuple(marks))

    def _nothing(self, place: int, divisor: int) -> str:
        if not self.scene.too_few:
            return self.words.say(f"figure.none.{place_name(place)}")
        if self.frame.ribbons:
            return self._say("figure.too-few-for-a-round")
        return self._say("figure.too-few", sharers=small_number(self.words, divisor))

    def _who(self, divisor: int) -> Part:
        form = self.form
        cell = 0.62 * form.lane
        card = sharers_card(divisor, cell)
        x = 6.0
        key = "figure.children-share-with-ribbons" if self.frame.ribbons else "figure.children-share"
        said = Label(x + card.width + 6, self._base, self._say(key, count=self.frame.trays), form.text, "ink", True)
        return Part(0, 0, (*card.at(x, (form.lane - card.height) / 2), said))

    def _when(self, place: int, room: float) -> str:
        """'before round 2', as exactly as there is room for."""
        moments = [moment for moment in self.scene.moments if moment.place == place]
        said = []
        for late, some in groupby(moments, key=lambda moment: moment.rounds == self.scene.rounds):
            rounds = [str(moment.rounds + (0 if late else 1)) for moment in some]
            said.append(
                self._say(
                    "figure.after-round" if late else "figure.before-round",
                    count=len(rounds),
                    rounds=in_a_row(self.words, rounds),
                )
            )
        exact = in_a_row(self.words, said)
        fits = text_width(exact, self.form.text) <= room
        return exact if fits else self._say("figure.between-rounds")

    def _way(self, place: int, y: float, said: str, up: bool) -> Sequence[Mark]:
        form = self.form
        size = form.text
        x, foot, tip = self._x(place) + 0.42 * size, y + 2.0, y + min(form.lane, 1.1 * self._line) - 2
        if up:
            foot, tip = tip, foot
        back = tip + (0.62 if up else -0.62) * size
        stem = Stroke(x, 0, (((0, foot), (0, back)),), "ink", 0.2 * size)
        head = Stroke(x, 0, (((0, tip), (-0.36 * size, back), (0.36 * size, back)),), "ink", 0.6, "ink")
        return stem, head, Label(x + 0.8 * size, y + self._base, said, size, "ink", not form.narrow)

    def _say(self, key: str, **filled: int | str) -> str:
        """The words of a wide figure, or their short form in a narrow one where there is one."""
        short = f"{key}-in-short"
        return self.words.say(short if self.form.narrow and self.words.has(short) else key, **filled)

    def _x(self, place: int) -> float:
        return self.form.x(place, self.frame.places) + self.form.pad

    @property
    def _line(self) -> float:
        return 0.85 * self.form.lane

    @property
    def _base(self) -> float:
        return self.form.lane / 2 + 0.36 * self.form.text
