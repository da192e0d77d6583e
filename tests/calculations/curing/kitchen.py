"""Doses as an invented kitchen would ask for them, and the vessel they make, weighed by hand."""

from typing import Any

import pytest

from service.calculations.curing.dose import DoseAnswer, DoseRequest, dose
from service.calculations.refusals import LimitExceeded
from service.rules.book import RuleBook

DAY = "2026-12-01"
STRONG_SALT = {"nitrite": {"salt": "sodium_nitrite", "percent": 6.25}}

GRAMS = {"g": 1.0, "kg": 1000.0, "oz": 28.349523125, "lb": 453.59237}
"""International avoirdupois pound of 0.45359237 kg, exact (NIST Handbook 44, appendix C, from memory)."""
MILLILITRES = {"ml": 1.0, "l": 1000.0, "gal": 3785.411784, "qt": 946.352946, "cup": 236.5882365}
"""US gallon of 231 cubic inches, exact (NIST Handbook 44, appendix C, from memory)."""
VOLUMES = {**MILLILITRES, "tsp": 4.92892159375, "tbsp": 14.78676478125, "fl_oz": 29.5735295625, "pt": 473.176473}


BACON = {"kind": "bacon", "skin": "off"}
SAUSAGE = {"kind": "sausage", "species": "pork"}
LOIN = {"kind": "whole_muscle", "species": "pork"}
DRY, MIXED = {"kind": "dry"}, {"kind": "comminuted"}
SOAKED = {"kind": "immersion", "water": {"value": 3, "unit": "kg"}, "basis": {"kind": "equilibrium"}}
PUMPED = {"kind": "injected", "pump_percent": 12, "water": {"value": 2, "unit": "kg"}}
COVERED = {**PUMPED, "kind": "injected_then_covered", "cover": {"kind": "equilibrium"}}
ERYTHORBATE = {"kind": "sodium_erythorbate", "ppm": 550}
POTASSIUM = {"nitrite": {"salt": "potassium_nitrite", "percent": 6.25}}
FINE = {"value": 0.001, "unit": "g"}


def request_for(**changes: Any) -> dict[str, Any]:
    """A lawful injected pork loin, with changes."""
    body: dict[str, Any] = {
        "jurisdiction": "US",
        "on": DAY,
        "product": {"kind": "whole_muscle", "species": "pork", "cut": "loin"},
        "meat": {"value": 4.2, "unit": "kg"},
        "method": {"kind": "injected", "pump_percent": 12, "water": {"value": 2, "unit": "kg"}},
        "curing_salt": STRONG_SALT,
        "target": {"kind": "ingoing_nitrite", "ppm": 150},
        "scale_step": {"value": 0.1, "unit": "g"},
    }
    return {key: value for key, value in {**body, **changes}.items() if value is not None}


def answer_to(book: RuleBook, body: dict[str, Any]) -> DoseAnswer:
    """What the calculation answers to a request body."""
    return dose(DoseRequest.model_validate(body), book)


def grams(answer: DoseAnswer) -> dict[str, float]:
    """What is weighed, in grams, by ingredient."""
    weights: dict[str, float] = {}
    for item in answer.weigh:
        value, unit = item.amount.value, item.amount.unit
        weights[item.what] = value * GRAMS[unit] if unit in GRAMS else value * MILLILITRES[unit] * 0.9982
    return weights


def weight_g(quantity: dict[str, Any] | None) -> float:
    """A stated quantity in grams."""
    if quantity is None:
        return 0.0
    value, unit = quantity["value"], quantity["unit"]
    return float(value * GRAMS[unit] if unit in GRAMS else value * VOLUMES[unit] * 0.9982)


def nitrite_by_mass_balance_ppm(body: dict[str, Any], weighed: dict[str, float]) -> dict[str, float]:
    """Nitrite readings from what lies in the vessel and nothing else: no formula of the service is used.

    taken: grams of nitrite that entered with the stated uptake, per million of green weight.
    vessel: all nitrite over everything in the vessel, where the piece stays in it.
    batch: grams that entered over meat and everything that entered with them.
    """
    meat = weighed["meat"]
    green = green_of(body, meat)
    nitrite = weighed["curing_salt"] * body["curing_salt"]["nitrite"]["percent"] / 100
    solids = weighed.get("other_ingredients", 0.0)
    rest = sum(weighed.values()) - meat
    method = body["method"]
    if method["kind"] in ("dry", "comminuted"):
        everything = nitrite / (meat + rest) * 1e6
        on_the_meat = nitrite / meat * 1e6  # what is rubbed on lies on the meat and dilutes nothing in it
        batch = everything if method["kind"] == "comminuted" else on_the_meat
        return {"taken": nitrite / green * 1e6, "batch": batch, "everything": everything}
    rest -= solids  # they lie in the pickle and dissolve nothing
    parts = nitrite / rest
    pumped = meat * method.get("pump_percent", 0) / 100
    basis = method.get("basis") or method.get("cover") or {}
    soaked = meat * basis.get("percent", 0) / 100
    entered = parts * (pumped + soaked)
    readings = {}
    if basis.get("kind") == "equilibrium":
        left = rest - pumped
        entered += parts * left * green / (green + left)
    readings["taken"] = entered / green * 1e6
    if basis:
        readings["vessel"] = nitrite / (green + rest) * 1e6
    share = (pumped + soaked) or rest
    whole = entered if pumped or soaked else nitrite
    return {**readings, "batch": whole / (meat + share) * 1e6, "pickle": parts * 1e6}


def green_of(body: dict[str, Any], meat: float) -> float:
    """Green weight; for bacon with skin the weight without it (a tenth is assumed where it was not weighed)."""
    product = body["product"]
    if product["kind"] != "bacon" or product["skin"] == "off":
        return meat
    weighed = product.get("skin_free")
    return weighed["value"] * GRAMS[weighed["unit"]] if weighed else 0.9 * meat


def dose_of(ppm: float, **changes: Any) -> dict[str, Any]:
    """A request for so many ppm, weighed finely."""
    return request_for(**{"target": {"kind": "ingoing_nitrite", "ppm": ppm}, "scale_step": FINE, **changes})


def refusing(book: RuleBook, body: dict[str, Any]) -> set[str]:
    """The rules that refuse a request."""
    with pytest.raises(LimitExceeded) as refusal:
        answer_to(book, body)
    return {finding.rule for finding in refusal.value.findings if finding.refuses}
