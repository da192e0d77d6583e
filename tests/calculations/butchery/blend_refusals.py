"""Proves a refusal of a blend, and what it names as nearest, from the request alone."""

import re
from collections.abc import Iterator
from copy import deepcopy
from typing import Any

from tests.calculations.butchery.blend_bodies import Body
from tests.calculations.butchery.blend_matrices import grams, in_play, is_feasible
from tests.calculations.butchery.blend_proofs import moved


def faults_of_refusal(body: Body, problem: Body) -> list[str]:
    """What is untrue about a refusal; empty when it is proved."""
    code, nearest = problem["code"], problem.get("nearest")
    if code == "limit_exceeded":
        return [*_faults_of_limits(body, [one for one in problem["findings"] if one["refuses"]])]
    if code == "no_such_blend":
        if is_feasible(body):
            return [f"there is a blend: {body}"]
        return [*_faults_of_nearest(body, nearest or "")]
    if "batch" in body and "cure" in body["batch"]:
        return [] if nearest or code == "curing_salt_too_weak" else [f"{code}: nothing is near"]
    return [] if nearest and _is_so(body, code) else [f"{code} is not so: {body}"]


def _faults_of_limits(body: Body, broken: list[Body]) -> Iterator[str]:
    """Some limit of the law is broken that no blend keeps; nitrite and its like only by a cure."""
    batch, kinds = body.get("batch", {}), {one["measure"] for one in broken}
    added = [batch.get(f"{part}_percent", 0) for part in ("water", "seasoning", "sugar", "salt")]
    if not kinds:
        yield "nothing is broken"
    if kinds == {"meat"} and 100 / (100 + sum(added)) > 0.85:
        yield f"there is meat enough: {added}"
    by_a_hair = "cure" in batch and all(abs(one["margin"]) < 0.01 * one["limit"] for one in broken if one["margin"])
    if kinds & {"fat", "added_water", "fat_plus_added_water"} and is_feasible(body) and not by_a_hair:
        yield "a blend keeps the law"
    if kinds - {"fat", "added_water", "fat_plus_added_water", "meat"} and "cure" not in batch:
        yield f"{kinds} without a cure"


def _is_so(body: Body, code: str) -> bool:
    materials = body["materials"]
    names = [one["name"] for one in materials]
    named = [name for rule in body.get("rules", []) for name in (*rule["materials"], *rule.get("of", ()))]
    named += [body["block"]["material"]] if body["block"]["kind"] == "use_up" else []
    priced = ["price" in one for one in materials]
    ranges = [body[part] for part in ("fat", "protein", "moisture") if part in body]
    proofs = {
        "same_name_twice": lambda: len(set(names)) < len(names),
        "unknown_material": lambda: not set(named) <= set(names),
        "prices_missing": lambda: any(priced) and not all(priced),
        "several_currencies": lambda: len({one["price"]["currency"] for one in materials if "price" in one}) > 1,
        "composition_adds_up_to_more": lambda: any(_in_all(one) > 101 for one in materials),
        "empty_range": lambda: (
            any(one.get("least_percent", 0) > one.get("most_percent", 100) for one in ranges)
            or grams(body["block"].get("at_least", {"value": 0, "unit": "g"}))
            > grams(body["block"].get("at_most", {"value": 1e12, "unit": "g"}))
        ),
        "stock_not_stated": lambda: (
            body["block"]["kind"] == "use_up" and "on_hand" not in materials[names.index(body["block"]["material"])]
        ),
        "nothing_to_blend": lambda: not in_play(body),
        "wanted_and_left_out": lambda: len(in_play(body)) < len(names),
        "no_weight_asked": lambda: body["block"]["kind"] == "any_weight" and "at_least" not in body["block"],
        "scale_too_coarse": lambda: "scale_step" in body,
    }
    return code in proofs and proofs[code]()


def _in_all(one: Body) -> float:
    return sum(one.get(f"{part}_percent", 0) for part in ("fat", "protein", "moisture", "salt"))


def _faults_of_nearest(body: Body, nearest: str) -> Iterator[str]:
    """What is named can be had; and of a percent, nothing nearer by more than its last digit."""
    followed, found = with_nearest(body, nearest), NEAREST.fullmatch(nearest)
    if followed is None or found is None:
        if not nearest.startswith("Leave out ") or not is_feasible(without(body, nearest), lawful=False):
            yield f"{nearest} cannot be followed"
        return
    if not is_feasible(followed, lawful=False):
        yield f"{nearest} is not feasible"
    place, offered = found[1], float(found[2])
    if place.endswith("percent"):
        way = 1 if offered < stated_at(body, place) else -1
        nearer = moved(body, place, offered + way * 0.0101 - stated_at(body, place))
        if abs(offered - stated_at(body, place)) > 0.02 and is_feasible(nearer, lawful=False):
            yield f"{nearest}: {nearer} is nearer"


def without(body: Body, nearest: str) -> Body:
    """The request without the limits that are to be left out."""
    other = deepcopy(body)
    places = nearest.removeprefix("Leave out ").removesuffix(".").split(", ")
    gone = {int(place[len("rules[") :].partition("]")[0]) for place in places if place.startswith("rules[")}
    if gone:
        other["rules"] = [rule for number, rule in enumerate(body["rules"]) if number not in gone]
    for place in places:
        part, _, field = place.rpartition(".")
        if part.startswith("materials["):
            other["materials"][int(part[len("materials[") : -1])].pop(field)
        elif part in ("fat", "protein", "moisture"):
            _without_side(other, part, field)
    return other


def _without_side(body: Body, part: str, field: str) -> None:
    """A range without one of its sides."""
    wanted = body.pop(part, {})
    if wanted.get("kind") == "between":
        kept, kind = ("most_percent", "at_most") if field == "least_percent" else ("least_percent", "at_least")
        body[part] = {"kind": kind, "percent": wanted[kept]}


def stated_at(body: Body, place: str) -> float:
    """The number that stands at a place of the request."""
    spot: Any = body
    for part in re.findall(r"[a-z_]+|[0-9]+", place):
        spot = spot[int(part)] if part.isdecimal() else spot[part]
    return float(spot)


NEAREST = re.compile(r"Set ([a-z_.\[\]0-9]+) to ([0-9.e+-]+)( kg| lb)?\.")


def with_nearest(body: Body, nearest: str) -> Body | None:
    """The request with what is named as nearest; None where that is no number to set."""
    found = NEAREST.fullmatch(nearest)
    if not found:
        return None
    place, value, unit = found.groups()
    other = deepcopy(body)
    *way, last = re.findall(r"[a-z_]+|[0-9]+", place)
    spot: Any = other
    for part in way:
        spot = spot[int(part)] if part.isdecimal() else spot[part]
    spot[last] = {"value": float(value), "unit": unit.strip()} if unit else float(value)
    return other
