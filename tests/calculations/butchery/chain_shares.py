"""What each stage of a chain leaves, worked out from the request and from the data files read as text."""

from functools import cache
from pathlib import Path
from typing import Any

import yaml

from tests.calculations.measures.pantry import GRAMS

DATA = Path(__file__).parents[3] / "service/rules/data"
STARTS = {"untrimmed": "as_purchased", "trimmed": "trimmed", "cured": "cured", "cooked": "cooked"}

Three = tuple[float, float, float]
"""Low, typical, high."""


@cache
def rows(name: str) -> dict[str, dict[str, Any]]:
    """A list of the data, by id, as it is written."""
    return {row["id"]: row for row in yaml.safe_load((DATA / name).read_text("utf-8"))}


def mass_g(quantity: dict[str, Any]) -> float:
    """A weight of the request."""
    return float(quantity["value"] * GRAMS[quantity["unit"]])


def begins(body: dict[str, Any]) -> str:
    """What comes in: as stated, or what the cut is."""
    cut = rows("cuts.yaml").get(body.get("cut", ""))
    if body.get("bought_as") or cut is None or cut["kind"] == "cut":
        return str(body.get("bought_as") or "untrimmed")
    of = next((one["of"] for one in cut.get("yields", [])), "trimmed" if cut["kind"] == "trimming" else "cured")
    return {"as_purchased": "untrimmed", "sold": "cooked"}.get(of, of)


def states(body: dict[str, Any]) -> list[str]:
    """What the weight is before the first stage and after each."""
    kinds, told = [stage["kind"] for stage in body["stages"]], [STARTS[begins(body)]]
    for place, kind in enumerate(kinds):
        goes_on = {"cure", "cook"} & set(kinds[place + 1 :])
        changed = {"cure": "cured", "cook": "cooked", "slice": told[-1] if goes_on else "sold"}
        if kind == "trim" and told[-1] == "as_purchased":
            changed["trim"] = "trimmed"
        told.append(changed.get(kind, told[-1]))
    return told


def stated(change: dict[str, Any]) -> Three:
    """A share as it is stated."""
    if change["kind"] == "own_test":
        share = mass_g(change["after"]) / mass_g(change["before"])
        return share, share, share
    usual = change["percent"]
    ends = change.get("low_percent", usual), usual, change.get("high_percent", usual)
    if change["kind"] == "lost":
        return (1 - ends[2] / 100, 1 - usual / 100, 1 - ends[0] / 100)
    add = 1.0 if change["kind"] == "gained" else 0.0
    return (add + ends[0] / 100, add + usual / 100, add + ends[2] / 100)


def published(body: dict[str, Any], place: int, of: str) -> Three | None:
    """The share that is taken where none is stated."""
    stage, later = body["stages"][place], [one["kind"] for one in body["stages"][place + 1 :]]
    if stage["kind"] not in ("trim", "cook", "slice"):
        return None
    cut = rows("cuts.yaml")[body["cut"]] if body.get("cut") else None
    own = _of_cut(stage, of, cut, is_sliced="slice" in later) if cut else []
    if own:
        return _spanned(own)
    usual = next(
        (row for row in rows("usual_yields.yaml").values() if row["stage"] == stage["kind"] and row["of"] == of), None
    )
    if usual is None or (stage["kind"] == "cook" and not _is(usual, stage)):
        return None
    stands = _stands_for(usual, cut) if cut else may_be_usual(usual, body)
    return _spanned([usual]) if stands else None


def may_be_usual(usual: dict[str, Any], body: dict[str, Any]) -> bool:
    """Whether nothing in the standard says that it is other meat than the brisket that was tested."""
    product = body.get("standard", {}).get("product", {"kind": "none"})
    if usual["animal"] is None or product["kind"] == "none" or product.get("species") in ("mixed", "poultry"):
        return True
    if product["kind"] == "corned_beef":
        return bool(product["cut"] == usual["part_of"])
    return product.get("species", "pork") == usual["animal"]


def _of_cut(stage: dict[str, Any], of: str, cut: dict[str, Any], *, is_sliced: bool) -> list[dict[str, Any]]:
    if stage["kind"] == "trim":
        return _trimmed(cut) if of == "as_purchased" else []
    ends = ["sold"] if stage["kind"] == "slice" else ["cooked"] if is_sliced else ["cooked", "sold"]
    return [
        one
        for one in cut.get("yields", [])
        if one.get("usable", True) and one["of"] == of and one["left"] in ends and _is(one, stage)
    ]


def _trimmed(cut: dict[str, Any]) -> list[dict[str, Any]]:
    """By each source that weighed it all: what is usable, or a hundred less fat, skin, bone and whatever comes off."""
    books: dict[str, list[dict[str, Any]]] = {}
    for place, part in enumerate(cut.get("parts", [])):
        books.setdefault(part.get("added_with", f"{place}"), []).append(part)
    found = []
    for parts in books.values():
        meat = [part for part in parts if "meat" in part.get("consists_of", [])]
        whole = sum(part["low_percent"] + part["high_percent"] for part in parts) / 2
        if meat and abs(whole - 100) <= 0.5:
            found.append(_added(meat))
        if not meat:
            found += _less(_added(_off(parts)), _off(parts), cut)
    return found


def _off(parts: list[dict[str, Any]]) -> list[dict[str, Any]]:
    taken: list[dict[str, Any]] = []
    for part in sorted(parts, key=lambda one: one["high_percent"], reverse=True):
        known = {kind for one in taken for kind in one.get("consists_of", [])}
        if known.isdisjoint(part.get("consists_of", [])):
            taken.append(part)
    return taken


def _added(parts: list[dict[str, Any]]) -> dict[str, Any]:
    ends = ["low_percent", "typical_percent", "high_percent"]
    told = {end: sum(part[end] for part in parts) for end in ends if all(end in part for part in parts)}
    return {**told, "evidence": parts[0]["evidence"]}


def _less(off: dict[str, Any], parts: list[dict[str, Any]], cut: dict[str, Any]) -> list[dict[str, Any]]:
    weighed = {kind for part in parts for kind in part.get("consists_of", [])}
    untold = [part for part in parts if not part.get("consists_of") and not part.get("comes_off")]
    boned = cut.get("bone_in") is False or "bone" in weighed
    return [_turned(off)] if "fat" in weighed and boned and not untold else []


def _is(row: dict[str, Any], stage: dict[str, Any]) -> bool:
    return stage.get("method", "slice") in row["done_by"]


def _stands_for(usual: dict[str, Any], cut: dict[str, Any]) -> bool:
    if usual["animal"] is None:
        return True
    known = (
        cut.get("parts")
        if usual["stage"] == "trim"
        else [one for one in cut.get("yields", []) if one["left"] == usual["left"]]
    )
    return usual["part_of"] == cut.get("part_of") and cut["kind"] == "cut" and not cut.get("bone_in") and not known


def _turned(part: dict[str, Any]) -> dict[str, Any]:
    turned = {**part, "low_percent": 100 - part["high_percent"], "high_percent": 100 - part["low_percent"]}
    return {**turned, **({"typical_percent": 100 - part["typical_percent"]} if "typical_percent" in part else {})}


def _spanned(readings: list[dict[str, Any]]) -> Three:
    """All readings within; the usual one by the best evidence there is, as it names it, else the middle of each."""
    best = next(
        known for known in ("read", "reported", "recalled") if any(one["evidence"] == known for one in readings)
    )
    middles = [
        one.get("typical_percent", (one["low_percent"] + one["high_percent"]) / 2)
        for one in readings
        if one["evidence"] == best
    ]
    typical = sum(middles) / len(middles)
    low, high = min(one["low_percent"] for one in readings), max(one["high_percent"] for one in readings)
    return low / 100, typical / 100, high / 100


def shares(body: dict[str, Any]) -> list[Three | None]:
    """The share of every stage; None where there is none."""
    return [
        stated(stage["change"]) if "change" in stage else None if "weighed" in stage else published(body, place, of)
        for place, (stage, of) in enumerate(zip(body["stages"], states(body), strict=False))
    ]


def wanted_g(body: dict[str, Any]) -> float:
    """The weight that the task is about."""
    task = body["task"]
    if task["kind"] == "portions_wanted":
        return float(task["how_many"]) * mass_g(task["portion"])
    return mass_g(task["weight"])
