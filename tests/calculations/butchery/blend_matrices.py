"""The programme of a blend, written anew from the request alone, and solved by scipy: nothing here is the service's."""

from collections.abc import Iterator
from typing import Any, NamedTuple

import numpy as np
from scipy.optimize import linprog

from tests.calculations.butchery.blend_bodies import G_PER, Body

Vector = Any

FRESH_WATER = {
    "fresh_pork_sausage": 3, "fresh_beef_sausage": 3, "whole_hog_sausage": 3, "smoked_pork_sausage": 3,
    "breakfast_sausage": 3, "italian_sausage": 3, "ground_beef": 0,
}  # fmt: skip
FAT = {
    "fresh_pork_sausage": 50, "fresh_beef_sausage": 30, "whole_hog_sausage": 50, "italian_sausage": 35,
    "ground_beef": 30, "smoked_pork_sausage": 50, "frankfurter_type": 30,
}  # fmt: skip
"""And water, in percent: 9 CFR 319.15(a), 319.140 to 319.144, 319.145(a), 319.160, 319.180(a): what may refuse."""
MOST_YIELD = 1.1
BIRDS = ("chicken", "turkey", "duck", "goose", "other_bird")
COOKED = ("smoked_pork_sausage", "cooked_sausage", "frankfurter_type")
LAST_BITS = 1e-12


class Line(NamedTuple):
    """coefficients . grams <= right, or = right."""

    name: str
    coefficients: Vector
    right: float
    equal: bool = False


def grams(mass: Body) -> float:
    """A weight."""
    return float(mass["value"] * G_PER[mass["unit"]])


def in_play(body: Body) -> list[int]:
    """Numbers of the materials that may be used."""
    return [number for number, one in enumerate(body["materials"]) if _may(one, body)]


def _may(one: Body, body: Body) -> bool:
    oldest, stock = body.get("oldest_d"), one.get("on_hand")
    if stock is not None and stock["value"] == 0:
        return False
    if one["animal"] not in body.get("animals", [one["animal"]]):
        return False
    if oldest is not None and not one.get("age_d", oldest + 1) <= oldest:
        return False
    return all(f"{part}_percent" in one for part in ("protein", "moisture") if part in body)


def prices_per_g(body: Body) -> Vector | None:
    """Of the materials in play."""
    prices = [body["materials"][n].get("price") for n in in_play(body)]
    return None if None in prices else np.array([float(one["amount"]) / G_PER[one["per"]] for one in prices])


def lines_of(body: Body) -> list[Line]:
    """Every limit that the request states."""
    numbers = in_play(body)
    materials = [body["materials"][n] for n in numbers]
    return [
        *_block(body, materials),
        *_composition(body, materials),
        *(line for n, one in enumerate(materials) for line in _own(n, one, len(materials))),
        *(_group(rule, materials) for rule in body.get("rules", [])),
    ]


def _block(body: Body, materials: list[Body]) -> Iterator[Line]:
    block, whole = body["block"], np.ones(len(materials))
    if block["kind"] == "whole_block":
        yield Line("block", whole, grams(block["weight"]), equal=True)
    elif block["kind"] == "use_up":
        number = [one["name"] for one in materials].index(block["material"])
        yield Line("use up", np.eye(len(materials))[number], grams(materials[number]["on_hand"]), equal=True)
    else:
        if "at_least" in block:
            yield Line("block", -whole, -grams(block["at_least"]))
        if "at_most" in block:
            yield Line("block", whole, grams(block["at_most"]))


def _composition(body: Body, materials: list[Body]) -> Iterator[Line]:
    for part in ("fat", "protein", "moisture"):
        wanted = body.get(part)
        if wanted is None:
            continue
        held = np.array([one.get(f"{part}_percent", 0) for one in materials], float)
        if wanted["kind"] == "exactly":
            yield Line(part, _above(held, wanted["percent"]), 0, equal=True)
        if wanted["kind"] in ("at_most", "between"):
            yield Line(part, _above(held, wanted.get("percent", wanted.get("most_percent"))), 0)
        if wanted["kind"] in ("at_least", "between"):
            yield Line(part, -_above(held, wanted.get("percent", wanted.get("least_percent"))), 0)


def _above(held: Vector, percent: float) -> Vector:
    """How much more each holds; the last bits of a number are no difference."""
    return np.where(np.abs(held - percent) < LAST_BITS, 0.0, held - percent)


def _own(n: int, one: Body, many: int) -> Iterator[Line]:
    alone, whole = np.eye(many)[n], np.ones(many)
    for field in ("on_hand", "most"):
        if field in one:
            yield Line(field, alone, grams(one[field]))
    if "least" in one:
        yield Line("least", -alone, -grams(one["least"]))
    if "most_share_percent" in one:
        yield Line("most share", 100 * alone - one["most_share_percent"] * whole, 0)
    if "least_share_percent" in one:
        yield Line("least share", one["least_share_percent"] * whole - 100 * alone, 0)


def _group(rule: Body, materials: list[Body]) -> Line:
    these = np.array([one["name"] in rule["materials"] for one in materials], float)
    sign = 1 if rule["bound"] == "at_most" else -1
    if rule["kind"] == "group_weight":
        return Line("group", sign * these, sign * grams(rule["weight"]))
    if rule["kind"] == "group_share":
        return Line("group", sign * (100 * these - rule["percent"]), 0)
    those = np.array([one["name"] in rule["of"] for one in materials], float)
    return Line("group", sign * (these - rule["times"] * those), 0)


def lawful_lines(body: Body) -> list[Line]:
    """Limits of the law on the class, by a balance of the batch with its salt as it is wanted."""
    batch = body.get("batch", {})
    named, yield_percent = batch.get("sausage_class"), batch.get("cook_yield_percent")
    if named is None:
        return []
    materials = [body["materials"][n] for n in in_play(body)]
    salt = np.array([one.get("salt_percent", 0) for one in materials], float)
    added = batch.get("water_percent", 0) + batch.get("seasoning_percent", 0) + batch.get("sugar_percent", 0)
    whole = 1 + added / 100 + ((batch["salt_percent"] - salt) / 100 if "salt_percent" in batch else 0 * salt)
    finished = 1.0 if named not in COOKED else (yield_percent or 0) / 100
    fat = np.array([one["fat_percent"] for one in materials], float) / 100
    lines = []
    rendered = batch.get("rendered_fat_percent", 0) / 100 if named in COOKED and finished else 0.0
    if named in FAT:
        per = np.ones(len(fat)) if named == "ground_beef" else (finished or MOST_YIELD) * whole
        lines.append(Line("lawful fat", fat - rendered * whole - FAT[named] / 100 * per, 0))
    if named == "frankfurter_type":
        hens = np.array([one["animal"] in BIRDS for one in materials], float)
        lines.append(Line("lawful poultry", hens - 0.15 * (whole - batch.get("water_percent", 0) / 100), 0))
    if named in FRESH_WATER:
        lines.append(Line("lawful water", batch.get("water_percent", 0) / 100 - FRESH_WATER[named] / 100 * whole, 0))
    known = all("moisture_percent" in one and "protein_percent" in one for one in materials)
    if named in ("cooked_sausage", "frankfurter_type") and finished and known:
        wet = np.array([one["moisture_percent"] - 4 * one["protein_percent"] for one in materials]) / 100
        water = wet + batch.get("water_percent", 0) / 100 - (1 - finished - rendered) * whole
        limit, counted = (10, water) if named == "cooked_sausage" else (40, water + fat - rendered * whole)
        lines.append(Line("lawful added water", counted - limit / 100 * finished * whole, 0))
    return lines


def solved(lines: list[Line], weights: Vector, scale_g: float) -> Vector | None:
    """Grams with the least weighted sum, by scipy; None where no grams keep every line."""
    many = len(weights)
    upper = [line for line in lines if not line.equal]
    equal = [line for line in lines if line.equal]
    found = linprog(
        weights,
        A_ub=np.array([_scaled(line) for line in upper]) if upper else None,
        b_ub=[line.right / _size(line) / scale_g for line in upper] or None,
        A_eq=np.array([_scaled(line) for line in equal]) if equal else None,
        b_eq=[line.right / _size(line) / scale_g for line in equal] or None,
        bounds=[(0, 1e6)] * many,
        method="highs",
        options={"primal_feasibility_tolerance": 1e-9, "dual_feasibility_tolerance": 1e-9},
    )
    return found.x * scale_g if found.status == 0 else None


def _scaled(line: Line) -> Vector:
    return line.coefficients / _size(line)


def _size(line: Line) -> float:
    return float(max(np.abs(line.coefficients).max(), 1e-12))


def scale_of(body: Body) -> float:
    """A weight of the size of the block."""
    block = body["block"]
    masses = [grams(block[field]) for field in ("weight", "at_most", "at_least") if field in block]
    stocks = [grams(one[field]) for one in body["materials"] for field in ("on_hand", "least", "most") if field in one]
    return max(masses or stocks or [1000.0]) or 1000.0


def least_cost(body: Body, *, lawful: bool = True) -> float | None:
    """What the cheapest blend costs; None where there is none."""
    prices = prices_per_g(body)
    assert prices is not None
    size = float(prices.max()) or 1.0
    found = solved([*lines_of(body), *(lawful_lines(body) if lawful else [])], prices / size, scale_of(body))
    return None if found is None else float(prices @ found)


def is_feasible(body: Body, *, lawful: bool = True) -> bool:
    """Whether some blend keeps every limit."""
    numbers = in_play(body)
    if not numbers:
        return False
    lines = [*lines_of(body), *(lawful_lines(body) if lawful else [])]
    return solved(lines, np.zeros(len(numbers)), scale_of(body)) is not None
