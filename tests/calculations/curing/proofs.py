"""Proving a refusal: what was asked is worked out again by search and by weighing, without the service's formulas."""

from collections.abc import Callable
from math import isclose
from typing import Any

from tests.calculations.curing.kitchen import green_of, nitrite_by_mass_balance_ppm, weight_g
from tests.calculations.curing.law import SODIUM_NITRITE_PER_SALT
from tests.calculations.curing.stays import NEAR, NO_STAYS, readings_ppm

NO_RULES_READ = {"GB", "GB-NI", "AU-NZ", "CODEX"}
DAY_OF_THE_US_TEXT = "1999-12-23"
"""64 FR 72175: source date of 9 CFR part 424."""
MONOHYDRATE = 216.12 / 198.11
SATURATED = 0.26395
"""Salt by weight in saturated brine at 60 degF, salometer tables."""


def skin_weight_contradicts(body: dict[str, Any]) -> bool:
    """Whether the weight without skin is stated for a piece without skin, or is not 75 to 97 percent of the whole."""
    share = weight_g(body["product"]["skin_free"]) / weight_g(body["meat"])
    return body["product"]["skin"] == "off" or share > 0.97 or share < 0.75


CONTRADICTIONS: dict[str, Callable[[dict[str, Any]], bool]] = {
    "skin_weight_contradicts": skin_weight_contradicts,
    "storage_contradicts_finish": lambda body: (
        (body["product"]["finish"], body["product"]["storage"]) == ("fresh", "shelf_stable")
    ),
    "level_in_one_step": lambda body: (
        (body["product"]["kind"], body["method"]["kind"]) == ("bacon", "injected_then_covered")
    ),
    **NO_STAYS,
}
"""What can be seen from the request alone."""


def filled(body: dict[str, Any], cure_g: float) -> dict[str, float]:
    """Everything in the vessel when so much curing salt goes in. Raises OverflowError when no pickle suffices."""
    method, cure = body["method"], body["curing_salt"]
    meat_g, water_g = weight_g(body["meat"]), weight_g(method.get("water"))
    powder = body.get("stock_powder")
    powder_g = weight_g(powder["mass"]) if powder else 0.0
    fixed = {"water": water_g, "stock_powder": powder_g, "dissolved": weight_g(body.get("dissolved_ingredients"))}
    inside = {
        "salt": cure_g * salt_share(cure) + (powder_g * powder["salt_percent"] / 100 if powder else 0),
        "sugar": cure_g * cure.get("sugar_percent", 0) / 100,
    }
    pickle_g, added = sum(fixed.values()) + cure_g, {"accelerator": 0.0}
    for _ in range(20_000):
        added = {name: share_g(body, name, pickle_g) - inside[name] for name in inside if f"{name}_percent" in body}
        added["accelerator"] = accelerator_g(body, pickle_g)
        heavier_g = sum(fixed.values()) + cure_g + sum(added.values())
        if heavier_g > 1e16:
            raise OverflowError
        if isclose(heavier_g, pickle_g, rel_tol=1e-14):
            break
        pickle_g = heavier_g
    solids = weight_g(body.get("other_ingredients"))
    return {"meat": meat_g, "curing_salt": cure_g, "other_ingredients": solids, **fixed, **added}


def salt_share(cure: dict[str, Any]) -> float:
    """Sodium chloride in a curing salt: what its label leaves."""
    other = cure.get("sugar_percent", 0) + cure.get("other_percent", 0) + cure.get("nitrate", {}).get("percent", 0)
    return float(1 - (cure["nitrite"]["percent"] + other) / 100)


def share_g(body: dict[str, Any], name: str, pickle_g: float) -> float:
    """What a percentage asks for: of the meat, of meat and water, or in the part of the pickle that is pumped."""
    method, fraction, meat_g = body["method"], body[f"{name}_percent"] / 100, weight_g(body["meat"])
    if method["kind"] in ("dry", "comminuted"):
        return float(fraction * meat_g)
    if method["kind"] == "injected":
        return float(fraction * pickle_g / (method["pump_percent"] / 100))
    return float(fraction * (meat_g + weight_g(method["water"])))


def accelerator_g(body: dict[str, Any], pickle_g: float) -> float:
    """Accelerator that reaches its ppm on the reading of the target."""
    accelerator = body.get("accelerator")
    if not accelerator:
        return 0.0
    hydrate = MONOHYDRATE if accelerator["kind"].endswith("monohydrate") else 1.0
    of_one_g = reading_of_one_g(body, pickle_g)
    return float(accelerator["ppm"] * hydrate / of_one_g)


def reading_of_one_g(body: dict[str, Any], pickle_g: float) -> float:
    """What one gram of additive in the vessel reads, in ppm, on the basis of the target."""
    probe = {**body, "curing_salt": {"nitrite": {"percent": 100}}}
    dry = body["method"]["kind"] in ("dry", "comminuted")
    rest = {} if dry else {"water": pickle_g - 1.0}
    return nitrite_by_mass_balance_ppm(probe, {"meat": weight_g(body["meat"]), "curing_salt": 1.0, **rest})["taken"]


def asked_vessel(body: dict[str, Any]) -> dict[str, float]:
    """The vessel that reaches what was asked, found by bisection. Raises OverflowError when there is none."""
    low, high = 0.0, 1.0
    while short_of_target(body, high):
        high *= 2
        if high > 1e14:
            raise OverflowError
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if short_of_target(body, middle) else (low, middle)
    return filled(body, high)


def short_of_target(body: dict[str, Any], cure_g: float) -> bool:
    """Whether so much curing salt is not yet what was asked."""
    vessel, target = filled(body, cure_g), body["target"]
    if target["kind"] == "ingoing_nitrite":
        return nitrite_by_mass_balance_ppm(body, vessel)["taken"] < target["ppm"]
    pickle_g = sum(vessel.values()) - vessel["meat"] - vessel["other_ingredients"]
    return cure_g < share_g({**body, "curing_salt_percent": target["percent"]}, "curing_salt", pickle_g)


def faults_of_refusal(body: dict[str, Any], problem: dict[str, Any]) -> list[str]:
    """What is untrue about a refusal; empty when it is proved."""
    code = problem["code"]
    if code == "no_rule_in_force":
        return [] if has_no_rule(body) else [f"rules are in force for {body}"]
    if code in CONTRADICTIONS:
        return [] if CONTRADICTIONS[code](body) else [f"{code} is not so: {body}"]
    try:
        vessel = asked_vessel(body)
    except OverflowError:
        return (
            []
            if code in ("curing_salt_too_weak", "no_room_for_water", "limit_exceeded")
            else [f"no vessel, not {code}"]
        )
    if code == "limit_exceeded":
        return faults_of_findings(body, vessel, problem["findings"])
    return [] if is_impossible(body, vessel, code) else [f"{code} is not so: {vessel}"]


def has_no_rule(body: dict[str, Any]) -> bool:
    """Whether the place has no ceiling, read or reported, for something in this dose."""
    place, finish, day = body["jurisdiction"], body["product"].get("finish"), body.get("on", "2026-12-01")
    nitrate_or_accelerator = "nitrate" in body["curing_salt"] or ("accelerator" in body)
    european = place in ("EU", "DK") and (finish in (None, "fresh") or (place == "DK" and finish != "cooked"))
    too_early = day < {"US": DAY_OF_THE_US_TEXT, "EU": "2013-06-01", "DK": "0000"}.get(place, "0000")
    return place in NO_RULES_READ or european or too_early or nitrate_or_accelerator


def is_impossible(body: dict[str, Any], vessel: dict[str, float], code: str) -> bool:
    """Whether the vessel that was asked for is impossible in the way that the code says."""
    method, meat_g = body["method"], vessel["meat"]
    pickle_g = sum(vessel.values()) - meat_g - vessel["other_ingredients"]
    basis = method.get("basis") or method.get("cover") or {}
    needed_g = meat_g * (method.get("pump_percent", 0) + basis.get("percent", 0)) / 100
    powder = body.get("stock_powder")
    powder_salt_g = vessel["stock_powder"] * powder["salt_percent"] / 100 if powder else 0
    salt_g = vessel.get("salt", 0) + vessel["curing_salt"] * salt_share(body["curing_salt"]) + powder_salt_g
    step_g, pumped = weight_g(body["scale_step"]), "pump_percent" in method
    dry_g = 1e99 if basis or pumped else meat_g
    hair = 1 + 1e-9
    return {
        "below_scale_step": min(vessel["curing_salt"], vessel["accelerator"] or 1e99) < step_g * hair,
        "curing_salt_too_weak": vessel["curing_salt"] * hair
        > min(pickle_g / 2 if basis or pumped else 1e99, 0.2 * dry_g),
        "no_room_for_water": pickle_g > 1e12,
        "not_enough_pickle": pickle_g < needed_g * hair + 3 * step_g,
        "pickle_over_saturated": (salt_g + 2 * step_g) * hair > SATURATED * (salt_g + vessel["water"]),
        "salt_comes_with_the_cure": vessel.get("salt", 1) < 1e-9 * pickle_g,
        "sugar_comes_with_the_cure": vessel.get("sugar", 1) < 1e-9 * pickle_g,
    }[code]


def faults_of_findings(body: dict[str, Any], vessel: dict[str, float], findings: list[dict[str, Any]]) -> list[str]:
    """Findings that refuse although the figure keeps the limit, or whose nitrite figure is not that of the vessel."""
    refusing = [finding for finding in findings if finding["refuses"]]
    kept = [finding for finding in refusing if _keeps(finding)]
    readings = readings_ppm(body, vessel)
    untrue = [finding for finding in refusing if not _is_a_reading(body, vessel, finding, readings)]
    nothing = [] if refusing else ["nothing refuses"]
    return [*nothing, *(f"{finding['rule']}: {finding} against {readings}" for finding in [*kept, *untrue])]


def _keeps(finding: dict[str, Any]) -> bool:
    figure, limit = finding["figure"], finding["limit"]
    if finding["bound"] == "level":
        return bool(isclose(figure, limit, rel_tol=1e-12))
    return bool(figure >= limit if finding["bound"] == "minimum" else figure <= limit)


def _is_a_reading(
    body: dict[str, Any], vessel: dict[str, float], finding: dict[str, Any], readings: dict[str, float]
) -> bool:
    """Whether a nitrite figure is a reading of the vessel, but for what rounding to the scale may change."""
    if finding["unit"] == "percent" or "nitrite" not in finding["expressed_as"]:
        return True
    salt = body["curing_salt"]["nitrite"]["salt"]
    ion = 46.0055 / (68.9953 if salt == "sodium_nitrite" else 85.1038)
    per_salt = {"nitrite_ion": ion, "sodium_nitrite": SODIUM_NITRITE_PER_SALT[salt]}.get(finding["expressed_as"], 1.0)
    skin_on = readings["taken"] * green_of(body, vessel["meat"]) / vessel["meat"]
    rounding = 2 * weight_g(body["scale_step"]) / vessel["curing_salt"] + 1e-6
    figures = [*readings.values(), skin_on, readings["batch"]]
    out_ppm, near_ppm = readings.get("after_stay", 0.0) * per_salt, NEAR * readings.get("vessel", 0.0)
    if finding["basis"] == "whole_system_after_stay":
        return isclose(finding["figure"], out_ppm, rel_tol=rounding, abs_tol=near_ppm)
    within_ppm = readings.get("within_stay", -1.0) * per_salt
    if isclose(finding["figure"], within_ppm, rel_tol=rounding, abs_tol=near_ppm) and finding["bound"] == "minimum":
        return True
    return any(isclose(finding["figure"], figure * per_salt, rel_tol=rounding) for figure in figures)
