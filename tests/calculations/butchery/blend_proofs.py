"""Proves an answer about a blend from the request alone: balances, and the programme of scipy."""

import re
from collections.abc import Iterator
from copy import deepcopy
from math import isclose
from typing import Any

import numpy as np

from tests.calculations.butchery.blend_bodies import G_PER, Body
from tests.calculations.butchery.blend_matrices import (
    BIRDS,
    Line,
    grams,
    in_play,
    lawful_lines,
    least_cost,
    lines_of,
    prices_per_g,
    scale_of,
    solved,
)

CLOSE = 1e-7
CENT = 0.0051
NEAR_BY = (1e-7, 1e-5, 2e-3)
"""Of a unit: the cost bends as a limit moves, so what a little saves lies between what less and what more does."""
ROUNDED = 1e-4
"""What the last decimal of a price may hide."""


def faults_of_blend(body: Body, told: Body, *, looks: int = 2) -> list[str]:
    """What is wrong with an answer; empty when it is proved. looks: how many savings and prices are looked at."""
    faults = [*_faults_of_sums(body, told), *_faults_of_limits(body, told), *_faults_of_choice(body, told)]
    if prices_per_g(body) is not None and not faults:
        faults += [*_faults_of_savings(body, told, looks), *_faults_of_prices(body, told, looks)]
        faults += _faults_of_next_best(body, told)
    return faults


def amounts_of(body: Body, told: Body) -> Any:
    """Grams of each material in play."""
    weighed = {item["name"]: item["exact_g"] for item in told["weigh"]}
    return np.array([weighed.get(body["materials"][n]["name"], 0.0) for n in in_play(body)])


def _faults_of_sums(body: Body, told: Body) -> Iterator[str]:
    whole, materials = told["total"]["exact_g"], {one["name"]: one for one in body["materials"]}
    items = told["weigh"]
    if not isclose(sum(item["exact_g"] for item in items), whole, rel_tol=1e-9):
        yield "the amounts do not add up to the block"
    for item in items:
        shown = item["amount"]["value"] * G_PER[item["amount"]["unit"]]
        if (
            abs(shown - item["exact_g"])
            > 0.5 * {"g": 0.1, "oz": 0.3, "lb": 0.46, "kg": 1e-6}[item["amount"]["unit"]] + 1e-6
        ):
            yield f"{item['name']} is told as {shown} g and is {item['exact_g']} g"
        if not isclose(item["share_percent"], 100 * item["exact_g"] / whole, abs_tol=1e-5):
            yield f"{item['name']} is told as {item['share_percent']} percent"
        price = materials[item["name"]].get("price")
        cost = float(price["amount"]) / G_PER[price["per"]] * item["exact_g"] if price else None
        if cost is not None and abs(float(item["cost"]["amount"]) - cost) > CENT:
            yield f"{item['name']} costs {cost}, told {item['cost']}"
    for field in ("fat", "protein", "moisture", "salt"):
        parts = [
            (materials[item["name"]].get(f"{field}_percent", 0 if field == "salt" else None), item) for item in items
        ]
        stated = told["composition"][f"{field}_percent"]
        if any(part is None for part, _ in parts) != (stated is None):
            yield f"{field} is told, or is not, against what is known"
        elif stated is not None:
            percent = sum(part * item["exact_g"] for part, item in parts) / whole
            if not isclose(stated, percent, abs_tol=1e-5):
                yield f"{field} is {percent}, told {stated}"
    shares = [one["share_percent"] for one in told["animals"]]
    if not isclose(sum(shares), 100, abs_tol=1e-4) or shares != sorted(shares, reverse=True):
        yield "animals do not add up, or stand in another order"


def _faults_of_limits(body: Body, told: Body) -> Iterator[str]:
    """No line is passed by more than a step of the scale on each material that is used."""
    amounts, step_g = amounts_of(body, told), grams(body["scale_step"]) if "scale_step" in body else 0.0
    used = [n for n, number in enumerate(in_play(body)) if body["materials"][number]["name"] in _weighed(told)]
    for line in (*lines_of(body), *lawful_lines(body)):
        room = float(np.abs(line.coefficients[used]).sum()) * step_g
        size = float(np.abs(line.coefficients).max())
        room += CLOSE * size * scale_of(body)
        over = float(line.coefficients @ amounts) - line.right
        room = room if not line.name.startswith("lawful") else 1e-6 * size * scale_of(body)
        if over > room or (line.equal and over < -room):
            yield f"{line.name} is passed by {over}, {room} are room"
    yield from _faults_of_one_figure(told)
    yield from _faults_of_water(body, told)
    if _passed(body, amounts) and "passed_by_rounding" not in [one["code"] for one in told["call_outs"]]:
        yield f"rounding passes {_passed(body, amounts)}, and nothing says so"
    for limit in told["limits"]:
        figure, sign = limit["figure"], {"at_most": 1, "at_least": -1}.get(limit["bound"], 0)
        off = (
            abs(figure - limit["value"]) if not sign else sign * (figure - limit["value"]) if figure is not None else 0
        )
        if off > limit["tolerance"] * 1.000001 + 1e-8:
            yield f"{limit} is passed by more than its tolerance"


def _passed(body: Body, amounts: Any) -> list[str]:
    """Limits of the request with a side that the amounts pass."""
    lines = [line for line in lines_of(body) if not line.equal and "scale_step" in body]
    rooms = [1e-6 * float(np.abs(line.coefficients).max()) * scale_of(body) for line in lines]
    return [
        line.name
        for line, room in zip(lines, rooms, strict=True)
        if float(line.coefficients @ amounts) - line.right > room
    ]


def _faults_of_one_figure(told: Body) -> Iterator[str]:
    """A limit of the law has one figure in one answer, and no room past it."""
    findings = {one["rule"]: one for one in (told["batch"] or {"findings": []})["findings"]}
    for limit in told["limits"]:
        if limit["rule"] and (limit["figure"] != findings[limit["rule"]]["figure"] or limit["tolerance"]):
            yield f"{limit} is not {findings[limit['rule']]}"
    for finding in findings.values():
        if finding["verdict"] == "met" and finding["figure"] > finding["limit"] and finding["bound"] == "maximum":
            yield f"{finding} is not kept"


def _faults_of_water(body: Body, told: Body) -> Iterator[str]:
    """Added water of a cooked sausage is met only where all of the loss may be fat, or as much as is stated."""
    batch = body.get("batch", {})
    yield_percent, rendered_percent = batch.get("cook_yield_percent"), batch.get("rendered_fat_percent")
    if batch.get("sausage_class") != "cooked_sausage" or told["batch"]["findings"][0]["verdict"] != "met":
        return
    materials = {one["name"]: one for one in body["materials"]}
    used = [(materials[item["name"]], item["exact_g"]) for item in told["weigh"]]
    whole = sum(g for _, g in used) + sum(item["exact_g"] for item in told["batch"]["add"])
    lost, fat = max(whole * (1 - yield_percent / 100), 0), sum(one["fat_percent"] * g / 100 for one, g in used)
    melted = min(lost, fat) if rendered_percent is None else whole * rendered_percent / 100
    wet = sum((one["moisture_percent"] - 4 * one["protein_percent"]) * g / 100 for one, g in used)
    poured = sum(item["exact_g"] for item in told["batch"]["add"] if item["what"] == "water")
    if 100 * (wet + poured - whole * (1 - yield_percent / 100) + melted) / (whole * yield_percent / 100) > 10 + 1e-6:
        yield f"added water is met, and {melted} g of the loss may be fat"
    if any(one["animal"] in BIRDS for one, _ in used):
        yield "added water of poultry is met"


def _weighed(told: Body) -> set[str]:
    """What is used, and what was used until the scale rounded it to nothing."""
    lost = {one["name"] for one in told["left_out"] if one["text"].startswith("Less than half a step")}
    return lost | {item["name"] for item in told["weigh"]}


def _faults_of_choice(body: Body, told: Body) -> Iterator[str]:
    """The cheapest there is; and where it is said to be the only one, none other is found."""
    if "scale_step" in body:
        return
    amounts, prices = amounts_of(body, told), prices_per_g(body)
    lines = [*lines_of(body), *lawful_lines(body)]
    if prices is not None:
        least = least_cost(body)
        cost = float(prices @ amounts)
        if least is None or not isclose(cost, least, rel_tol=1e-6, abs_tol=1e-6 * float(prices.max()) * scale_of(body)):
            yield f"costs {cost}, and {least} is the least"
            return
        lines.append(
            Line("cost", prices / float(prices.max() or 1), cost / float(prices.max() or 1) + 1e-9 * scale_of(body))
        )
    if told["chosen"]["only_one"]:
        weights = np.array([0.3 + (number * 0.7548) % 1 for number in range(len(amounts))])
        for way in (weights, -weights):
            other = solved(lines, way, scale_of(body))
            if other is None or float(np.abs(other - amounts).max()) > 1e-3 * scale_of(body):
                yield f"{other} is another blend as good as {amounts}"


def moved(body: Body, place: str, change: float) -> Body:
    """The request with a number elsewhere: in the unit of the answer, by so much."""
    other = deepcopy(body)
    *way, last = re.findall(r"[a-z_]+|[0-9]+", place)
    spot: Any = other
    for part in way:
        spot = spot[int(part)] if part.isdecimal() else spot[part]
    if isinstance(spot[last], dict):
        unit = "lb" if body.get("units") == "us" else "kg"
        spot[last] = {
            "value": spot[last]["value"] + change * G_PER[unit] / G_PER[spot[last]["unit"]],
            "unit": spot[last]["unit"],
        }
    else:
        spot[last] += change
    return other


def _faults_of_savings(body: Body, told: Body, looks: int) -> Iterator[str]:
    """A finite difference, by another solver, as far as the saving is said to hold."""
    before = least_cost(body)
    stated = [limit for limit in told["limits"] if limit["saving"] and limit["place"]]
    for limit in stated[:looks]:
        saving = limit["saving"]
        way = 1 if saving["by"] == "raising" else -1
        holds_to, rate = saving["holds_to"], float(saving["for_one"]["amount"])
        steps = NEAR_BY if holds_to is None else [abs(holds_to - limit["value"]) / 2]
        after = {by: least_cost(moved(body, limit["place"], way * by)) for by in steps}
        assert before is not None
        found = [(before - cost) / by for by, cost in after.items() if cost is not None]
        close = 1e-2 if holds_to is None or _held_further_in(body) else 1e-4
        room = 2e-4 + 1e-6 * before + close * rate
        if not found or not min(found) - room <= rate <= max(found) + room:
            yield f"{limit}: found {found}"


def _held_further_in(body: Body) -> bool:
    """Whether a limit of the law may have been moved in, so that rounding to the scale keeps it."""
    return "scale_step" in body and "sausage_class" in body.get("batch", {})


def _faults_of_prices(body: Body, told: Body, looks: int) -> Iterator[str]:
    """A little over the price at which a material comes in nothing changes, a little under it the block is cheaper."""
    before, per = least_cost(body), "lb" if body.get("units") == "us" else "kg"
    names = [one["name"] for one in body["materials"]]
    dear = [one for one in told["left_out"] if one["comes_in_below"]]
    for one in dear[:looks]:
        price, number = float(one["comes_in_below"]["amount"]), names.index(one["name"])
        dearer, cheaper = 1.02 * price + ROUNDED, max(0.98 * price - ROUNDED, 0)
        over, under = (least_cost(_with_price(body, number, each, per)) for each in (dearer, cheaper))
        assert over is not None
        assert under is not None
        assert before is not None
        same = isclose(over, before, rel_tol=1e-3 if _held_further_in(body) else 1e-7)
        if not same or not (under < before * (1 - 1e-12) or price < 2 * ROUNDED):
            yield f"{one}: {before} becomes {over} and {under}"


def _with_price(body: Body, number: int, price: float, per: str) -> Body:
    other = deepcopy(body)
    other["materials"][number]["price"] = {"amount": f"{price:.9f}", "currency": "USD", "per": per}
    return other


def _faults_of_next_best(body: Body, told: Body) -> Iterator[str]:
    """Each material that is used is left out in turn."""
    if "scale_step" in body:
        return
    before, costs = least_cost(body), []
    for item in told["weigh"]:
        names = [one["name"] for one in body["materials"]]
        cost = least_cost(moved_out(body, names.index(item["name"])))
        costs += [] if cost is None else [cost]
    best = told["next_best"]
    if (best is None) != (not costs):
        yield f"next best {best}, found {costs}"
    elif best and before is not None:
        room = CENT + 1e-6 * before
        if (
            abs(float(best["cost"]["amount"]) - min(costs)) > room
            or abs(float(best["costs_more"]["amount"]) - min(costs) + before) > room
        ):
            yield f"next best {best['cost']}, found {min(costs)} over {before}"


def moved_out(body: Body, number: int) -> Body:
    """The request with none of one material to be used."""
    other = deepcopy(body)
    other["materials"][number]["most_share_percent"] = 0
    return other
