"""Proving what is said of a brine: balances of salt, water and heat, and every refusal, by other arithmetic."""

from collections.abc import Callable
from math import exp, pi
from typing import Any

from tests.calculations.curing.brines import (
    LITRES,
    METRES,
    SATURATED,
    SIXTY_F,
    celsius,
    degc,
    density,
    dissolved,
    freezing,
    kilograms,
    solved,
    strength,
)

CLOSE = 8e-4
"""How far two fits of one density may lie apart, as a share of it."""
FAR = 1e-3
"""How far a strength must be from a bound so that two fits agree on the side of it."""
STEMS = {"60_degF": SIXTY_F, "38_degF": 10 / 3, "20_degC": 20.0}
FUSION = 333.55


def water_heat(t: float) -> float:
    """kJ/kg of water above 0 degC: a cubic through the enthalpies of IAPWS-95, within 0.05."""
    return 4.20351 * t - 5.49215e-4 * t**2 + 4.23742e-6 * t**3


def ice_heat(t: float) -> float:
    """kJ/kg of ice above water of 0 degC: its heat of fusion, and its heat capacity at the middle temperature."""
    return (2.0623 + 0.0060769 * t / 2) * t - FUSION


def salt_heat(w: float, t: float) -> float:
    """kJ/kg K: what a kilogram of salt adds to a brine, by Laliberte."""
    slope = -0.0782134 * t + 3.84798 * exp(0.01 * t) - 11.2762 * w
    return float(-0.0693560 * exp(slope) + 8.73188 * w**1.81246)


def heat(w: float, t: float) -> float:
    """kJ/kg of a brine above 25 degC, in a hundred slices."""
    step = (t - 25) / 100
    slices = sum(salt_heat(w, 25 + (n + 0.5) * step) for n in range(100)) * step if w else 0.0
    return (1 - w) * (water_heat(t) - water_heat(25)) + w * slices


def mixture(body: dict[str, Any]) -> tuple[float, float, float, float]:
    """Concentrate, kg, its strength, what is added, kg, and the wanted strength."""
    task = body["task"]
    hot, wanted = task["concentrate"], strength(task["wanted"])
    strong = strength(hot["strength"])
    amount = task["how_much"]
    if amount["kind"] == "all_of_it":
        t = celsius(hot["temperature"], 0)
        hot_kg = kilograms(amount["concentrate"], hot_density(strong, t))
    else:
        hot_kg = kilograms(amount["amount"], density(wanted, 4)) * wanted / strong
    return hot_kg, strong, hot_kg * (strong / wanted - 1), wanted


def hot_density(w: float, t: float) -> float:
    """kg/l up to 100 degC: the cubic to 40 degC, and from there as much lighter as water is (IAPWS-95, fitted)."""
    if t <= 40:
        return density(w, t)
    return density(w, 40) * (1.0 - 3.992e-4 * (t - 40) - 2.856e-6 * (t - 40) ** 2)


def ice_for(body: dict[str, Any], t: float) -> float:
    """Kilograms of ice that bring the mixture down to a temperature."""
    hot_kg, strong, added, wanted = mixture(body)
    task = body["task"]
    cold, ice_c = celsius(task["water_temperature"], 0), celsius(task.get("ice_temperature"), 0)
    brought = hot_kg * heat(strong, celsius(task["concentrate"]["temperature"], 0)) + added * heat(0, cold)
    each = water_heat(cold) - ice_heat(ice_c)
    return (brought - (hot_kg + added) * heat(wanted, t)) / each


def allowed(stated: dict[str, Any], w: float | None = None) -> float:
    """How far two fits may lie apart in salt by weight: nothing where the scale is one of salt, else by the scale."""
    w = strength(stated) if w is None else w
    if stated["kind"] in ("percent_by_weight", "salometer"):
        return 1e-6 * w
    return 8e-4 * w if stated["kind"] == "grams_per_litre" else 1e-4 + min(0.01 * w, 6.5e-4)


def is_solid(w: float, t: float) -> bool:
    """Whether ice or salt has fallen out of a brine."""
    return t < freezing(w) or w > dissolved(t)


def _strengths(task: dict[str, Any]) -> list[dict[str, Any]]:
    hot = task.get("concentrate", {}).get("strength")
    return [one for one in (task.get("strength"), task.get("wanted"), hot) if one]


def read_density(task: dict[str, Any]) -> float:
    """kg/l in which the instrument stands at its mark."""
    shown = task["hydrometer"]
    stem = STEMS[shown.get("graded_at", "60_degF")]
    if shown["kind"] == "salometer":
        full = SATURATED if shown.get("full_scale", "saturated") == "saturated" else 0.25
        return density(shown["deg"] / 100 * full, stem)
    ratio = shown["ratio"] if shown["kind"] == "specific_gravity" else 145 / (145 - shown["deg"])
    return ratio * density(0, stem)


def _readings(task: dict[str, Any]) -> list[tuple[float, float]]:
    """Every density that is floated in, kg/l, and its temperature."""
    read = [(read_density(task), celsius(task["temperature"], 0))] if task["kind"] == "read" else []
    for one in _strengths(task):
        if one["kind"] in ("specific_gravity", "baume"):
            ratio = one["ratio"] if one["kind"] == "specific_gravity" else 145 / (145 - one["deg"])
            read.append((ratio * density(0, SIXTY_F), celsius(one["read_at"], 0)))
    return read


def _brines(task: dict[str, Any]) -> list[tuple[float, dict[str, Any] | None, float]]:
    """Every brine of a task: its strength, where it must be liquid, and how exact the strength is."""
    at = [(strength(one), one.get("read_at") or one.get("measured_at"), allowed(one)) for one in _strengths(task)]
    at += [(strength(one), task.get("temperature"), allowed(one)) for one in _strengths(task)]
    at += [(solved(lambda w, d=d, t=t: density(w, t) - d), degc(t), FAR) for d, t in _readings(task)]
    if task["kind"] == "cool":
        hot, wanted = task["concentrate"], task["wanted"]
        at.append((strength(hot["strength"]), hot["temperature"], allowed(hot["strength"])))
        at.append((strength(wanted), task["cooling"].get("wanted"), allowed(wanted)))
        if -5 <= celsius(hot["temperature"], 0) <= 100:
            at.append((strength(wanted), degc(without_ice({"task": task})), FAR))
    return at


def without_ice(body: dict[str, Any]) -> float:
    """degC of concentrate and cold water alone."""
    hot_kg, strong, added, wanted = mixture(body)
    hot_c, cold_c = (
        celsius(body["task"]["concentrate"]["temperature"], 0),
        celsius(body["task"]["water_temperature"], 0),
    )
    brought = hot_kg * heat(strong, hot_c) + added * heat(0, cold_c)
    return solved(lambda t: (hot_kg + added) * heat(wanted, t) - brought, -60, 110)


def above_saturation(body: dict[str, Any]) -> bool:
    """Whether a density, or the salt of a litre, is more than a brine can have, or salt falls out in this cold."""
    task = body["task"]
    litres = [
        (one["salt_g_per_l"], celsius(one.get("measured_at"), 20)) for one in _strengths(task) if "salt_g_per_l" in one
    ]
    over = 0.003 if task["kind"] == "read" else 0.0
    heavy = any(d > density(dissolved(t) + over, t) * (1 - CLOSE) for d, t in _readings(task))
    rich = any(c > 1000 * SATURATED * density(SATURATED, t) * (1 - CLOSE) for c, t in litres)
    return heavy or rich or any(t and w + off > dissolved(celsius(t, 20)) for w, t, off in _brines(task))


def no_salt_in_it(body: dict[str, Any]) -> bool:
    """Whether a density is that of water of this temperature, or less."""
    return any(d < density(0.0005, t) * (1 + CLOSE / 4) for d, t in _readings(body["task"]))


def outside_temperature_range(body: dict[str, Any]) -> bool:
    """Whether a temperature is under -5 degC or over 40; a concentrate over 100; ice over 0 or under -40."""
    task = body["task"]
    usual = [task.get("temperature"), task.get("water_temperature"), task.get("cooling", {}).get("wanted")]
    usual += [one.get("read_at") or one.get("measured_at") for one in _strengths(task)]
    hot = [celsius(task["concentrate"]["temperature"], 0)] if task["kind"] == "cool" else []
    ice = celsius(task.get("ice_temperature"), 0)
    return (
        any(not -5 <= celsius(one, 0) <= 40 for one in usual if one)
        or any(not -5 <= t <= 100 for t in hot)
        or not -40 <= ice <= 0
    )


def below_freezing(body: dict[str, Any]) -> bool:
    """Whether a brine, or the cold water, is colder than where it freezes."""
    task = body["task"]
    water = celsius(task.get("water_temperature"), 20) < 0
    return water or any(t and celsius(t, 20) < freezing(max(0, w - off)) + 1e-3 for w, t, off in _brines(task))


def vessel_floor(vessel: dict[str, Any]) -> float | None:
    """Square metres of floor, or None where they are not stated."""
    if vessel["kind"] == "known_volume":
        return None
    metres = {k: v["value"] * METRES[v["unit"]] for k, v in vessel.items() if k not in ("kind", "height")}
    return float(
        pi * (metres["diameter"] / 2) ** 2 if vessel["kind"] == "round" else metres["length"] * metres["width"]
    )


def vessel_litres(vessel: dict[str, Any]) -> float:
    """What a vessel holds."""
    floor = vessel_floor(vessel)
    if floor is None:
        return float(vessel["volume"]["value"] * LITRES[vessel["volume"]["unit"]])
    return float(1000 * floor * vessel["height"]["value"] * METRES[vessel["height"]["unit"]])


def meat_litres(asked: dict[str, Any]) -> float:
    """Litres of meat."""
    return kilograms(asked["pieces"]["total"]) / float(asked["pieces"].get("density_kg_per_l", 1.06))


def filled_litres(asked: dict[str, Any]) -> float:
    """Litres of meat and brine: as packed as stated, and over the top of a cube that weighs as much as a piece."""
    meat = meat_litres(asked)
    edge = (meat / 1000 / asked["pieces"]["number"]) ** (1 / 3)
    return max(meat * 100 / asked.get("packing_percent", 65), 1000 * (vessel_floor(asked["vessel"]) or 0) * edge)


def pieces_do_not_fit(body: dict[str, Any]) -> bool:
    """Whether the pieces, and the brine over them, reach into the head-space."""
    asked = body["task"]["how_much"]
    room = vessel_litres(asked["vessel"]) * (1 - asked.get("headspace_percent", 10) / 100)
    return filled_litres(asked) > room * (1 - 1e-6)


def slack(body: dict[str, Any]) -> float:
    """Kilograms by which two fits may differ: more in a weak brine, for which the strength decides the weight."""
    hot_kg, _, added, wanted = mixture(body)
    return (hot_kg + added) * (0.01 + 1e-3 / wanted)


def too_much_ice(body: dict[str, Any]) -> bool:
    """Whether the ice, stated or needed, is more than may be added."""
    _, _, added, _ = mixture(body)
    cooling = body["task"]["cooling"]
    stated = cooling["kind"] == "with_ice"
    ice = kilograms(cooling["ice"]) if stated else ice_for(body, celsius(cooling["wanted"], 0))
    return ice > added - slack(body)


def ice_left_over(body: dict[str, Any]) -> bool:
    """Whether the ice would bring it under its freezing point, or under -5 degC."""
    wanted = mixture(body)[3]
    cooling = body["task"]["cooling"]
    ice = kilograms(cooling["ice"]) if cooling["kind"] == "with_ice" else 0.0
    return ice > ice_for(body, max(-5, freezing(wanted))) - slack(body)


def concentrate_too_weak(body: dict[str, Any]) -> bool:
    """Whether the concentrate is weaker than what is wanted of it."""
    task = body["task"]
    hot, wanted = task["concentrate"]["strength"], task["wanted"]
    return strength(hot) - allowed(hot) < strength(wanted) + allowed(wanted)


PROOFS: dict[str, Callable[[dict[str, Any]], bool]] = {
    "brine_touched_meat": lambda body: body["task"]["touched_meat"] is True,
    "above_saturation": above_saturation,
    "no_salt_in_it": no_salt_in_it,
    "outside_temperature_range": outside_temperature_range,
    "below_freezing": below_freezing,
    "concentrate_too_weak": concentrate_too_weak,
    "more_ice_than_water": too_much_ice,
    "ice_left_over": ice_left_over,
    "pieces_do_not_fit": pieces_do_not_fit,
}


def faults_of_refusal(body: dict[str, Any], told: dict[str, Any]) -> list[str]:
    """Why a refusal is not true, or offers nothing."""
    proof = PROOFS.get(told["code"])
    proved = proof is not None and proof(body)
    return [*([] if proved else [f"{told['code']} is not so"]), *([] if told.get("nearest") else ["nothing nearest"])]
