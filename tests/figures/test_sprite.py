"""The sprite shows every piece in every look, each in a window of its own."""

import xml.etree.ElementTree as ElementTree
from itertools import combinations

from generator.figures.gallery import drawing
from generator.figures.picture import SPRITE
from tests.figures.cases import WORDS

_SVG = "{http://www.w3.org/2000/svg}"
PIECES = [f"{shape}-{look}" for shape in ("cube", "square", "bar", "bead") for look in ("full", "light", "dotted")]


def test_every_view_is_there_and_none_shows_a_part_of_another() -> None:
    views = {
        view.get("id", ""): [float(number) for number in view.get("viewBox", "").split()]
        for view in ElementTree.fromstring(drawing(WORDS, SPRITE)).iter(f"{_SVG}view")
    }
    assert sorted(views) == sorted([*PIECES, "bow-ten", "bow-hundred"])
    for (one, a), (other, b) in combinations(views.items(), 2):
        apart = a[0] + a[2] <= b[0] or b[0] + b[2] <= a[0] or a[1] + a[3] <= b[1] or b[1] + b[3] <= a[1]
        assert apart, f"{one} and {other}"


def test_it_has_no_ground_of_its_own() -> None:
    assert b"var(--paper)" not in drawing(WORDS, SPRITE).partition(b"<g id")[0].partition(b"</style>")[2]
