"""A scene of a lesson as a figure: the bank above, the middle, the trays below, in place columns that never move."""

from __future__ import annotations

from collections.abc import Iterable

from generator.figures.cards import cards
from generator.figures.formats import Format
from generator.figures.lanes import Lanes
from generator.figures.lattice import Lattice, in_a_row, in_the_middle, on_a_tray, tens
from generator.figures.scene import Frame, Scene, Slot, kept_apart
from generator.figures.shapes import HERE, Bow, Boxes, Figure, Label, Look, Mark, Part, Pieces, Spot
from generator.figures.style import place_colour, ribbon_colour
from generator.words.numbers import place_word
from generator.words.phrases import Phrases

_FAINT = (2.0, 3.0)
_STITCH = (5.0, 3.0)
_ZONE_END = 10.0  # from the pieces of a zone to its lower edge
_BOARD = 4.0


def room_figure(scene: Scene, frame: Frame, form: Format, divisor: int, words: Phrases) -> Figure:
    """Piece groups: 'ready', 'to-bank' and 'from-bank' at the bank, 'middle', 'left' in the dish, 'trays'."""
    drawing = _Drawing(scene, frame, form, words)
    drawing.heads()
    if frame.exchanges:
        drawing.bank()
        drawing.lane(drawing.lanes.at_the_bank(), drawing.lanes.height_at_the_bank)
    drawing.middle()
    drawing.lane(drawing.lanes.to_the_trays(divisor), form.lane)
    drawing.trays()
    if not scene.laid_out:
        drawing.share()
    return Figure(form.width(frame.places), round(drawing.y + 2, 1), tuple(drawing.marks))


class _Drawing:
    """Marks from the top down; `y` is how far it has come."""

    def __init__(self, scene: Scene, frame: Frame, form: Format, words: Phrases) -> None:
        self.scene, self.frame, self.form, self.words = scene, frame, form, words
        self.lanes = Lanes(scene, frame, form, words)
        self.columns = [(place, form.x(place, frame.places)) for place in reversed(range(frame.places))]
        self.lattices = [in_the_middle(place, frame.most.at(place), form.pitch) for place in range(frame.places)]
        self.marks: list[Mark] = []
        self.y = 1.0

    def say(self, x: float, y: float, text: str, size: float, colour: str = "ink", bold: bool = True) -> None:
        self.marks.append(Label(x, y, text, size, colour, bold))

    def lane(self, part: Part, height: float) -> None:
        self.marks += part.at(0, self.y)
        self.y += height

    def heads(self) -> None:
        form, high = self.form, self.form.head - 4
        for place, x in self.columns:
            if place in self.scene.active:
                self._box(x + 2, self.y, form.column - 4, high, "now", "ink", 1.7, high / 2)
            word = place_word(self.words, place)
            head = Label(
                x + form.column / 2, self.y + high / 2 + 0.36 * form.text, word, form.text, place_colour(place)
            )
            self.marks.append(head._replace(bold=True, anchor="middle"))
        self.y += form.head

    def bank(self) -> None:
        form, top = self.form, self.y + self.form.title
        low = self.y + form.title + form.bank
        self._zone(low - self.y, "bank", "rim", "figure.bank")
        self._box(1, low - _BOARD, self._wide - 2, _BOARD, "board", radius=2)
        for place, x in self.columns:
            slot = top + (5 if not form.title else 2)
            high = low - _BOARD - 5 - slot
            parts = list(self._at_the_bank(place, high - 6))
            self._slot(x + 3, slot, high, "bank-slot" if parts else "")
            left = x + form.pad
            for part in parts:
                self.marks += part.at(left, slot + (high - part.height) / 2)
                left += part.width + form.pad
        self.y = low

    def _at_the_bank(self, place: int, high: float) -> Iterable[Part]:
        """What has come to the bank, what has gone from it in tens, or what lies ready there in tens."""
        form, scene = self.form, self.scene
        came, went = scene.exchanged.at(place), 10 * scene.exchanged.at(place + 1)
        wide = form.room if not (came and went) else (form.room - form.pad) / 2
        if came:
            row = in_a_row(place, came, wide, min(high, self.lattices[place].size * 1.3))
            yield _pieces("to-bank", row, 0, came, Look.FULL)
        ready = scene.ready.at(place)
        for group, count, look in (("from-bank", went, Look.DOTTED), ("ready", ready, Look.LIGHT)):
            if count:
                note = form.text * 1.25 if ready else 0
                blocks = tens(place, count, wide, high - note, form.pitch / 2)
                marks: list[Mark] = [Pieces(0, 0, group, place, blocks.size, blocks.spots(count), look)]
                tall = blocks.height(count)
                if ready:
                    said = self.words.say("figure.ready", count=ready)
                    marks.append(Label(0, tall + form.text, said, form.text))
                yield Part(wide, tall + note, tuple(marks))

    def middle(self) -> None:
        form, scene = self.form, self.scene
        top = self.y + form.title
        body = max(self._body(place) for place, _ in self.columns)
        low = top + form.label + body + _ZONE_END
        self._zone(low - self.y, "mat", "stitch", "figure.middle", _STITCH)
        for place, x in self.columns:
            slot = scene.middle[place] if place < len(scene.middle) else Slot(0, 0)
            now = place in scene.active
            ground = "now" if now else "mat-slot" if slot.before or slot.after else ""
            inset = 5 if not form.title else 2
            self._slot(x + 3, top + inset, low - top - inset - 5, ground, now)
            self._count(x + form.pad, top, place, slot)
            self._lie(x + form.pad, top + form.label + 2, place, slot)
            if slot.left:
                dish = self._dish(place, slot.left)
                self.marks += dish.at(x + form.pad - 4, low - dish.height - 7)
        self.y = low

    def _body(self, place: int) -> float:
        """The height that a place takes in the middle, the dish of the end included."""
        lattice, left = self.lattices[place], self.frame.left.at(place)
        dish = self._dish(place, left).height if left else 0
        return max(lattice.height(self.frame.most.at(place)) + dish, 3 * self.form.pitch)

    def _count(self, x: float, top: float, place: int, slot: Slot) -> None:
        form = self.form
        if self.scene.laid_out and slot.after:
            card = cards(slot.after * 10**place, 0.6 * form.label)
            self.marks += card.at(x, top + (form.label - card.height) / 2 + 3)
            return
        base = top + 0.72 * form.label + 1
        if slot.before == slot.after:
            colour, bold = (place_colour(place), True) if slot.after else ("muted", False)
            self.say(x, base, str(slot.after), form.counts, colour, bold)
            return
        was = self.words.say("figure.count-before", count=slot.before)
        self.say(x, base, was, form.counts, "muted", False)
        wide = 0.6 * form.counts * len(was)
        self.say(x + wide, base, str(slot.after), form.counts, place_colour(place))

    def _lie(self, x: float, y: float, place: int, slot: Slot) -> None:
        lattice = self.lattices[place]
        first = 0
        for count, look in ((slot.came, Look.FULL), (slot.stayed, Look.LIGHT), (slot.gone, Look.DOTTED)):
            if count:
                first = kept_apart(first) if look is Look.LIGHT else first
                self.marks += _pieces("middle", lattice, first, count, look).at(x, y)
                first += count

    def _dish(self, place: int, count: int) -> Part:
        """What is left over, kept apart, under its words."""
        lattice, form = self.lattices[place], self.form
        wide, high = lattice.width(count) + 8, lattice.height(count) + 7
        round_dish = Boxes(0, 1.35 * form.text, HERE, wide, high, "tray", "ink", 1.4, min(high / 2, 10))
        words = Label(4, form.text, self.words.say("figure.left-over"), form.text, "ink", True)
        inside = _pieces("left", lattice, 0, count, Look.FULL).at(4, 1.35 * form.text + 3.5)
        return Part(wide, 1.35 * form.text + high, (words, round_dish, *inside))

    def trays(self) -> None:
        """All trays; boxes and pieces that look alike are one mark, whichever tray they belong to."""
        form, frame = self.form, self.frame
        high = form.row(frame.trays)
        gap = 3 if high < 30 else 4
        tops: list[float] = []
        width = self.scene.trays[0].width + 1
        for tray in self.scene.trays:
            if frame.ribbons and form.narrow and tray.width != width:
                self.say(8, self.y + 2 + form.text, self._stands_for(tray.width), form.text)
                self.y += 2 + 1.4 * form.text
            width = tray.width
            tops.append(self.y)
            self.y += high + gap
        self.y -= gap
        rims = tuple((1.0, top) for top in tops)
        self.marks.append(Boxes(0, 0, rims, self._wide - 2, high, "tray", "rim", 1.8, 8))
        for tray, top in zip(self.scene.trays, tops, strict=True):
            self._name(tray.number, tray.width, top, high)
        for place, x in self.columns:
            self._column_of_trays(place, x, tops, high)

    def _column_of_trays(self, place: int, x: float, tops: list[float], high: float) -> None:
        scene, form = self.scene, self.form
        lattice = on_a_tray(place, self.frame.on_a_tray.at(place), form.pitch, high)
        down = (high - lattice.height(1)) / 2
        faint: list[Spot] = []
        at_work: list[float] = []
        spots: dict[Look, list[Spot]] = {Look.LIGHT: [], Look.FULL: []}
        for tray, top in zip(scene.trays, tops, strict=True):
            first = 0
            for count, look in ((tray.stayed.at(place), Look.LIGHT), (tray.came.at(place), Look.FULL)):
                spots[look] += ((dx, top + down + dy) for dx, dy in lattice.spots(first, count))
                first += count
            if place in scene.active and place == scene.level + tray.width:
                at_work.append(top)
            elif not first:
                faint.append((x + 3, top + 4.5))
        wide = form.column - 6
        if faint:
            self.marks.append(Boxes(0, 0, tuple(faint), wide, high - 9, "", "faint", 0.9, 4, _FAINT))
        for look, corners in spots.items():
            if corners:
                self.marks.append(Pieces(x + form.pad, 0, "trays", place, lattice.size, tuple(corners), look))
        if at_work:
            tall = at_work[-1] + high - at_work[0] - 5.6
            self._box(x + 3, at_work[0] + 2.8, wide, tall, "", "ink", 1.7, 5)

    def _stands_for(self, width: int) -> str:
        return self.words.say(f"figure.for-{10**width}")

    def _name(self, number: int, width: int, top: float, high: float) -> None:
        form = self.form
        base = top + high / 2 + 0.36 * form.text
        if width:
            size = min(20.0, 0.75 * high)
            x = 11.5 if form.narrow else self._wide - 26
            self.marks.append(Bow(x, top + 0.43 * high, 0.8 * size if form.narrow else size, ribbon_colour(width)))
        if form.narrow:
            if not self.frame.ribbons:
                self.marks.append(Label(12, base, str(number), form.text, "ink", True, "middle"))
        elif self.frame.ribbons:
            self.say(9, base, self._stands_for(width), 0.94 * form.text, bold=False)
        else:
            self.say(12, base, self.words.say("figure.tray", number=number), 0.97 * form.text)

    def share(self) -> None:
        form = self.form
        says = self.words.say("figure.share-of-one" if self.frame.ribbons else "figure.each-has")
        if form.narrow:
            self.say(8, self.y + 1.35 * form.text, says, form.text)
            self.y += 1.4 * form.text
        else:
            self.say(12, self.y + 0.7 * form.share, says, 0.97 * form.text)
        for place, x in self.columns:
            digit = self.scene.share[place] if place < len(self.scene.share) else ""
            if digit is None:
                high = 0.62 * form.share
                self._box(x + form.pad, self.y + 0.24 * form.share, 0.8 * high, high, "", "faint", 1, 3, _FAINT)
            elif digit:
                self.say(x + form.pad, self.y + 0.8 * form.share, digit, form.digit, place_colour(place))
        self.y += form.share

    @property
    def _wide(self) -> float:
        return self.form.width(self.frame.places)

    def _zone(self, high: float, fill: str, edge: str, name: str, dash: tuple[float, float] | None = None) -> None:
        form = self.form
        self._box(1, self.y, self._wide - 2, high, fill, edge, 1.4, 9 if dash else 5, dash)
        base = self.y + (1.25 if form.title else 1.65) * form.text
        self.say(8 if form.title else 12, base, self.words.say(name), form.text)

    def _slot(self, x: float, y: float, high: float, ground: str, now: bool = False) -> None:
        wide = self.form.column - 6
        if now:
            self._box(x, y, wide, high, ground, "ink", 1.7, 5)
        elif ground:
            self._box(x, y, wide, high, ground, radius=5)
        else:
            self._box(x, y, wide, high, "", "faint", 1, 5, _FAINT)

    def _box(
        self,
        x: float,
        y: float,
        wide: float,
        high: float,
        fill: str,
        edge: str = "",
        line: float = 1.0,
        radius: float = 6.0,
        dash: tuple[float, float] | None = None,
    ) -> None:
        self.marks.append(Boxes(x, y, HERE, wide, high, fill, edge, line, radius, dash))


def _pieces(group: str, lattice: Lattice, first: int, count: int, look: Look) -> Part:
    mark = Pieces(0, 0, group, lattice.place, lattice.size, lattice.spots(first, count), look)
    return Part(lattice.width(count), lattice.height(count), (mark,))
