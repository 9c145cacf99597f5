"""What school.toml may hold, and that its defaults are told in one place."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from pydantic.fields import FieldInfo

from generator.engine.places import Counts
from generator.source.fields import Model
from generator.source.models import Expects, LessonFile, PageMeta, StepFile
from generator.source.reading import decode, parse_toml
from generator.source.school import School, ShelfTable
from generator.source.theme import Colours
from generator.source.validating import validated

HANDBOOK = Path(__file__).parents[2] / "handbook"
MODELS: tuple[type[Model], ...] = (LessonFile, StepFile, Expects, PageMeta, School, Colours)


def _fields(model: type[Model]) -> Iterator[tuple[str, FieldInfo]]:
    for key, field in model.model_fields.items():
        if isinstance(field.annotation, type) and issubclass(field.annotation, Model):
            yield from _fields(field.annotation)
        else:
            yield f"{model.__name__}.{key}", field


FIELDS = [pair for model in MODELS for pair in _fields(model)]


@pytest.mark.parametrize(("name", "field"), FIELDS, ids=[name for name, _ in FIELDS])
def test_every_key_says_what_is_right_on_one_line(name: str, field: FieldInfo) -> None:
    right = field.description or ""
    assert right, name
    assert right == " ".join(right.split()), name
    assert not right.endswith("."), name


def test_the_stock_settings_are_the_defaults_but_for_the_name() -> None:
    path = HANDBOOK / "school.toml"
    table = parse_toml(decode(path.read_bytes(), "school.toml"), "school.toml")
    stock = validated(School, table)
    assert stock.model_copy(update={"name": School().name}) == School()
    assert set(_unset(School, table.values)) == {"steps", "site_url"}


def _unset(model: type[Model], table: Mapping[str, Any]) -> Iterator[str]:
    """The keys of a model, and of the models in it, that a table leaves out."""
    for key, field in model.model_fields.items():
        if key not in table:
            yield key
        elif isinstance(field.default, Model):
            yield from (f"{key}.{inner}" for inner in _unset(type(field.default), table[key]))


def test_the_shelf_as_the_engine_takes_it() -> None:
    owned = ShelfTable(thousands=1, hundreds=2, tens=3, units=4, ten_ribbons=5, hundred_ribbons=6).owned
    assert owned.pieces == Counts((4, 3, 2, 1))
    assert owned.ribbons == Counts((0, 5, 6))


@pytest.mark.parametrize("card", [9, 10, 90, 300, 1000, 3000, 9000])
def test_a_card_is_one_digit_and_zeros(card: int) -> None:
    assert ShelfTable(small_cards_to=card).small_cards_to == card


def test_a_colour_has_the_contrast_of_wcag_with_white() -> None:
    """1.4.3: at least 4.5 to 1; #767676 has 4.54 and #777777 has 4.48."""
    assert Colours(links="#767676").links == "#767676"
    with pytest.raises(ValueError, match=r"#777777 against white has a contrast of 4\.4 to 1"):
        Colours(links="#777777")


@pytest.mark.parametrize(
    ("address", "kept"),
    [
        ("https://intranet.example/sharing", "https://intranet.example/sharing/"),
        ("http://192.0.2.7:8080/", "http://192.0.2.7:8080/"),
        ("http://[2001:db8::7]:65535", "http://[2001:db8::7]:65535/"),
        ("HTTPS://pré.xn--bcher-kva.example/a_b/~c.d", "HTTPS://pré.xn--bcher-kva.example/a_b/~c.d/"),
        ("https://हिन्दी.example", "https://हिन्दी.example/"),
        ("http://school_server/sharing/", "http://school_server/sharing/"),
        ("https://localhost//", "https://localhost/"),
        ("http://[1::2::3]/", "http://[1::2::3]/"),
    ],
)
def test_an_address_ends_with_a_slash(address: str, kept: str) -> None:
    assert School(site_url=address).site_url == kept


@pytest.mark.parametrize(
    "address",
    [
        *("", "/sharing/", "sharing.example", "ftp://sharing.example/", "javascript:alert(1)", "https://", "https://["),
        *("https://a.example/?x=1", "https://a.example/#x", "https://me@a.example/", "https://a.example/ b"),
        *('https://a.example/"onload="x', "https://a.example/<script>", "data:text/html,x", "file:///etc/"),
        *("https://a.example/b?", "https://a.example/b#", "https://a.example?", "https://a.example#"),
        *("https://:pw@a.example/", "https://ho$st{};", "https:///a/", "https://[x]/"),
        *("\u0001https://a.example/", "https://a\u200b.example/", "https://a.example/\u200b", "https://a\nb.example/"),
        "http\u017f://a.example/",
    ],
)
def test_other_addresses_are_refused(address: str) -> None:
    with pytest.raises(ValueError, match="site_url"):
        School(site_url=address)
