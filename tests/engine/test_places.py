import pytest

from generator.engine.places import Counts, place_name

NAMES = ["units", "tens", "hundreds", "thousands", "ten-thousands", "hundred-thousands", "millions", "10^7", "10^8"]


@pytest.mark.parametrize(("place", "name"), [*enumerate(NAMES)])
def test_names(place: int, name: str) -> None:
    assert place_name(place) == name


def test_a_number_in_places() -> None:
    for number in (*range(1001), 9999, 10_000, 1_000_000, 10**15 - 1):
        counts = Counts.of(number)
        assert counts.value == number
        assert "".join(map(str, counts.named().values())) == str(number)
        assert counts.pieces == sum(map(int, str(number)))
        assert all(counts[place] for place in counts.places_held)
        assert sum(map(bool, counts)) == len(counts.places_held)


def test_counts_above_nine() -> None:
    counts = Counts((30, 0, 12, 5))
    assert counts.value == 5 * 1000 + 12 * 100 + 30
    assert counts.pieces == 47
    assert counts.places_held == (3, 2, 0)
    assert list(counts.named().items()) == [("thousands", 5), ("hundreds", 12), ("tens", 0), ("units", 30)]
    assert [counts.at(place) for place in (0, 3, 4, 40)] == [30, 5, 0, 0]


def test_debts_of_the_bank_have_a_value_too() -> None:
    assert Counts((-10, 1)).value == 0
