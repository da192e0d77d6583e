"""Proves a refusal of a blend, and what it names as nearest, from the request alone."""

import re
from collections.abc import Iterator
from copy import deepcopy
from typing import Any

from tests.calculations.butchery.blend_bodies import Body
from tests.calculations.butchery.blend_matrices import grams, in_play, is_feasible
from tests.calculations.butchery.blend_proofs import moved

SOLD_FRESH = ("fresh_pork_sausage", "fresh_beef_sausage", "breakfast_sausage", "whole_hog_sausage", "ground_beef")


def faults_of_refusal(body: Body, problem: Body) -> list[str]:
    """What is untrue about a refusal; empty when it is proved."""
    code, nearest = problem["code"], problem.get("nearest")
    if code == "limit_exceeded":
        return [*_faults_of_limits(body, [one for one in problem["findings"] if one["refuses"]])]
    if code == "no_such_blend":
        if is_feasible(body):
            return [f"there is a blend: {body}"]
        return [*_faults_of_nearest(body, nearest or "")]
    if code == "cure_contradicts_class" and body.get("batch", {}).get("sausage_class") not in SOLD_FRESH:
        return [f"{code}: no fresh class: {body}"]
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
    if kinds & {"fat", "added_water", "fat_plus_added_water", "poultry"} and is_feasible(body) and not by_a_hair:
        yield "a blend keeps the law"
    if kinds - {"fat", "added_water", "fat_plus_added_water", "meat", "poultry"} and "cure" not in batch:
        yield f"{kinds} without a cure"


def _is_so(body: Body, code: str) -> bool:
    materials = body["materials"]
    names = [one["name"] for one in materials]
    named = [name for rule in body.get("rules", []) for name in (*rule["materials"], *rule.get("of", ()))]
    named += [body["block"]["material"]] if body["block"]["kind"] == "use_up" else []
    priced = ["price" in one for one in materials]
    ranges = [body[part] for part in ("fat", "protein", "moisture") if part in body]
    batch = body.get("batch", {})
    proofs = {
        "rendered_more_than_lost": lambda: batch.get("rendered_fat_percent", 0) > 0,
        "same_name_twice": lambda: len({" ".join(name.split()) for name in names}) < len(names),
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
    """What is named can be had; and of a percent that alone is moved, nothing nearer by more than its last digit."""
    followed, named = with_nearest(body, nearest), numbers_in(nearest)
    if followed is None:
        if not nearest.startswith("Leave out ") or not is_feasible(without(body, nearest), lawful=False):
            yield f"{nearest} cannot be followed"
        return
    if not is_feasible(followed, lawful=False):
        yield f"{nearest} is not feasible"
    if len(named) > 1:
        yield from _faults_of_several(body, [place for place, _, _ in named])
        return
    place, offered = named[0][0], float(named[0][1])
    if place.endswith("percent"):
        way = 1 if offered < stated_at(body, place) else -1
        nearer = moved(body, place, offered + way * 0.0101 - stated_at(body, place))
        if abs(offered - stated_at(body, place)) > 0.02 and is_feasible(nearer, lawful=False):
            yield f"{nearest}: {nearer} is nearer"


def _faults_of_several(body: Body, places: list[str]) -> Iterator[str]:
    """There is no more of anything than there is."""
    if any(place.endswith("on_hand") for place in places):
        yield f"{places}: stock that nobody has"


def without(body: Body, nearest: str) -> Body:
    """The request without what is to be left out, literally: a field, or a rule of the list."""
    other = deepcopy(body)
    places = nearest.removeprefix("Leave out ").removesuffix(".").split(", ")
    gone = [int(place[len("rules[") : -1]) for place in places if place.startswith("rules[")]
    if gone:
        other["rules"] = [rule for number, rule in enumerate(body["rules"]) if number not in gone]
    for place in places:
        part, _, field = place.rpartition(".")
        if part.startswith("materials["):
            other["materials"][int(part[len("materials[") : -1])].pop(field)
        elif not place.startswith("rules["):
            other.pop(place)
    return other


def stated_at(body: Body, place: str) -> float:
    """The number that stands at a place of the request."""
    spot: Any = body
    for part in re.findall(r"[a-z_]+|[0-9]+", place):
        spot = spot[int(part)] if part.isdecimal() else spot[part]
    return float(spot)


NUMBER = re.compile(r"([a-z_.\[\]0-9]+) to ([0-9.e+-]+)( kg| lb)?")


def numbers_in(nearest: str) -> list[tuple[str, str, str | None]]:
    """Place, value and unit of every number that is to be set; none where something else is to be done."""
    found = [NUMBER.fullmatch(part) for part in nearest.removeprefix("Set ").removesuffix(".").split(" and ")]
    if not nearest.startswith("Set ") or None in found:
        return []
    return [(one[1], one[2], one[3]) for one in found if one]


def with_nearest(body: Body, nearest: str) -> Body | None:
    """The request with what is named as nearest; None where that is no number to set."""
    other = deepcopy(body)
    for place, value, unit in numbers_in(nearest):
        *way, last = re.findall(r"[a-z_]+|[0-9]+", place)
        spot: Any = other
        for part in way:
            spot = spot[int(part)] if part.isdecimal() else spot[part]
        spot[last] = {"value": float(value), "unit": unit.strip()} if unit else float(value)
    return other if numbers_in(nearest) else None
