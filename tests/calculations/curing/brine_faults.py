"""What is wrong with an answer about a brine, by other arithmetic and other fits than the service's."""

from typing import Any

from tests.calculations.curing.brine_proofs import (
    FAR,
    allowed,
    filled_litres,
    heat,
    hot_density,
    ice_heat,
    is_solid,
    meat_litres,
    read_density,
    vessel_floor,
    vessel_litres,
    water_heat,
)
from tests.calculations.curing.brines import (
    KILOGRAMS,
    LITRES,
    METRES,
    SATURATED,
    celsius,
    density,
    dissolved,
    freezing,
    kilograms,
    solved,
    specific_gravity,
    strength,
)

TOLD = 6e-4
"""What four digits may be off."""
HOT = 6e-3
"""How far densities above 40 degC may lie apart: the other fit is carried there as water is."""
DIGITS = 1e-6
"""What nine digits and a sum of them may be off."""


def faults_of_brine(body: dict[str, Any], told: dict[str, Any]) -> list[str]:
    """What is wrong with an answer: its salt, its amounts, its scales, its vessel, its cold, its heat."""
    task = body["task"]
    w, off = true_strength(task)
    checks = [*scales(told, w, off), *cold(task, told), *certainty(task, told)]
    if task["kind"] == "read":
        return _false(checks)
    checks += [*salt(task, told), *amounts(task, told), *sizes(told)]
    if told["vessel"] is not None:
        checks += vessel(task["how_much"], told)
    if task["kind"] == "cool":
        checks += warmth(task, told)
    return _false(checks)


def _false(checks: list[tuple[str, float, float, float]]) -> list[str]:
    return [f"{what}: {is_} is not {should}" for what, is_, should, off in checks if not abs(is_ - should) <= off]


def true_strength(task: dict[str, Any]) -> tuple[float, float]:
    """Salt by weight of what is told, and how far another fit may be off."""
    if task["kind"] != "read":
        stated = task["strength" if task["kind"] == "make" else "wanted"]
        return strength(stated), allowed(stated)
    t = celsius(task["temperature"], 0)
    w = solved(lambda x: density(x, t) - read_density(task))
    return min(w, dissolved(t)), allowed({"kind": "baume"}, w)


def kilos(told: dict[str, Any]) -> dict[str, float]:
    """Kilograms of everything that is weighed."""
    return {item["what"]: item["exact_g"] / 1000 for item in told["weigh"]}


def scales(told: dict[str, Any], w: float, off: float) -> list[tuple[str, float, float, float]]:
    """The brine on every scale, from the strength that was asked for and not from the one that is told."""
    is_, t = told["brine"], degrees(told["brine"]["temperature"])
    told_w = is_["salt_percent"] / 100
    gravity = specific_gravity(told_w)
    checks = [
        ("percent", is_["salt_percent"], 100 * w, 100 * off + 6e-4),
        ("salometer", is_["salometer_deg"], 100 * w / SATURATED, 100 * off / SATURATED + 6e-3),
        ("density", is_["density_kg_per_l"], hot_density(told_w, t), HOT if t > 40 else 1e-3),
        ("grams", is_["salt_g_per_l"], 1000 * told_w * is_["density_kg_per_l"], 0.04),
        ("gravity", is_["specific_gravity_ratio"], gravity, 8e-4),
        ("baume", is_["baume_deg"], 145 - 145 / is_["specific_gravity_ratio"], 0.02),
    ]
    if (is_["freezing_point"] is None) == (told_w <= 0.233 - FAR):
        return [*checks, ("freezing told", 0, 1, 0)] if abs(told_w - 0.233) > FAR else checks
    if is_["freezing_point"] is not None:
        checks.append(("freezing", degrees(is_["freezing_point"]), freezing(told_w), 0.06))
    return checks


def cold(task: dict[str, Any], told: dict[str, Any]) -> list[tuple[str, float, float, float]]:
    """The temperature is the one that was asked for, nothing is solid in it, and readiness goes by it alone."""
    is_ = degrees(told["brine"]["temperature"])
    t = is_ if task["kind"] == "cool" else celsius(task.get("temperature"), 4)
    stated = task["kind"] == "cool" or (task["kind"] in ("make", "adjust") and "temperature" in task)
    checks = [("temperature", is_, t, 0.06), ("readiness is told", float(told["readiness"] is not None), stated, 0)]
    at_hand = [strength(task["strength"])] if task["kind"] == "adjust" else []
    whole = [told["brine"]["salt_percent"] / 100, *at_hand]
    checks += [("solid", float(is_solid(w, t + 0.15)), 0, 0) for w in whole]
    rounding = 0.06 if task["kind"] == "cool" else 1e-9
    ready = -1 - rounding <= t <= 40 / 9 + rounding - (1.5 if task["kind"] == "cool" else 0)
    never = -1 + rounding < t < 40 / 9 - rounding - (1.5 if task["kind"] == "cool" else 0)
    if told["readiness"] is not None and (told["readiness"] == "ready") not in (ready, never):
        checks.append((f"readiness {told['readiness']}", t, -99, 0))
    return checks


def certainty(task: dict[str, Any], told: dict[str, Any]) -> list[tuple[str, float, float, float]]:
    """How exact a strength can be, and up to which heat figures are held against a second source."""
    hot = task.get("concentrate", {}).get("strength")
    at_hand = [hot] if hot else [task["strength"]] if task["kind"] == "adjust" else []
    stated = [one["kind"] for one in (task.get("strength"), task.get("wanted"), hot) if one]
    read = "hydrometer" in task or {"specific_gravity", "baume"} & set(stated) or "salometer" in [
        one["kind"] for one in at_hand
    ]  # fmt: skip
    is_ = told["uncertainty"]
    return [
        ("uncertainty", is_["strength_percent"], 0.3 if read else 0.1, 1e-9),
        ("valid from", degrees(is_["valid_from"]), -5, 1e-9),
        ("valid to", degrees(is_["valid_to"]), 100 if hot else 40, 1e-9),
    ]


def salt(task: dict[str, Any], told: dict[str, Any]) -> list[tuple[str, float, float, float]]:
    """Salt in what is weighed against salt in what was asked for."""
    kg = kilos(told)
    at_hand = task["strength"] if task["kind"] == "adjust" else task.get("concentrate", {}).get("strength")
    has = strength(at_hand) if at_hand else 0.0
    before = kg.get("brine", 0.0) + kg.get("concentrate", 0.0)
    whole, (w, off) = sum(kg.values()), true_strength(task)
    off = (off + DIGITS * w) * whole + (allowed(at_hand) * before if at_hand else 0.0)
    return [("salt", kg.get("salt", 0.0) + before * has, w * whole, off)]


def amounts(task: dict[str, Any], told: dict[str, Any]) -> list[tuple[str, float, float, float]]:
    """The amount that was asked for against the amount that is weighed."""
    kg, asked = kilos(told), task.get("how_much", {"kind": "adjust"})
    w, _ = true_strength(task)
    whole, cool = sum(kg.values()), task["kind"] == "cool"
    if asked["kind"] == "finished_brine":
        return [_amount(whole, asked["amount"], density(w, 4 if cool else celsius(task.get("temperature"), 4)))]
    if asked["kind"] == "water_at_hand":
        return [("water", kg["water"], kilograms(asked["water"]), DIGITS * kg["water"])]
    if asked["kind"] == "all_of_it":
        hot, t = strength(task["concentrate"]["strength"]), celsius(task["concentrate"]["temperature"], 0)
        return [_amount(kg["concentrate"], asked["concentrate"], hot_density(hot, t), HOT)]
    if asked["kind"] == "adjust":
        t = celsius(task.get("temperature") or task["strength"].get("read_at"), 4)
        return [_amount(kg["brine"], task["amount"], density(strength(task["strength"]), t))]
    litre_kg = density(w, celsius(task.get("temperature"), 4))
    over = filled_litres(asked) - meat_litres(asked)
    return [("covering", whole, over * litre_kg, 2e-3 * whole)]


def _amount(kg: float, asked: dict[str, Any], litre_kg: float, off: float = 2e-3) -> tuple[str, float, float, float]:
    exact = asked["unit"] in KILOGRAMS
    return ("amount", kg, kilograms(asked, litre_kg), (DIGITS if exact else off) * kg)


def sizes(told: dict[str, Any]) -> list[tuple[str, float, float, float]]:
    """Mass and volume of the brine against the sum of what is weighed."""
    kg, is_ = sum(kilos(told).values()), told["brine"]
    return [
        ("mass", kilograms(is_["mass"]), kg, TOLD * kg),
        ("volume", litres(is_["volume"]), kg / is_["density_kg_per_l"], 1e-3 * kg),
    ]


def vessel(asked: dict[str, Any], told: dict[str, Any]) -> list[tuple[str, float, float, float]]:
    """Room, level, head-space and what floats."""
    is_, rho = told["vessel"], told["brine"]["density_kg_per_l"]
    inside, filled, meat = vessel_litres(asked["vessel"]), filled_litres(asked), meat_litres(asked)
    floor, each = vessel_floor(asked["vessel"]), asked["pieces"].get("density_kg_per_l", 1.06)
    stated = float(asked.get("headspace_percent", 10))
    lift = max(0.0, (rho - each) * meat)
    level = None if is_["level"] is None else is_["level"]["value"] * METRES[is_["level"]["unit"]]
    held = 0.0 if is_["hold_down"] is None else kilograms(is_["hold_down"])
    checks = [
        ("holds", litres(is_["holds"]), inside, TOLD * inside),
        ("brine to cover", litres(is_["brine_to_cover"]), filled - meat, TOLD * filled),
        ("headspace", litres(is_["headspace"]), inside - filled, TOLD * inside),
        ("headspace share", is_["headspace_percent"], 100 * (1 - filled / inside), 0.06),
        ("headspace kept", min(is_["headspace_percent"] - stated, 0), 0, 0.06),
        ("above the brine", is_["above_brine_percent"], 100 * max(0.0, 1 - each / rho), 0.06),
        ("held down", held, lift, 2e-4 * meat + TOLD * lift),
        ("level is told", float(level is not None), float(floor is not None), 0),
    ]
    return [*checks, ("level", level, filled / 1000 / floor, TOLD * level)] if level and floor else checks


def warmth(task: dict[str, Any], told: dict[str, Any]) -> list[tuple[str, float, float, float]]:
    """Heat of what is put together against heat of the brine: a kilojoule to the kilogram, a quarter of a degree."""
    kg = kilos(told)
    whole, (w, _) = sum(kg.values()), true_strength(task)
    t, cold_c = degrees(told["cooling"]["temperature"]), celsius(task["water_temperature"], 0)
    strong, hot_c = strength(task["concentrate"]["strength"]), celsius(task["concentrate"]["temperature"], 0)
    ice = kg.get("ice", 0.0) * (ice_heat(celsius(task.get("ice_temperature"), 0)) - water_heat(25))
    brought = kg["concentrate"] * heat(strong, hot_c) + kg.get("water", 0.0) * heat(0, cold_c) + ice
    return [("heat", brought / whole, heat(w, t), 1.0), ("cooled to", degrees(told["brine"]["temperature"]), t, 1e-9)]


def litres(told: dict[str, Any]) -> float:
    """A told volume."""
    return float(told["value"] * LITRES[told["unit"]])


def degrees(told: dict[str, Any]) -> float:
    """A told temperature in degC."""
    return celsius(told, 0)
