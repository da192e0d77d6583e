"""Doses that their place allows, or miss it by a hair: at least half of what is fuzzed comes from here."""

from random import Random
from typing import Any

# Ingoing ppm that each place, product and method allows, written down from the texts and not read from the rules:
# 9 CFR 424.21(c), 424.22(b) and the 120 ppm policy; Health Canada's list; Regulations (EU) 1129/2011 and 2023/2108.
LAWFUL_PPM = {
    ("US", "piece", "dry"): (121, 625),
    ("US", "piece", "comminuted"): (121, 156.25),
    ("US", "piece", "wet"): (121, 200),
    ("US", "bacon", "dry"): (121, 200),
    ("US", "bacon", "wet"): (120, 120),
    ("CA", "piece", "dry"): (125, 199),
    ("CA", "piece", "comminuted"): (125, 199),
    ("CA", "piece", "wet"): (150, 199),
    ("EU", "piece", "dry"): (40, 119),
    ("EU", "piece", "comminuted"): (40, 119),
    ("EU", "piece", "wet"): (40, 119),
    ("DK", "piece", "dry"): (30, 60),
}


def lawful_body(random: Random) -> dict[str, Any]:
    """The body of a lawful request."""
    place, what, way = random.choice(sorted(LAWFUL_PPM))
    low, high = LAWFUL_PPM[place, what, way]
    meat: dict[str, Any] = {"value": round(random.uniform(1, 60), 3), "unit": random.choice(["kg", "lb"])}
    method = lawful_method(random, way, meat, stays=what != "bacon")
    body: dict[str, Any] = {
        "jurisdiction": place,
        "on": "2026-12-01",
        "product": {**_product(random, what, way), "finish": "cooked"},
        "meat": meat,
        "method": method,
        "curing_salt": {"nitrite": {"salt": "sodium_nitrite", "percent": random.choice([6.25, 5.88, 4.0])}},
        "target": {"kind": "ingoing_nitrite", "ppm": random.choice([low, high, random.uniform(low, high)])},
        "scale_step": {"value": random.choice([0.001, 0.005, 0.05]), "unit": "g"},
    }
    if what == "bacon" and method["kind"].startswith("injected"):
        kind = random.choice(["sodium_erythorbate", "sodium_erythorbate_monohydrate"])
        body["accelerator"] = {"kind": kind, "ppm": 550}
    if random.random() < 0.2:
        body["other_ingredients"] = {**meat, "value": meat["value"] * random.uniform(0.01, 0.5)}
    if random.random() < 0.2:
        body["dissolved_ingredients"] = {**meat, "value": meat["value"] * random.uniform(0.001, 0.02)}
    if random.random() < 0.5:
        body["salt_percent"] = random.uniform(0.6, 0.9) if method["kind"] == "injected" else random.uniform(1.6, 3)
    return body


def lawful_method(random: Random, way: str, meat: dict[str, Any], *, stays: bool) -> dict[str, Any]:
    """A method whose pickle suffices and whose vessel keeps the guard on the whole system."""
    if way != "wet":
        return {"kind": way}
    water = {"value": meat["value"] * random.uniform(0.4, 0.8), "unit": meat["unit"]}
    pump = random.choice([5, random.uniform(8, 25)])
    equilibrium = {"kind": "equilibrium"}
    once: list[dict[str, Any]] = [
        {"kind": "immersion", "water": water, "basis": equilibrium},
        {"kind": "injected", "water": water, "pump_percent": pump},
    ]
    twice: list[dict[str, Any]] = [
        {"kind": "immersion", "water": water, "basis": {"kind": "pick_up", "percent": 30}},
        {"kind": "immersion", "water": water, "basis": taken_out(random, meat, 30)},
        {"kind": "injected_then_covered", "water": water, "pump_percent": 8, "cover": taken_out(random, meat, 8)},
        {"kind": "injected_then_covered", "water": water, "pump_percent": pump, "cover": equilibrium},
    ]
    return random.choice([*once, *twice] if stays else once)


GRAMS = {"kg": 1000.0, "lb": 453.59237}


def taken_out(random: Random, meat: dict[str, Any], percent: float) -> dict[str, Any]:
    """A pick-up with a stay of a day or less, in pieces of a kitchen's size."""
    meat_g = meat["value"] * GRAMS[meat["unit"]]
    pieces = max(round(meat_g / 3000), 1)
    side_mm = (meat_g / pieces / 1.06e-3) ** (1 / 3)  # of a cube of meat, 1.06 g/ml

    def size(ratio: float) -> dict[str, Any]:
        return {"value": round(ratio * side_mm, 1), "unit": "mm"}

    shape = random.choice(
        [
            {"kind": "sphere", "diameter": size(1.24)},
            {"kind": "cylinder", "diameter": size(0.9), "length": size(1.5), "open_ends": random.choice([0, 1, 2])},
            {"kind": "brick", "thickness": size(0.7), "width": size(1), "length": size(1.4)},
            {"kind": "measured", "thickness": size(0.8), "length": size(1.2), "open_faces": {"sides": 0, "ends": 0}},
            {"kind": "slab", "thickness": size(0.6), "open_faces": 1},
        ]
    )
    stay = {
        "shape": shape,
        "pieces": pieces,
        "temperature": random.choice([{"value": 3, "unit": "degC"}, {"value": 38, "unit": "degF"}]),
        "lasts": {"value": random.choice([6, 14, 24]), "unit": "h"},
    }
    return {"kind": "pick_up", "percent": percent, "stay": stay}


def _product(random: Random, what: str, way: str) -> dict[str, Any]:
    if what == "bacon":
        return {"kind": "bacon", "skin": random.choice(["on", "off"])}
    kind = random.choice(["whole_muscle", "sausage"]) if way == "comminuted" else "whole_muscle"
    return {"kind": kind, "species": "pork"}
