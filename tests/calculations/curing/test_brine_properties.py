"""Density, freezing point and heat of brine against another property library."""

from collections.abc import Iterator

import pytest
from CoolProp.CoolProp import PropsSI

from service.calculations.curing.brining.density import brine_density_kg_per_m3
from service.calculations.curing.brining.freezing import freezing_point_c
from service.calculations.curing.brining.heat import (
    brine_heat_capacity_kj_per_kg_k,
    brine_heat_kj_per_kg,
    water_heat_capacity_kj_per_kg_k,
)
from tests.calculations.curing.brines import density, freezing, specific_gravity

ZERO_K, ATMOSPHERE_PA = 273.15, 101325
STRENGTHS = [n / 100 for n in range(1, 24)]
"""Up to 23 percent: the library refuses stronger brines."""
SOURCE = "CoolProp 8, INCOMP::MNA (Melinder 2010)"


def grid(coldest_c: int) -> Iterator[tuple[float, float]]:
    """Strengths and temperatures up to 40 degC, where the brine is liquid by more than half a degree."""
    for w in STRENGTHS:
        yield from ((w, float(t)) for t in range(coldest_c, 41, 2) if t > freezing(w) + 0.5)


def of_brine(figure: str, w: float, t: float) -> float:
    """A property by the library."""
    return float(PropsSI(figure, "T", ZERO_K + t, "P", ATMOSPHERE_PA, f"INCOMP::MNA[{w}]"))


def of_water(figure: str, t: float) -> float:
    """A property of water by IAPWS-95."""
    return float(PropsSI(figure, "T", ZERO_K + t, "P", ATMOSPHERE_PA, "Water"))


def test_density_agrees_within_a_thousandth():
    """SOURCE: from 0 to 40 degC and 1 to 23 percent."""
    off = [abs(brine_density_kg_per_m3(w, temperature_c=t) / of_brine("D", w, t) - 1) for w, t in grid(0)]

    assert len(off) > 400
    assert max(off) <= 1e-3, SOURCE


def test_density_agrees_below_zero_within_three_half_thousandths():
    """SOURCE: down to -5 degC, as long as the brine is liquid."""
    off = [abs(brine_density_kg_per_m3(w, temperature_c=t) / of_brine("D", w, t) - 1) for w, t in grid(-5) if t < 0]

    assert len(off) > 40
    assert max(off) <= 1.5e-3, SOURCE


def test_water_weighs_what_water_weighs():
    """IAPWS-95: the brine without salt is water, within 0.01 percent up to 95 degC."""
    off = [abs(brine_density_kg_per_m3(0.0, temperature_c=t) / of_water("D", t) - 1) for t in range(1, 96)]

    assert max(off) <= 1e-4


def test_freezing_points_agree_within_two_tenths():
    """SOURCE: from half a percent to 23 percent, within 0.2 K."""
    off = [
        abs(
            freezing_point_c(n / 200)
            - (PropsSI("T_freeze", "T", 280, "P", ATMOSPHERE_PA, f"INCOMP::MNA[{n / 200}]") - ZERO_K)
        )
        for n in range(1, 47)
    ]

    assert max(off) <= 0.2, SOURCE


def test_heat_capacity_agrees_within_seven_thousandths():
    """SOURCE: from 0 to 40 degC and 1 to 23 percent; and water within 0.02 percent of IAPWS-95 up to 99 degC."""
    off = [
        abs(1000 * brine_heat_capacity_kj_per_kg_k(w, temperature_c=t) / of_brine("C", w, t) - 1) for w, t in grid(0)
    ]
    water = [abs(1000 * water_heat_capacity_kj_per_kg_k(t) / of_water("C", t) - 1) for t in range(1, 100)]

    assert max(off) <= 7e-3, SOURCE
    assert max(water) <= 2e-4


@pytest.mark.parametrize("t", [0.1, 4, 40, 80, 99])
def test_heat_of_water_is_that_of_the_steam_tables(t: float):
    """IAPWS-95: enthalpy above 25 degC within 0.05 kJ/kg."""
    assert brine_heat_kj_per_kg(0.0, temperature_c=t) == pytest.approx(
        (of_water("H", t) - of_water("H", 25)) / 1000, abs=0.05
    )


def test_another_fit_of_published_densities_agrees():
    """Laliberte 2009, fitted apart: densities from 0 to 40 degC and gravities, to saturation, within 0.06 percent."""
    for n in range(1, 27):
        w = n / 100
        gravity = brine_density_kg_per_m3(w, temperature_c=140 / 9) / brine_density_kg_per_m3(0, temperature_c=140 / 9)
        assert gravity == pytest.approx(specific_gravity(w), rel=6e-4)
        for t in (0, 4, 10, 20, 30, 40):
            assert brine_density_kg_per_m3(w, temperature_c=t) / 1000 == pytest.approx(density(w, t), rel=6e-4)
