"""Chains to ask for: lawful ones, forwards and backwards."""

from random import Random
from typing import Any

from tests.calculations.butchery.chain_refusals import is_another_product
from tests.calculations.butchery.chain_shares import begins, published, rows, shares, states
from tests.calculations.measures.pantry import GRAMS

METHODS = ["smoke", "steam", "roast", "braise", "simmer", "bake", "pan_fry"]

ORDERS = [
    ["trim", "cook", "slice"], ["trim", "cure", "cook", "slice"], ["cure", "other", "cook", "chill", "cook", "slice"],
    ["trim", "cure", "chill", "other", "cook", "trim", "chill", "slice"], ["cook"], ["slice"], ["cure", "chill"],
    ["trim", "slice", "cook"], ["cure", "trim", "cook", "slice", "slice"], ["trim"],
    ["chill", "cook", "chill", "slice"],
    ["trim", "cure", "cook", "chill", "cook", "chill", "slice", "other", "other", "slice"],
]  # fmt: skip
USUAL_LEFT = {
    "trim": (60, 99), "cure": (75, 125), "cook": (30, 97), "chill": (92, 100), "slice": (85, 99.5), "other": (60, 120),
}  # fmt: skip
PRODUCTS: list[dict[str, Any]] = [
    {"kind": "corned_beef", "cut": "brisket"}, {"kind": "corned_beef", "cut": "round", "finish": "cooked"},
    {"kind": "corned_beef", "cut": "tongue"}, {"kind": "corned_beef", "cut": "other", "finish": "sterilised"},
    {"kind": "bacon", "skin": "off"}, {"kind": "whole_muscle", "species": "pork"},
    {"kind": "poultry", "species": "duck"}, {"kind": "bacon", "skin": "on", "finish": "matured"},
    {"kind": "sausage", "species": "veal", "finish": "fresh"},
]  # fmt: skip


def mass(random: Random, grams: float) -> dict[str, Any]:
    """A weight in one unit or another."""
    unit = random.choice(list(GRAMS))
    return {"value": min(max(grams / GRAMS[unit], 0.001), 1e6), "unit": unit}


def lawful_body(random: Random) -> dict[str, Any]:
    """A chain that is to be answered."""
    kinds = random.choice(ORDERS)
    body: dict[str, Any] = {
        "task": _task(random),
        "units": random.choice(["metric", "us"]),
        "detail": random.choice(["full", "brief"]),
    }
    if random.random() < 0.5:
        body["cut"] = random.choice(list(rows("cuts.yaml")))
    if random.random() < 0.6:
        body["bought_as"] = random.choice(["untrimmed", "trimmed", "cured"])
    body["stages"] = [_stage(random, kind) for kind in kinds]
    if begins(body) == "cooked":
        body["bought_as"] = "untrimmed"
    maybe = {"standard": _standard(random), "pieces": _pieces(random), "on": "2026-12-01"}
    body |= {name: value for name, value in maybe.items() if random.random() < 0.5}
    if is_another_product(body):
        del body["standard"]
    _leave_out(random, body)
    if body["task"]["kind"] == "bought" and random.random() < 0.5:
        _weigh(random, body)
    return body


def _task(random: Random) -> dict[str, Any]:
    kind, portion = random.choice(["bought", "portions_wanted", "weight_wanted"]), mass(random, random.uniform(40, 400))
    if kind == "portions_wanted":
        return {"kind": kind, "how_many": random.randint(1, 900), "portion": portion}
    task: dict[str, Any] = {"kind": kind, "weight": mass(random, 10 ** random.uniform(2.5, 5.5))}
    return {**task, "portion": portion} if kind == "bought" and random.random() < 0.5 else task


def _stage(random: Random, kind: str) -> dict[str, Any]:
    stage: dict[str, Any] = {"kind": kind, "change": _change(random, *USUAL_LEFT[kind])}
    if kind == "cook":
        stage["method"] = random.choice(METHODS)
        if random.random() < 0.4:
            stage["weighed_when"] = random.choice(["hot", "rested", "chilled"])
    if kind == "other":
        stage["name"] = random.choice(["pressed", "desalted", "gerollt, gepreßt", "pulled"])
        if random.random() < 0.5:
            stage["takes"] = random.choice(["moisture", "parts"])
    return stage


def _change(random: Random, least: float, most: float) -> dict[str, Any]:
    low, usual, high = sorted(random.uniform(least, most) for _ in range(3))
    if random.random() < 0.2:
        before = random.uniform(500, 9000)
        return {"kind": "own_test", "before": mass(random, before), "after": mass(random, before * usual / 100)}
    if high <= 98 and random.random() < 0.5:
        return {"kind": "lost", "percent": 100 - usual, "low_percent": 100 - high, "high_percent": 100 - low}
    if low >= 102 and random.random() < 0.7:
        return {"kind": "gained", "percent": usual - 100, "low_percent": low - 100, "high_percent": high - 100}
    told = {"kind": "left", "percent": usual, "low_percent": low, "high_percent": high}
    return told if random.random() < 0.7 else {"kind": "left", "percent": usual}


def _leave_out(random: Random, body: dict[str, Any]) -> None:
    """Shares that something is published for."""
    for place, (stage, of) in enumerate(zip(body["stages"], states(body), strict=False)):
        if published(body, place, of) and random.random() < 0.6:
            del stage["change"]


def _weigh(random: Random, body: dict[str, Any]) -> None:
    """One or two stages after which the batch was weighed, near what was planned or not."""
    weight_g = body["task"]["weight"]["value"] * GRAMS[body["task"]["weight"]["unit"]]
    for stage, share in zip(body["stages"], shares(body), strict=True):
        weight_g *= share[1] if share else 1.0
        if random.random() < 0.3:
            weight_g *= random.choice([1.0, random.uniform(0.9, 1.1)])
            stage["weighed"] = mass(random, weight_g)
            if random.random() < 0.3:
                stage.pop("change", None)


def _standard(random: Random) -> dict[str, Any]:
    standard: dict[str, Any] = {
        "jurisdiction": random.choice(["US", "US", "US", "GB", "CA"]),
        "operator": random.choice(["home", "retail", "inspected_plant"]),
        "product": random.choice(PRODUCTS),
    }
    if random.random() < 0.4:
        named = ["barbecued_meat", "pastrami"]
        is_pork = standard["product"].get("species") == "pork"
        standard["sold_as"] = random.choice([*named, "country_ham"] if is_pork else named)
    if random.random() < 0.4:
        standard["smallest_piece"] = mass(random, random.uniform(300, 3000))
    return standard


def _pieces(random: Random) -> dict[str, Any]:
    low, high = sorted(random.uniform(300, 9000) for _ in range(2))
    return {"low": mass(random, low), "high": mass(random, high)}
