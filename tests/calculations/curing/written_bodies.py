"""Recipes as they are drawn for the fuzzer: most complete, some by spoon, some with gaps, a few far off."""

from copy import deepcopy
from random import Random
from typing import Any

from tests.calculations.curing.check_proofs import DISSOLVE
from tests.calculations.curing.lawful import lawful_method

Body = dict[str, Any]
STRENGTHS = [6.25, 6.25, 6.25, 5.88, 0.5, 0.9]
GAPS: tuple[tuple[str | int, ...], ...] = (
    ("meat",), ("curing_salts",), ("curing_salts", 0, "label"), ("curing_salts", 0, "amount"), ("ingredients",),
    ("accelerators",), ("method", "water"), ("method", "pump_percent"), ("method", "basis"), ("method", "cover"),
)  # fmt: skip


def written_body(random: Random) -> Body:
    """A recipe that somebody may have written."""
    meat = {"value": round(random.uniform(1, 40), 2), "unit": random.choice(["kg", "lb"])}
    way = random.choice(["dry", "comminuted", "wet", "wet"])
    method = lawful_method(random, way, meat, stays=random.random() < 0.7)
    body: Body = {
        "jurisdiction": random.choice(["US", "US", "US", "CA", "EU", "DK", "GB"]),
        "on": random.choice(["2026-12-01", "2024-05-04"]),
        "operator": random.choice(["home", "retail", "inspected_plant"]),
        "product": _product(random, way),
        "meat": meat,
        "method": method,
        "curing_salts": _curing_salts(random, meat, method),
        "ingredients": [_line(random, meat) for _ in range(random.randrange(4))],
        "accelerators": _accelerators(random, meat),
    }
    return _with_gap(random, body) if random.random() < 0.3 else body


def _product(random: Random, way: str) -> Body:
    finish = random.choice([{}, {"finish": "cooked"}, {"finish": "matured"}])
    if way == "comminuted":
        return {"kind": "sausage", "species": "pork", **finish}
    kinds: list[Body] = [
        {"kind": "whole_muscle", "species": random.choice(["pork", "beef"])},
        {"kind": "bacon", "skin": random.choice(["on", "off"])},
        {"kind": "corned_beef", "cut": random.choice(["brisket", "round"])},
    ]
    return {**random.choice(kinds), **finish}


def _curing_salts(random: Random, meat: Body, method: Body) -> list[Body]:
    """One or two, so much of them that the nitrite is about usual, or far from it."""
    ppm = random.choice([120, 156.25, random.uniform(20, 250), random.uniform(200, 3000)])
    pump = method.get("pump_percent") or method.get("basis", {}).get("percent")
    vessel = meat["value"] + (method["water"]["value"] if "water" in method else 0)
    wanted = ppm / 1e6 * (method["water"]["value"] / pump * 100 if pump else vessel)
    parts = random.choice([[1.0], [1.0], [0.6, 0.4]])
    return [_curing_salt(random, {**meat, "value": wanted * part}) for part in parts]


def _curing_salt(random: Random, nitrite: Body) -> Body:
    percent = random.choice(STRENGTHS)
    label: Body = {"nitrite": {"salt": "sodium_nitrite", "percent": percent}}
    grams = nitrite["value"] / percent * 100 * (1000 if nitrite["unit"] == "kg" else 453.59237)
    if percent == 6.25 and random.random() < 0.2:
        return {"label": label, "amount": {"value": max(round(grams / 5.6, 2), 0.01), "unit": "tsp"}}
    if random.random() < 0.1:
        label["nitrate"] = {"salt": random.choice(["sodium_nitrate", "potassium_nitrate"]), "percent": 4}
    if random.random() < 0.1:
        label["nitrite"]["salt"] = "potassium_nitrite"
    return {"label": label, "amount": {"value": max(round(grams, 2), 0.01), "unit": "g"}}


def _line(random: Random, meat: Body) -> Body:
    weight = {"value": round(meat["value"] * random.uniform(0.002, 0.04), 3), "unit": meat["unit"]}
    if random.random() < 0.15:
        return {"ingredient": random.choice(["table-salt", "salt", "bouillon"]), "amount": {"value": 2, "unit": "tbsp"}}
    if random.random() < 0.2:
        return {"ingredient": "something else", "amount": weight, "dissolves": random.random() < 0.5}
    return {"ingredient": random.choice(sorted(DISSOLVE)), "amount": weight}


def _accelerators(random: Random, meat: Body) -> list[Body]:
    kind = random.choice(["sodium_erythorbate", "sodium_ascorbate", "ascorbic_acid"])
    amount = {"value": max(round(meat["value"] * random.uniform(1e-4, 9e-4), 4), 0.001), "unit": meat["unit"]}
    return [{"kind": kind, "amount": amount}] if random.random() < 0.3 else []


def _with_gap(random: Random, body: Body) -> Body:
    """The recipe without one of its facts."""
    gapped = deepcopy(body)
    there = [path for path in GAPS if _holder(gapped, path) is not None]
    path = random.choice(there)
    del _holder(gapped, path)[path[-1]]
    return gapped


def _holder(body: Any, path: tuple[str | int, ...]) -> Any:
    for part in path[:-1]:
        body = body[part]
    return body if path[-1] in body else None
