"""Cure times to ask for, and the salt and water of a cure by its request alone."""

from random import Random
from typing import Any, NamedTuple

import numpy as np

from tests.calculations.curing.piece_bodies import lawful_piece, length, mass, temperature
from tests.calculations.curing.soak_bodies import HOURS, meat_g
from tests.calculations.measures.pantry import GRAMS, TEASPOON_ML, TEASPOONS

SALT_PERCENT = [0, 2, 4, 8, 12, 16, 20, 26]
BRINE_KG_PER_L = [0.9998, 1.0151, 1.0304, 1.0610, 1.0919, 1.1232, 1.1549, 1.2030]
"""Salt by weight, and density at 0 degC (International Critical Tables, from memory)."""


class Held(NamedTuple):
    """Grams of salt in the meat, between what it holds if nothing moved and if all of it came to rest."""

    low_g: float
    high_g: float


def lawful_body(random: Random) -> dict[str, Any]:
    """A cure whose days are to be told."""
    shape, weight_g = lawful_piece(random)
    pieces = random.choice([1, 1, 2, 6])
    body: dict[str, Any] = {
        "meat": mass(random, pieces * weight_g),
        "pieces": pieces,
        "shape": shape,
        "earlier": [_earlier(random, pieces * weight_g) for _ in range(random.choice([0, 0, 0, 1, 2]))],
        "stage": _stage(random, pieces * weight_g),
        "look_after": [_days(random.uniform(0.1, 30), random) for _ in range(random.choice([0, 0, 3]))],
        "detail": random.choice(["full", "brief"]),
    }
    maybe = {
        "injection": _injection(random),
        "water_percent": random.uniform(55, 76),
        "salt_ceiling_percent": random.uniform(1, 5),
        "starts_at": "2026-12-01T08:00:00+01:00",
        "target": _target(random, body),
    }
    body |= {name: value for name, value in maybe.items() if random.random() < 0.3}
    if not final_of(body).low_g > 0:
        body["stage"] = _dry(random)
    return body if _is_reached(body) else {name: value for name, value in body.items() if name != "target"}


def _is_reached(body: dict[str, Any]) -> bool:
    """Whether the whole meat surely comes to more than the centre waits for, and not to twenty times as much."""
    if "percent" not in body.get("target", {}) or body["target"]["kind"] == "share_of_final":
        return True
    final, wanted_g = final_of(body), body["target"]["percent"] / 100 * meat_g(body)
    return final.high_g * 0.06 <= wanted_g <= final.low_g * 0.97


def _target(random: Random, body: dict[str, Any]) -> dict[str, Any]:
    if random.random() < 0.5:
        return {"kind": "share_of_final", "percent": random.uniform(50, 97)}
    final_percent = 100 * final_of(body).low_g / meat_g(body)
    return {"kind": "centre_salt", "percent": min(15, max(0.3, final_percent * random.uniform(0.4, 0.96)))}


def _days(days_d: float, random: Random) -> dict[str, Any]:
    unit = random.choice(["h", "d"])
    return {"value": days_d * 24 / HOURS[unit], "unit": unit}


def _earlier(random: Random, all_g: float) -> dict[str, Any]:
    return {"stage": _stage(random, all_g), "lasts": _days(random.uniform(0.2, 8), random)}


def _stage(random: Random, all_g: float) -> dict[str, Any]:
    kind = random.choice(["dry", "brine", "endless_brine", "rest"])
    if kind == "dry":
        return _dry(random)
    stage: dict[str, Any] = {"kind": kind, "temperature": temperature(random, least_c=-0.5)}
    if kind == "rest":
        return stage
    stage["salt_percent"] = random.uniform(1.5, 14)
    brine_g = all_g * random.uniform(0.3, 3)
    brine = random.choice([mass(random, brine_g), {"value": brine_g / 1050, "unit": "l"}])
    return stage if kind == "endless_brine" else stage | {"amount": brine}


def _dry(random: Random) -> dict[str, Any]:
    return {"kind": "dry", "temperature": temperature(random), "salt_percent": random.uniform(1, 5)}


def _injection(random: Random) -> dict[str, Any]:
    spacing = {"needle_spacing": length(random, random.uniform(16, 60))} if random.random() < 0.5 else {}
    return {"pump_percent": random.uniform(5, 20), "salt_percent": random.uniform(4, 20), **spacing}


def days_of(lasts: dict[str, Any]) -> float:
    """Days of 24 hours."""
    return float(lasts["value"] * HOURS[lasts["unit"]] / 24)


def stages_of(body: dict[str, Any]) -> list[dict[str, Any]]:
    """All of them, the last at the end."""
    return [*(one["stage"] for one in body.get("earlier", ())), body["stage"]]


def pumped_g(body: dict[str, Any]) -> tuple[float, float]:
    """Brine that is pumped in, and the salt in it."""
    if "injection" not in body:
        return 0.0, 0.0
    brine_g = meat_g(body) * body["injection"]["pump_percent"] / 100
    return brine_g, brine_g * body["injection"]["salt_percent"] / 100


def water_g(body: dict[str, Any]) -> float:
    """Water in the meat, that which is pumped in counted."""
    brine_g, salt_g = pumped_g(body)
    return float(meat_g(body) * body.get("water_percent", 70) / 100 + brine_g - salt_g)


def brought_g(stage: dict[str, Any], body: dict[str, Any]) -> tuple[float, float]:
    """Salt and water that a stage brings: on the meat, or around it."""
    if stage["kind"] == "dry":
        return meat_g(body) * stage["salt_percent"] / 100, 0.0
    if stage["kind"] != "brine":
        return 0.0, 0.0
    brine_g = _brine_g(stage["amount"]["value"], stage["amount"]["unit"], stage["salt_percent"])
    return brine_g * stage["salt_percent"] / 100, brine_g * (1 - stage["salt_percent"] / 100)


def _brine_g(value: float, unit: str, salt_percent: float) -> float:
    """Grams; a volume by the density of brine at 0 degC, to half a percent up to 5 degC (from memory)."""
    if unit in GRAMS:
        return value * GRAMS[unit]
    kg_per_l = float(np.interp(salt_percent, SALT_PERCENT, BRINE_KG_PER_L))
    return value * TEASPOONS[unit] * TEASPOON_ML * kg_per_l


def at_rest_g(stage: dict[str, Any], body: dict[str, Any], held_g: float) -> float:
    """Salt in the meat when nothing moves any more in this stage."""
    if stage["kind"] == "endless_brine":
        return water_g(body) * stage["salt_percent"] / (100 - stage["salt_percent"])
    salt_g, bath_g = brought_g(stage, body)
    return (held_g + salt_g) * water_g(body) / (water_g(body) + bath_g)


def before_last(body: dict[str, Any]) -> Held:
    """What the meat holds when the last stage begins.

    Meat that is even goes towards rest; from any other, as much may come out as there is, or as much go in as if it
    were unsalted.
    """
    held = Held(pumped_g(body)[1], pumped_g(body)[1])
    for number, stage in enumerate(stages_of(body)[:-1]):
        low_g, high_g = (at_rest_g(stage, body, one) for one in held)
        if stage["kind"] in ("dry", "rest"):
            held = Held(low_g, high_g)
        elif number == 0:
            held = Held(min(held.low_g, low_g), max(held.high_g, high_g))
        else:
            held = Held(0.0, held.high_g + at_rest_g(stage, body, 0.0))
    return held


def final_of(body: dict[str, Any]) -> Held:
    """What the meat comes to in the last stage."""
    return Held(*(at_rest_g(body["stage"], body, one) for one in before_last(body)))
