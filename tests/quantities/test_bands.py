"""Bands that rounding never makes narrower, and amounts as recipes write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.quantities.bands import present_band, rounded_down, rounded_sides, rounded_up
from service.quantities.quantity import Measure, Volume

weights_g = st.floats(1e-6, 1e9)


@given(weights_g, st.floats(0, 3), st.sampled_from(["metric", "us"]))
def test_a_band_is_never_rounded_narrower(low_g: float, more: float, units: str):
    """What lay between the sides lies between them as told, but for noise in the twelfth digit."""
    high_g = low_g * (1 + more)

    band = present_band(low_g, typical_g=None, high_g=high_g, units=units)  # type: ignore[arg-type]

    unit_g = {"g": 1, "oz": 28.349523125, "lb": 453.59237}[band.unit]
    assert band.low * unit_g <= low_g * (1 + 1e-11)
    assert band.high * unit_g >= high_g * (1 - 1e-11)
    assert band.low * unit_g == pytest.approx(low_g, rel=1e-3)
    assert band.high * unit_g == pytest.approx(high_g, rel=1e-3)


@pytest.mark.parametrize(
    ("value", "down", "up"),
    [(283.2, 283.2, 283.2), (8.399999999999999, 8.4, 8.4), (8.40001, 8.4, 8.401), (-53.7671, -53.77, -53.76)],
)
def test_four_digits_outward(value: float, down: float, up: float):
    """Down is down below zero too, and floating-point noise is no digit."""
    assert (rounded_down(value), rounded_up(value)) == (down, up)


@given(weights_g, st.floats(0, 3), st.floats(0, 1))
def test_three_sides_at_once_are_the_three_sides(low: float, more: float, between: float):
    """Bit by bit for the outer ones, in and out of the quick range; the middle one to its four digits."""
    high, typical = low * (1 + more), low * (1 + more * between)

    sides = rounded_sides(low, typical=typical, high=high)

    assert (sides[0], sides[2]) == (rounded_down(low), rounded_up(high))
    assert sides[1] == pytest.approx(typical, rel=5.01e-4)


@pytest.mark.parametrize("value", [9.9995, 9999, 9998.9999999999, 999.99999999999, 1e-6, 0.1, 8.399999999999999, 1000])
def test_the_edges_of_a_power_of_ten_are_kept(value: float):
    """Where four digits turn into five, and noise into a whole number."""
    assert rounded_sides(value, typical=value, high=value)[::2] == (rounded_down(value), rounded_up(value))


def test_a_cup_is_a_volume_and_a_pound_is_a_weight():
    """A US cup is 236.588 ml (231 cubic inches to the gallon); each has only its own kind of number."""
    cup, pound = Measure(value=1, unit="cup"), Measure(value=1, unit="lb")

    assert (cup.is_volume, pound.is_volume) == (True, False)
    assert cup.ml == Volume(value=1, unit="cup").ml == pytest.approx(236.588, abs=1e-3)
    assert pound.g == 453.59237
    with pytest.raises(ValueError, match="cup is a volume"):
        _ = cup.g
    with pytest.raises(ValueError, match="lb is a weight"):
        _ = pound.ml
