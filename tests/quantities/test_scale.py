"""The kitchen scale: whole steps, rounded the way that is asked, without binary noise."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.quantities.quantity import Mass, Water, present_weight
from service.quantities.scale import scale_of

TENTHS = scale_of(Mass(value=0.1, unit="g"))


@pytest.mark.parametrize(
    ("mass_g", "steps", "shown"), [(0.3, 3, 0.3), (11.34, 113, 11.3), (0.09, 0, 0.0), (2.5, 25, 2.5)]
)
def test_down_to_the_step(mass_g: float, steps: int, shown: float):
    """0.3 g is three tenths, although 0.3 / 0.1 is 2.9999999999999996 to a computer; common practice, no source."""
    assert TENTHS.steps_down(mass_g) == steps
    assert TENTHS.reading(steps) == shown


def test_to_the_nearest_step():
    """Half a step goes up; common practice, no source."""
    assert [TENTHS.steps_nearest(mass_g) for mass_g in (0.24, 0.25, 0.26)] == [2, 3, 3]


def test_the_reading_is_in_the_unit_of_the_scale():
    """A scale of hundredths of an ounce shows ounces; 100 g are 3.52 of them (28.349523125 g each, exact)."""
    scale = scale_of(Mass(value=0.01, unit="oz"))

    shown = scale.down(100)

    assert (shown, scale.unit) == (3.52, "oz")
    assert shown * scale.unit_g == pytest.approx(3.52 * 28.349523125, rel=1e-15)
    assert scale.name == "0.01 oz"


@given(st.floats(1e-3, 1e9), st.floats(1e-3, 1e3))
def test_rounding_down_never_rounds_up(mass_g: float, step_g: float):
    """What is shown is not more than what was asked, but for the noise of the division; never two steps less."""
    scale = scale_of(Mass(value=step_g, unit="g"))

    shown_g = scale.down(mass_g) * scale.unit_g

    assert shown_g <= mass_g * (1 + 1e-12) + 1e-9 * step_g
    assert shown_g > mass_g * (1 - 1e-12) - 1.000001 * step_g


def test_water_by_volume():
    """A US gallon of water weighs 8.33 lb (FSIS handbook, reported) at room temperature."""
    assert Water(value=1, unit="gal").g / 453.59237 == pytest.approx(8.33, abs=0.005)
    assert Water(value=1, unit="kg").g == 1000


def test_weights_are_presented_in_kitchen_units():
    """Grams, or ounces up to a pound and pounds from there."""
    assert present_weight(1234.56, "metric").value == 1234.6
    assert (present_weight(100, "us").value, present_weight(100, "us").unit) == (3.53, "oz")
    assert (present_weight(1000, "us").value, present_weight(1000, "us").unit) == (2.205, "lb")


def test_scales_of_the_same_step_are_the_same_scale():
    """A scale is made ready once; another step or another unit is another scale."""
    assert scale_of(Mass(value=0.1, unit="g")) is TENTHS
    assert scale_of(Mass(value=0.1, unit="oz")) != TENTHS != scale_of(Mass(value=0.2, unit="g"))
