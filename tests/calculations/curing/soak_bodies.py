"""Soaks to ask for: lawful ones, and what a request says in grams, hours and degrees."""

from random import Random
from typing import Any

from tests.calculations.curing.piece_bodies import lawful_piece, mass, temperature
from tests.calculations.measures.pantry import GRAMS, TEASPOON_ML, TEASPOONS

HOURS = {"s": 1 / 3600, "min": 1 / 60, "h": 1.0, "d": 24.0}
HALF_A_DAY = {"value": 12, "unit": "h"}
WATER_G_PER_ML = 0.9982


def lawful_body(random: Random) -> dict[str, Any]:
    """A soak that is to be answered: little enough is wanted out, in water enough."""
    shape, weight_g = lawful_piece(random)
    pieces, salt_percent = random.choice([1, 1, 2, 5]), random.uniform(2, 8)
    sizes_mm = [one["value"] * {"mm": 1, "cm": 10, "in": 25.4}[one["unit"]] for one in _sizes(shape)]
    out = random.uniform(0.05, 1) * min(0.4, 3.4 / min(max(sizes_mm), 60))
    hours_h = random.choice([2, 6, 8, 12, 24, 72, random.uniform(2, 72)])
    unit = random.choice(["h", "d", "min"])
    body: dict[str, Any] = {
        "meat": mass(random, pieces * weight_g),
        "pieces": pieces,
        "shape": shape,
        "salt_percent": salt_percent,
        "wanted_salt_percent": salt_percent * (1 - out),
        "temperature": temperature(random, least_c=0.1),
        "water": mass(random, pieces * weight_g * random.uniform(2, 9)),
        "detail": random.choice(["full", "brief"]),
        "units": random.choice(["metric", "us"]),
    }
    maybe = {
        "change_every": {"value": min(max(hours_h, 2.0001), 71.999) / HOURS[unit], "unit": unit},
        "water_percent": random.uniform(52, 78),
        "starts_at": "2026-12-01T08:00:00+01:00",
    }
    return body | {name: value for name, value in maybe.items() if random.random() < 0.6}


def _sizes(shape: dict[str, Any]) -> list[dict[str, Any]]:
    return [shape[name] for name in ("thickness", "diameter") if name in shape]


def meat_g(body: dict[str, Any]) -> float:
    """All the meat."""
    return float(body["meat"]["value"] * GRAMS[body["meat"]["unit"]])


def bath_g(body: dict[str, Any]) -> float:
    """One water."""
    value, unit = body["water"]["value"], body["water"]["unit"]
    return float(value * (GRAMS[unit] if unit in GRAMS else TEASPOONS[unit] * TEASPOON_ML * WATER_G_PER_ML))


def ratio(body: dict[str, Any]) -> float:
    """Water of one bath to the water of the meat."""
    return bath_g(body) / (meat_g(body) * body.get("water_percent", 70) / 100)


def change_h(body: dict[str, Any]) -> float:
    """Hours in each water."""
    every = body.get("change_every", HALF_A_DAY)
    return float(every["value"] * HOURS[every["unit"]])


def at_c(cold: dict[str, Any]) -> float:
    """Degrees Celsius."""
    return float(cold["value"] if cold["unit"] == "degC" else (cold["value"] - 32) / 1.8)
