"""What must hold of every ingredient and every measure, by the table as it is written."""

from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter

from service.calculations.curing.salts import CuringSalt, Nitrite
from service.calculations.measures.spoons import (
    Band,
    Grams,
    band_of_curing_salt,
    band_of_kind,
    grams_of,
    grams_of_pieces,
    teaspoons_in,
)
from service.calculations.measures.weigh import WeighAnswer, WeighRequest, weigh
from service.calculations.refusals import Impossible
from service.quantities.quantity import Mass, Measure, Volume
from service.rules.book import RuleBook
from service.rules.loader import load_book
from tests.calculations.measures.pantry import (
    TEASPOONS,
    faults_of_answer,
    lawful_body,
    published_teaspoons,
    rows,
)

BOOK: RuleBook = load_book("test")
SPOONED = sorted(id for id, row in rows().items() if "readings" in row and row["kind"] != "curing_salt")

values = st.floats(0.001, 1e6)
units = st.sampled_from(sorted(TEASPOONS))


def volume_of(value: float, unit: str) -> Volume:
    """A checked volume."""
    return Volume.model_validate({"value": value, "unit": unit})


@given(st.sampled_from(SPOONED), values, units)
def test_every_published_figure_and_the_typical_lie_in_the_band(id: str, value: float, unit: str):
    """Whatever was printed of an ingredient, a kitchen that has it is inside the band."""
    grams = grams_of(BOOK.ingredients[id], volume_of(value, unit))

    every_g = [value * TEASPOONS[unit] * teaspoon_g for teaspoon_g in published_teaspoons(rows()[id])]
    assert grams.low_g <= grams.typical_g <= grams.high_g
    assert grams.low_g <= min(every_g) * (1 + 1e-9)
    assert grams.high_g >= max(every_g) * (1 - 1e-9)


@given(st.sampled_from(SPOONED), st.floats(0.001, 1e3), units, st.floats(1, 100))
def test_the_band_grows_with_the_measure(id: str, value: float, unit: str, times: float):
    """Three spoons weigh three times one spoon, at the low side, at the high side and between."""
    one, many = (grams_of(BOOK.ingredients[id], volume_of(value * n, unit)) for n in (1, times))

    assert (many.low_g, many.typical_g, many.high_g) == pytest.approx(
        tuple(times * side_g for side_g in (one.low_g, one.typical_g, one.high_g))
    )


@given(st.integers(0, 2**32))
def test_every_answer_keeps_what_was_published(seed: int):
    """Rounded and told, a band still holds every figure, and curing salt never has a typical weight."""
    body = lawful_body(Random(seed))

    answer = weigh(WeighRequest.model_validate(body), BOOK)

    told: dict[str, Any] = TypeAdapter(WeighAnswer).dump_python(answer, mode="json")
    assert faults_of_answer(body, told) == []


@given(st.floats(0.1, 10), st.sampled_from(["sodium_nitrite", "potassium_nitrite"]), values, units)
def test_a_spoon_of_curing_salt_is_a_band(percent: float, salt: Any, value: float, unit: str):
    """At every strength: from 5 g at the lightest, with no weight between the sides."""
    label = CuringSalt(nitrite=Nitrite(salt=salt, percent=percent))

    band = band_of_curing_salt(BOOK, label, volume_of(value, unit))

    assert not hasattr(band, "typical_g")
    assert band.low_g == pytest.approx(5 * teaspoons_in(volume_of(value, unit)))
    assert band.high_g >= 6 * band.low_g / 5


def test_a_weight_is_what_it_is(book: RuleBook):
    """A weighed ingredient has no spread, curing salt included."""
    mass, salt = Mass(value=2, unit="oz"), Measure(value=2, unit="oz")

    assert grams_of(book.ingredients["curing-salt-6-25"], mass) == Grams(56.69904625, 56.69904625, 56.69904625)
    assert grams_of(book.ingredients["mace-ground"], salt) == grams_of(book.ingredients["mace-ground"], mass)
    assert band_of_kind(book, "salt", mass) == Band(56.69904625, 56.69904625)


def test_salt_of_unknown_crystal_is_every_salt(book: RuleBook):
    """The band of the kind holds the band of each salt, and no more."""
    teaspoon = volume_of(1, "tsp")
    salts = [grams_of(one, teaspoon) for one in book.ingredients.values() if one.kind == "salt"]

    band = band_of_kind(book, "salt", teaspoon)

    assert band == Band(min(one.low_g for one in salts), max(one.high_g for one in salts))
    assert band.high_g / band.low_g > 3


def test_a_kind_without_figures_has_no_band(book: RuleBook):
    """A kind of which nothing was weighed is refused, not given a band of nothing."""
    with pytest.raises(Impossible) as refused:
        band_of_kind(book, "nonesuch", volume_of(1, "tsp"))  # type: ignore[arg-type]

    assert refused.value.code == "no_volume_figure"


@pytest.mark.parametrize("id", sorted(id for id, row in rows().items() if "piece" in row))
def test_a_piece_is_never_one_weight(book: RuleBook, id: str):
    """Cloves, leaves, sticks and cubes have a band of at least double."""
    grams = grams_of_pieces(book.ingredients[id], 3)

    assert grams.low_g < grams.typical_g < grams.high_g
    assert grams.high_g >= 2 * grams.low_g
    assert grams.typical_g == pytest.approx(3 * rows()[id]["piece"]["g"])


def test_proof_finds_a_band_that_leaves_something_out():
    """A band that is too narrow, no typical weight and one outside of its band are named."""
    spoon = {"kind": "by_volume", "ingredient": "table-salt", "volume": {"value": 1, "unit": "tsp"}}
    clove = {"kind": "by_piece", "ingredient": "garlic-clove", "count": 1}

    assert len(faults_of_answer({"what": spoon}, _told(low=6.0, typical=6.0, high=6.1))) == 1
    assert len(faults_of_answer({"what": spoon}, _told(low=5.0, typical=None, high=7.0))) == 1
    assert len(faults_of_answer({"what": clove}, _told(low=1.5, typical=8.0, high=6.0))) == 1
    assert faults_of_answer({"what": clove}, _told(low=1.5, typical=3.0, high=6.0)) == []


@pytest.mark.parametrize(("typical", "high_ppm", "faults"), [(None, 217.5, 0), (5.6, 217.5, 1), (None, 200.0, 1)])
def test_proof_finds_a_weight_of_curing_salt(typical: float | None, high_ppm: float, faults: int):
    """A typical weight of a spoon, and ppm that are not those of its sides, are named: 8.7 g in 2.5 kg is 217.5 ppm."""
    label = {"nitrite": {"salt": "sodium_nitrite", "percent": 6.25}}
    meat, volume = {"value": 2.5, "unit": "kg"}, {"value": 1, "unit": "tsp"}
    spoon = {"kind": "curing_salt_by_volume", "volume": volume, "curing_salt": label, "meat": meat}
    told = {**_told(low=5.0, typical=typical, high=8.7), "ingoing_nitrite": {"low_ppm": 125.0, "high_ppm": high_ppm}}

    assert len(faults_of_answer({"what": spoon}, told)) == faults


def _told(*, low: float, typical: float | None, high: float) -> dict[str, Any]:
    """An answer with this weight in grams."""
    return {"weight": {"low": low, "typical": typical, "high": high, "unit": "g"}}
