"""What each stage of a chain leaves, worked out from the request and from the data files read as text."""

from functools import cache
from pathlib import Path
from typing import Any

import yaml

from tests.calculations.measures.pantry import GRAMS

DATA = Path(__file__).parents[3] / "service/rules/data"
STARTS = {"untrimmed": "as_purchased", "trimmed": "trimmed", "cured": "cured", "cooked": "cooked"}
METHODS = {
    "smoke": ["smoked"], "steam": ["steamed"], "roast": ["roasted"], "braise": ["braised"],
    "simmer": ["simmered", "boiled"], "bake": ["baked"], "pan_fry": ["pan-fried", "pan-cooked"],
}  # fmt: skip

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


def published(stage: dict[str, Any], of: str, cut_id: str | None) -> Three | None:
    """The share that is taken where none is stated."""
    if stage["kind"] not in ("trim", "cook", "slice"):
        return None
    cut = rows("cuts.yaml")[cut_id] if cut_id else None
    own = _of_cut(stage, of, cut) if cut else []
    if own:
        return _spanned(own)
    usual = next(
        (row for row in rows("usual_yields.yaml").values() if row["stage"] == stage["kind"] and row["of"] == of), None
    )
    if usual is None or (stage["kind"] == "cook" and not _is(usual["method"], stage)):
        return None
    return _spanned([usual]) if cut is None or _stands_for(usual, cut) else None


def _of_cut(stage: dict[str, Any], of: str, cut: dict[str, Any]) -> list[dict[str, Any]]:
    if stage["kind"] == "trim":
        return _trimmed(cut) if of == "as_purchased" else []
    ends = ["cooked", "sold"] if stage["kind"] == "cook" else ["sold"]
    return [
        one
        for one in cut.get("yields", [])
        if one.get("usable", True) and one["of"] == of and one["left"] in ends and _is(one["method"], stage)
    ]


def _trimmed(cut: dict[str, Any]) -> list[dict[str, Any]]:
    """By each source that weighed it all: what is usable, or a hundred less fat, skin, bone and whatever comes off."""
    books: dict[str, list[dict[str, Any]]] = {}
    for part in cut.get("parts", []):
        books.setdefault(part["source"].rstrip("0123456789").removesuffix(", "), []).append(part)
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
    untold = [part for part in parts if not part.get("consists_of") and not part["part"].startswith("trim")]
    boned = cut.get("bone_in") is False or "bone" in weighed
    return [_turned(off)] if "fat" in weighed and boned and not untold else []


def _is(method: str, stage: dict[str, Any]) -> bool:
    return any(word in method for word in METHODS.get(stage.get("method", ""), ["sliced"]))


def _stands_for(usual: dict[str, Any], cut: dict[str, Any]) -> bool:
    if usual["animal"] is None:
        return True
    known = (
        cut.get("parts")
        if usual["stage"] == "trim"
        else [one for one in cut.get("yields", []) if one["left"] == usual["left"]]
    )
    return usual["animal"] == cut["animal"] and cut["kind"] == "cut" and not cut.get("bone_in") and not known


def _turned(part: dict[str, Any]) -> dict[str, Any]:
    turned = {**part, "low_percent": 100 - part["high_percent"], "high_percent": 100 - part["low_percent"]}
    return {**turned, **({"typical_percent": 100 - part["typical_percent"]} if "typical_percent" in part else {})}


def _spanned(readings: list[dict[str, Any]]) -> Three:
    """All readings within; the usual one as named, else the mean middle of the best evidence there is."""
    named = [one["typical_percent"] for one in readings if "typical_percent" in one]
    best = next(
        known for known in ("read", "reported", "recalled") if any(one["evidence"] == known for one in readings)
    )
    middles = [(one["low_percent"] + one["high_percent"]) / 2 for one in readings if one["evidence"] == best]
    typical = named[0] if named else sum(middles) / len(middles)
    low, high = min(one["low_percent"] for one in readings), max(one["high_percent"] for one in readings)
    return low / 100, typical / 100, high / 100


def shares(body: dict[str, Any]) -> list[Three | None]:
    """The share of every stage; None where there is none."""
    return [
        stated(stage["change"])
        if "change" in stage
        else None
        if "weighed" in stage
        else published(stage, of, body.get("cut"))
        for stage, of in zip(body["stages"], states(body), strict=False)
    ]


def wanted_g(body: dict[str, Any]) -> float:
    """The weight that the task is about."""
    task = body["task"]
    if task["kind"] == "portions_wanted":
        return float(task["how_many"]) * mass_g(task["portion"])
    return mass_g(task["weight"])
