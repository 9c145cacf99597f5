"""The file of phrases holds just what the program asks for, in the forms that its language has."""

import re
import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

import pytest
from babel import Locale

from generator import HANDBOOK, PROJECT
from generator.engine.choosing_numbers import NUMBER_KINDS
from generator.engine.places import place_name
from generator.engine.repair_movements import At
from generator.engine.slips import Slip, Spot
from generator.source.fields import Model
from generator.source.models import LessonFile
from generator.source.school import School, ShelfTable
from generator.words.slips import OF_CARDS

LANGUAGES = [file.parent.name for file in HANDBOOK.glob("*/phrases.toml")]
PLACES = [place_name(place) for place in range(7)]
CARDS = ["large_cards_to", "small_cards_to"]
THINGS = ["small_sets", "trays", "ten_ribbons", "hundred_ribbons", "thousand_ribbons", "larger_ribbons"]
WAYS = ["1", "2", "3"]
FOUND = [f"found-{where}" for where in (At.LEFT_OVER, "middle", At.TRAY)]
SAID_IN_TURN = (
    *("next", "together", "nothing", "too-few", "round", "no-round"),
    *("take-back", "look-first", "short", "short-at-first", "to-bank"),
)
HAPPENED_AT = {
    Slip.SAME_KIND: (Spot.ONE_TRAY, Spot.EVERY_TRAY),
    Slip.ROLLED_AWAY: (Spot.MIDDLE, Spot.ONE_TRAY),
}
LOOK_AT = {Slip.NOT_BANKED: (Spot.MIDDLE, Spot.LEFT_OVER)}
"""The spots at which a slip has sentences of their own, and none for all of them."""
LOOK_FOR_TOO_MANY = [
    f"{slip}.look" for slip in (Slip.SAME_KIND, Slip.LEFT_OVER_DEALT, Slip.NOT_TAKEN_BACK, Slip.DEALT_TWICE)
]
"""Of these slips `slip.look` tells where to look."""


def of_slips(part: str, at: Mapping[Slip, tuple[Spot, ...]]) -> Iterator[str]:
    """The keys of a sentence of every slip, at each of its spots or once for all."""
    for slip in Slip:
        yield from (f"{slip}.{spot}.{part}" for spot in at[slip]) if slip in at else (f"{slip}.{part}",)


def keys_of(model: type[Model]) -> Iterator[str]:
    """The keys of a school.toml, with the table that they stand in."""
    for key, field in model.model_fields.items():
        if isinstance(field.default, Model):
            yield from (f"{key}.{within}" for within in keys_of(type(field.default)))
        else:
            yield key


PUT_TOGETHER = {
    "stands-for": PLACES[:4],
    "figure.for": ["1", "10", "100"],
    "figure.key": ["full", "light", "dotted"],
    "figure.none": PLACES[:4],
    "group.kind": NUMBER_KINDS,
    "banker": WAYS,
    "guide": [
        *(f"{largest}{few}" for largest in ("largest", "only-units") for few in ("", "-too-few")),
        *("nothing-at-the-end", "filled", "largest-with-ribbons"),
        *(f"{how}.{way}" for how in SAID_IN_TURN for way in WAYS),
    ],
    "lesson.screen": ["set-out", "finished", "check"],
    "material": [*PLACES[:4], "larger"],
    "number": [str(number) for number in (*range(21), *range(30, 100, 10))],
    "number.of": ["hundreds", "thousands"],
    "page": [
        f"{page}.{part}"
        for page in ("home", "today", "path", "plans", "cards", "choosing", "group", "a-z")
        for part in ("title", "description", "tags")
    ],
    "practise.and-then": ["next-place", "not-enough"],
    "practise.wrong": [
        *("round", "not-enough", "begin-a-round", "take-back", "bank", "bank-for-a-round", "next-place"),
        *("next-place-with-ribbons", "left-over"),
    ],
    "piece": [*PLACES, "larger"],
    "place": [*PLACES, "larger"],
    "glance": [f"share{whose}" for whose in ("", "-with-ribbons", "-nobody-for-one")],
    "repair": [At.LEFT_OVER, "middle", At.TRAY, "a-tray", At.BANK, "bring", "give", "take", "to-left-over"],
    "ribbons.colour": ["tens", "hundreds", "larger"],
    "search": [
        *("children", "ribbons", "dozen", "among", "besides", "besides-a-division", "says-little", "pieces", "trays"),
        *("number", "group", "group-with-ribbons", "division", "division-with-ribbons"),
    ],
    "setting": [*keys_of(School), *(f"lesson.{key}" for key in LessonFile.model_fields)],
    "shape": PLACES[:4],
    "today.head": ["number", "each", "left-over", "exchanges", "minutes"],
    "today.near": ["static", "exact", "same", "alike"],
    "today.on-shelf": [*ShelfTable.model_fields],
    "today.shelf": ["own", "entered", "of-another-day", "not-kept"],
    "today.fault": ["number", "children", "ribbons"],
    "group.only": ["exact", "without-zero", "exact-without-zero"],
    "repair.where": [At.LEFT_OVER, "middle", At.TRAY],
    "shortage.more": [*PLACES[:4], *THINGS],
    "shortage.thing": [*CARDS, *THINGS],
    "slip": [
        *of_slips("happened", HAPPENED_AT),
        *(key for key in of_slips("look", LOOK_AT) if key not in LOOK_FOR_TOO_MANY),
        *(f"{slip}.{Spot.LEFT_OVER}.look" for slip in (Slip.SKIPPED, Slip.NONE_OF_A_PLACE)),
        *("look", "look-with-ribbons", "mend"),
        *(
            f"{Slip.NOT_BANKED}.{Spot.ONE_TRAY}.happened",
            *(f"{slip}.mend-of-units" for slip in (Slip.BANK_NINE, Slip.LAID_FEW)),
        ),
        *(f"{slip}.{Spot.EVERY_TRAY}.happened-with-ribbons" for slip in OF_CARDS),
        *(f"whose-cards.{whose}" for whose in (Spot.ONE_TRAY, Spot.EVERY_TRAY)),
        *(f"{slip}.mend" for slip in (*OF_CARDS, Slip.TRAY_FEW, Slip.TRAY_MANY, Slip.BIG_TRAY_READ)),
        *(f"{Slip.SAME_KIND}.{part}" for part in ("happened", f"{Spot.EVERY_TRAY}.mend")),
    ],
    "turn": [
        *(f"{turns}{which}" for turns in ("rounds", "exchanges") for which in ("", "-all", "-first", "-from-to")),
        "rounds-only",
    ],
    "way": [f"zero{more}-{where}" for more in ("", "s") for where in ("inside", "at-end")],
}
"""Keys of which the program puts the end together: the table, and every end that there is."""
WITH_A_HYPHEN = ("figure.for", "number.of")
IF_THERE = {"slip.": ("-with-ribbons", "-nobody-for-one", "-of-units"), "figure.": ("-in-short",)}
"""Endings of more special phrases, which are asked for before the others of a table."""


def phrases_of(language: str) -> dict[str, Any]:
    tables = tomllib.loads((HANDBOOK / language / "phrases.toml").read_text("utf-8"))
    del tables["plural"]
    return dict(flat("", tables))


def flat(prefix: str, table: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    for key, value in table.items():
        if isinstance(value, str) or "other" in value:
            yield prefix + key, value
        else:
            yield from flat(f"{prefix}{key}.", value)


def forms(phrase: str | Mapping[str, str]) -> list[str]:
    return [phrase] if isinstance(phrase, str) else list(phrase.values())


def asked_for(language: str) -> set[str]:
    """Every key that stands in the program, in a template or on an authored page."""
    sources = [
        *(PROJECT / "generator").rglob("*.py"),
        *(HANDBOOK / language).rglob("*.jinja"),
        *(HANDBOOK / language).rglob("*.md"),
        *(HANDBOOK / "theme" / "js").rglob("*.js"),
    ]
    text = "\n".join(file.read_text("utf-8") for file in sources)
    tables = "|".join({key.split(".")[0] for key in phrases_of(language)})
    literal = set(re.findall(rf'"((?:{tables})(?:\.[a-z-]+)+)"', text))
    put_together = {
        f"{table}-{end}" if table in WITH_A_HYPHEN else f"{table}.{end}"
        for table, ends in PUT_TOGETHER.items()
        for end in ends
    }
    asked = put_together | literal
    special = {key + end for table, ends in IF_THERE.items() for key in asked if key.startswith(table) for end in ends}
    return (
        put_together
        | special & phrases_of(language).keys()
        | {key for key in literal if not key.endswith((".md", ".html", ".jinja", ".svg", ".toml"))}
    )


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_is_asked_for_is_there_and_nothing_else(language: str) -> None:
    there, asked = set(phrases_of(language)), asked_for(language)
    assert there - asked == set(), "nothing asks for these"
    assert asked - there == set(), "these are not in phrases.toml"


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_phrase_with_forms_has_those_of_its_language(language: str) -> None:
    """Source: the plural rules of Unicode CLDR, as Babel has them."""
    categories = Locale(language).plural_form.tags | {"other"}
    tables = {key: phrase for key, phrase in phrases_of(language).items() if not isinstance(phrase, str)}
    assert tables
    assert {key: set(phrase) for key, phrase in tables.items()} == dict.fromkeys(tables, categories)


@pytest.mark.parametrize("language", LANGUAGES)
def test_braces_hold_plain_names(language: str) -> None:
    for key, phrase in phrases_of(language).items():
        for form in forms(phrase):
            assert not re.search("[{}]", re.sub(r"\{[a-z_]+\}", "", form)), key


@pytest.mark.parametrize("language", LANGUAGES)
def test_all_forms_of_a_phrase_name_the_same_things(language: str) -> None:
    """But `counted.some`, which is given the thing itself in two forms."""
    for key, phrase in phrases_of(language).items():
        named = {frozenset(re.findall(r"\{(\w+)\}", form)) - {"count"} for form in forms(phrase)}
        assert len(named) == 1 or key == "counted.some", key
