"""Cutting tests to ask for: pieces cut up at random, weighed in any units, some not at all, some with a slip."""

from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import yaml

TABLE = Path(__file__).parents[3] / "service/rules/data/cuts.yaml"
GRAMS = {"g": 1.0, "kg": 1000.0, "oz": 28.349523125, "lb": 453.59237}
USES = ("cure", "cook", "sell", "grind", "keep", "render", "stock", "waste", "loss")
KINDS = ("meat", "fat", "bone", "skin", "connective_tissue", "scrap", "trim")
ANIMALS = ("beef", "veal", "pork", "lamb", "goat", "game", "chicken", "turkey", "duck", "goose", "other_bird")
NAMES = ("neck", "Nacken", "lean trim", "bone", "BONE", "cap", "rind", "épaule", "шея", "下腿", "ends & bits")


@cache
def rows() -> dict[str, dict[str, Any]]:
    """The rows of the table of cuts, by id, as they are written."""
    return {row["id"]: row for row in yaml.safe_load(TABLE.read_text("utf-8"))}


def lawful_body(random: Random) -> dict[str, Any]:
    """A cutting test: most close, some are short, some are too heavy."""
    purchased_g = random.choice([random.uniform(200, 30_000), random.uniform(1, 1e6)])
    shares = [random.uniform(0.02, 1) for _ in range(random.randint(1, random.choice([4, 9, 40])))]
    whole = sum(shares) / random.choice([1, 0.995, random.uniform(0.7, 1.3)])
    body: dict[str, Any] = {
        "purchased": _mass(random, purchased_g),
        "parts": [_part(random, purchased_g * share / whole) for share in shares],
        "units": random.choice(["metric", "us"]),
        "detail": random.choice(["full", "brief"]),
    }
    if random.random() < 0.2:
        _slip(random, body)
    if random.random() < 0.2:
        body["parts"] = (body["parts"] + [dict(body["parts"][0])])[-40:]
    return body | _more(random)


def _more(random: Random) -> dict[str, Any]:
    more = {
        "cut": random.choice(list(rows())),
        "animal": random.choice(ANIMALS),
        "pieces": random.choice([1, 2, 17, 10_000]),
        "tolerance_percent": random.choice([0.01, 0.5, 5, 20, random.uniform(0.01, 20)]),
        "scale_step": _mass(random, random.choice([0.1, 1, 5, 50, random.uniform(0.01, 500)])),
    }
    return {name: value for name, value in more.items() if random.random() < 0.55}


def _part(random: Random, part_g: float) -> dict[str, Any]:
    part: dict[str, Any] = {"name": random.choice(NAMES), "use": random.choice(USES)}
    if random.random() < 0.7:
        part["what"] = random.choice(KINDS)
    if random.random() < 0.92:
        pieces = random.choice([1, 1, 1, 2, 5, 12])
        part["weights"] = [_mass(random, part_g / pieces) for _ in range(pieces)]
    elif random.random() < 0.5:
        part["weights"] = []
    return part


def _mass(random: Random, mass_g: float) -> dict[str, Any]:
    unit = random.choice(list(GRAMS))
    return {"value": min(max(round(mass_g / GRAMS[unit], random.choice([2, 3, 9])), 0.001), 1e6), "unit": unit}


def _slip(random: Random, body: dict[str, Any]) -> None:
    """One number, or all that were weighed in a unit, gets the unit that it is mistaken for."""
    weighed = [part for part in body["parts"] if part.get("weights")]
    numbers = [body["purchased"], *(one for part in weighed for one in part["weights"])]
    number = random.choice(numbers)
    slipped = [one for one in numbers[1:] if one["unit"] == number["unit"]] if random.random() < 0.3 else [number]
    for one in slipped:
        one["unit"] = {"kg": "lb", "lb": "kg", "oz": "g", "g": "oz"}[one["unit"]]
