"""What no brine may break: salt, water and heat are kept, and every scale leads back to where it came from."""

import json
from random import Random
from typing import Any

import pytest
from CoolProp.CoolProp import PropsSI

from service.calculations.curing.brine import BrineRequest, brine
from service.calculations.curing.brining.baume import baume_deg, gravity_of_baume_ratio
from service.calculations.curing.brining.density import brine_density_kg_per_m3
from service.calculations.curing.brining.salt_content import salt_of_density_fraction, salt_of_grams_per_litre_fraction
from service.quantities.models import written
from service.rules.book import RuleBook
from tests.calculations.curing.brine_bodies import lawful_body
from tests.calculations.curing.brine_faults import faults_of_brine
from tests.calculations.curing.brines import answered, cool, degc, make, percent

DRAWN = [n / 200 * 0.26395 for n in range(1, 201)]


@pytest.mark.parametrize("seed", range(60))
def test_a_drawn_brine_balances(book: RuleBook, seed: int):
    """Salt, water and heat by other fits than the service's; ten brines to a seed."""
    random = Random(seed)
    for _ in range(10):
        body = lawful_body(random)

        told = json.loads(written(brine(BrineRequest.model_validate(body), book)))

        assert faults_of_brine(body, told) == [], body


def test_a_faulty_balance_is_found(book: RuleBook):
    """With a tenth less ice, half the salt, or warm and ready, the proof finds the fault."""
    iced = {"task": cool(percent(24), percent(7), cooling={"kind": "to_temperature", "wanted": degc(1)})}
    salted = {"task": make(percent(8))}
    told, made = (json.loads(written(brine(BrineRequest.model_validate(one), book))) for one in (iced, salted))
    assert faults_of_brine(iced, told) == faults_of_brine(salted, made) == []

    warm = {**told, "brine": {**told["brine"], "temperature": degc(6)}}
    _scale(told, "ice", 0.9)
    _scale(made, "salt", 0.5)

    assert all((faults_of_brine(iced, warm), faults_of_brine(iced, told), faults_of_brine(salted, made)))


def _scale(told: dict[str, Any], what: str, share: float) -> None:
    next(one for one in told["weigh"] if one["what"] == what)["exact_g"] *= share


@pytest.mark.parametrize("t", [-5, 0, 4, 20, 40])
def test_every_density_leads_back_to_its_strength(t: float):
    """Density and grams per litre grow with strength, so each has one strength."""
    for w in DRAWN:
        density = brine_density_kg_per_m3(w, temperature_c=t)

        assert salt_of_density_fraction(density, temperature_c=t) == pytest.approx(w, abs=1e-9)
        assert salt_of_grams_per_litre_fraction(w * density, temperature_c=t) == pytest.approx(w, abs=1e-9)


def test_what_no_brine_weighs_has_no_strength():
    """Lighter than water, or heavier than any brine."""
    assert salt_of_density_fraction(990, temperature_c=4) is None
    assert salt_of_density_fraction(1300, temperature_c=4) is None
    assert salt_of_grams_per_litre_fraction(400, temperature_c=4) is None


@pytest.mark.parametrize("ratio", [1.0, 1.05, 1.204])
def test_baume_leads_back_to_the_gravity(ratio: float):
    """There and back."""
    assert gravity_of_baume_ratio(baume_deg(ratio)) == pytest.approx(ratio)


def test_one_brine_has_one_strength_on_every_scale(book: RuleBook):
    """What is told of 60 degrees on each scale, stated again, gives 60 degrees; Baume is told to a hundredth."""
    told = answered(book, make({"kind": "salometer", "deg": 60}, temperature=degc(20))).brine
    at = degc(140 / 9)
    scales: list[dict[str, Any]] = [
        percent(told.salt_percent),
        {"kind": "grams_per_litre", "salt_g_per_l": told.salt_g_per_l},
        {"kind": "specific_gravity", "ratio": told.specific_gravity_ratio, "read_at": at},
        {"kind": "baume", "deg": told.baume_deg, "read_at": at},
    ]

    assert [answered(book, make(one)).brine.salometer_deg for one in scales] == pytest.approx([60] * 4, abs=0.05)


def test_ice_by_the_steam_tables(book: RuleBook):
    """IAPWS-95 for water, and 333.55 kJ/kg: the ice agrees within 1 percent.

    A concentrate of 0.2 percent makes it all but a balance of water.
    """
    hot = {"strength": percent(0.2), "temperature": degc(80)}
    answer = answered(book, cool(percent(24), percent(0.1), concentrate=hot))
    told = {one.what: one.exact_g / 1000 for one in answer.weigh}

    def heat(t: float) -> float:
        return float(PropsSI("H", "T", 273.15 + t, "P", 101325, "Water")) / 1000

    needed = (told["concentrate"] * heat(80) + (told["water"] + told["ice"]) * heat(10) - 10 * heat(3)) / (
        heat(10) - heat(0.01) + 333.55
    )
    assert told["ice"] == pytest.approx(needed, rel=0.01)


def test_a_cold_brine_by_another_heat_capacity(book: RuleBook):
    """CoolProp, INCOMP::MNA: 20 percent at 30 degC thinned to 8, with mean heat capacities, within 3 percent."""
    hot = {"strength": percent(20), "temperature": degc(30)}
    answer = answered(book, cool(percent(20), percent(8), concentrate=hot, water_temperature=degc(25)))
    told = {one.what: one.exact_g / 1000 for one in answer.weigh}

    def capacity(w: float, t: float) -> float:
        return float(PropsSI("C", "T", 273.15 + t, "P", 101325, f"INCOMP::MNA[{w}]")) / 1000

    brought = told["concentrate"] * capacity(0.20, 27.5) * 5
    left = 12.5 * capacity(0.08, 14) * (3 - 25)
    needed = (brought - left) / (4.19 * 25 + 333.55)
    assert told["ice"] == pytest.approx(needed, rel=0.03)


def test_the_temperature_of_the_ice_that_was_told_is_the_one_asked_for(book: RuleBook):
    """Cooling with the ice that a temperature needs comes to that temperature."""
    needed = answered(book, cool(percent(24), percent(7)))
    ice = {"kind": "with_ice", "ice": {"value": {i.what: i.exact_g for i in needed.weigh}["ice"], "unit": "g"}}

    again = answered(book, cool(percent(24), percent(7), cooling=ice))

    assert again.cooling is not None
    assert again.cooling.temperature.value == 3
