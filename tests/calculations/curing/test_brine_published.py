"""Brines against tables printed outside the project, the source beside each."""

import pytest

from service.calculations.curing.brining.baume import baume_deg, gravity_of_baume_ratio
from service.calculations.curing.brining.density import SIXTY_F_C, brine_density_kg_per_m3
from service.calculations.curing.brining.freezing import freezing_point_c
from service.calculations.curing.brining.scales import (
    salometer_deg,
    salt_per_gallon_of_water_lb,
    specific_gravity_ratio,
)
from service.rules.book import RuleBook
from tests.calculations.curing.brines import answered, degf, make, salometer

TABLE = "Salometer brine table for 60 degF, reprinted on a public page"
CRC = "CRC Handbook of Chemistry and Physics, 102nd ed., 2021, Concentrative Properties of Aqueous Solutions, 20 degC"
LANGE = "Lange's Handbook of Chemistry, 15th ed., Table 5.13, sodium chloride brines"
GALLON_IN_AIR_LB, GALLON_LB = 8.328, 8.337
"""A US gallon of water at 60 degF, weighed in air, and by its true density."""

ROWS = [
    (10, 2.64, 0.226, 8.262),
    (12, 3.167, 0.272, 8.250),
    (15, 3.959, 0.343, 8.222),
    (20, 5.279, 0.464, 8.188),
    (25, 6.599, 0.588, 8.152),
    (30, 7.919, 0.716, 8.113),
    (33, 8.71, 0.795, 8.089),
    (35, 9.238, 0.848, 8.073),
    (40, 10.558, 0.983, 8.030),
    (42, 11.086, 1.038, 8.012),
    (48, 12.67, 1.208, 7.957),
    (100, 26.395, 2.986, None),
]
"""Degrees, percent by weight, pounds of salt to a US gallon of water, pounds of water in a US gallon of brine."""


@pytest.mark.parametrize(("deg", "printed_percent", "printed_lb", "water_lb"), ROWS)
def test_a_row_of_the_salometer_table(
    book: RuleBook, deg: float, printed_percent: float, printed_lb: float, water_lb: float | None
):
    """TABLE: percent and pounds within 0.0015, and pounds of water within 0.009, for it was built on three decimals."""
    figures = answered(book, make(salometer(deg), temperature=degf(60)), units="us").brine

    assert figures.salt_percent == pytest.approx(printed_percent, abs=0.0015), TABLE
    assert figures.salt_per_us_gallon_of_water_lb == pytest.approx(printed_lb, abs=0.0015), TABLE
    assert figures.saturation_percent == deg
    if water_lb:
        share = deg / 100 * 0.26395
        assert specific_gravity_ratio(share) * GALLON_IN_AIR_LB * (1 - share) == pytest.approx(water_lb, abs=0.009)


@pytest.mark.parametrize(("deg", "water_lb"), [(15, 8.222), (20, 8.188)])
def test_the_table_is_of_water_weighed_in_air(deg: float, water_lb: float):
    """TABLE: with the true density of water two of its rows would be missed by more than 0.009."""
    share = deg / 100 * 0.26395

    assert abs(specific_gravity_ratio(share) * GALLON_LB * (1 - share) - water_lb) > 0.009


@pytest.mark.parametrize(("deg", "percent", "misprint"), [(31, 8.182, 8.162), (2, 0.528, 0.526)])
def test_a_misprint_is_not_copied(deg: float, percent: float, misprint: float):
    """One reprint of the table has 8.162 for 31 degrees and 0.526 for 2; a degree is 0.26395 percent throughout."""
    assert salometer_deg(percent / 100) == pytest.approx(deg, abs=0.01)
    assert abs(salometer_deg(misprint / 100) - deg) > 0.005
    assert deg * 0.26395 == pytest.approx(percent, abs=0.002)


@pytest.mark.parametrize(
    ("percent", "density", "depression"), [(10, 1.0707, 6.56), (23, 1.1721, 20.67), (26, 1.1972, None)]
)
def test_a_row_of_the_handbook(percent: float, density: float, depression: float | None):
    """CRC: density within 0.0004 kg/l, freezing point within 0.05 degC; at 26 percent there is none printed."""
    share = percent / 100

    assert brine_density_kg_per_m3(share, temperature_c=20) / 1000 == pytest.approx(density, abs=4e-4), CRC
    if depression is not None:
        assert freezing_point_c(share) == pytest.approx(-depression, abs=0.05), CRC


@pytest.mark.parametrize(("percent", "printed_c"), [(5, -2.97), (15, -10.88), (23.3, -21.1)])
def test_a_brine_freezes_where_it_is_printed(percent: float, printed_c: float):
    """LANGE: within 0.15 degC, down to the lowest there is."""
    assert freezing_point_c(percent / 100) == pytest.approx(printed_c, abs=0.15), LANGE


def test_a_brine_stronger_than_the_lowest_has_no_freezing_point(book: RuleBook):
    """LANGE: 23.3 percent freezes last, at -21.1 degC; out of a stronger brine salt drops first."""
    assert answered(book, make(salometer(88))).brine.freezing_point is not None
    assert answered(book, make(salometer(89))).brine.freezing_point is None


def test_degrees_baume_of_a_gravity():
    """Be = 145 - 145/SG for liquids heavier than water, 60/60 degF: 1.078 is 10.49, within 0.02."""
    assert baume_deg(1.078) == pytest.approx(10.49, abs=0.02)
    assert gravity_of_baume_ratio(10.49) == pytest.approx(1.078, abs=2e-4)


@pytest.mark.parametrize(("deg", "printed"), [(0, 1.0), (100, 1.204)])
def test_the_ends_of_the_scale(deg: float, printed: float):
    """TABLE, specific gravity 60/60 degF: 1.000 at 0 and 1.204 (from memory) at 100 degrees, within 0.0006."""
    assert specific_gravity_ratio(deg / 100 * 0.26395) == pytest.approx(printed, abs=6e-4)


def test_a_pound_to_the_gallon_is_a_pound_in_8_328():
    """TABLE: 2.986 lb dissolve in a US gallon of water, and 8.337 lb to the gallon would make it 2.990."""
    assert salt_per_gallon_of_water_lb(0.26395) == pytest.approx(2.986, abs=0.0015)
    assert abs(GALLON_LB * 0.26395 / (1 - 0.26395) - 2.986) > 0.0015


def test_a_litre_of_brine_is_not_a_litre_of_water(book: RuleBook):
    """CRC: 10 percent is 107.1 g in a litre of brine of 20 degC; to a litre of water the same strength is 110.9 g."""
    figures = answered(book, make({"kind": "grams_per_litre", "salt_g_per_l": 107.07})).brine

    assert figures.salt_percent == pytest.approx(10, abs=0.01)
    assert round(998.2 * 0.1 / 0.9, 1) == 110.9


def test_sixty_fahrenheit_is_the_temperature_of_the_scale():
    """60 degF is 15.56 degC, exactly 140/9."""
    assert pytest.approx(140 / 9) == SIXTY_F_C
