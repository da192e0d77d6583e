"""Brines that can be made, read, adjusted and cooled: at least half of what is fuzzed comes from here."""

from math import pi
from random import Random
from typing import Any

from tests.calculations.curing.brines import SATURATED, SIXTY_F, degc, degf, density, drawn_strength


def lawful_body(random: Random) -> dict[str, Any]:
    """A body that is to be answered."""
    task = random.choice([_made, covered_task, _read, _adjusted, _cooled])(random)
    return {"task": task, "units": random.choice(["metric", "us"]), "detail": random.choice(["full", "brief"])}


def _amount(random: Random) -> dict[str, Any]:
    return {"value": random.uniform(0.5, 500), "unit": random.choice(["l", "gal", "kg", "lb", "qt"])}


def _temperature(random: Random, low: float, high: float) -> dict[str, Any]:
    t = random.uniform(low, high)
    return random.choice([degc(t), degf(32 + 1.8 * t)])


def _made(random: Random) -> dict[str, Any]:
    how_much = random.choice([
        {"kind": "finished_brine", "amount": _amount(random)}, {"kind": "water_at_hand", "water": _amount(random)},
    ])  # fmt: skip
    timed = {"temperature": _temperature(random, -0.4, 39)} if random.random() < 0.6 else {}
    return {"kind": "make", "strength": drawn_strength(random, 0.01, 0.26), "how_much": how_much, **timed}


def covered_task(random: Random) -> dict[str, Any]:
    """Pieces that fit into a vessel, with the head-space that is asked for."""
    across, high = random.uniform(20, 60), random.uniform(20, 60)
    litres = pi / 4 * across**2 * high / 1000
    vessel = random.choice([
        {"kind": "round", "diameter": {"value": across, "unit": "cm"}, "height": {"value": high, "unit": "cm"}},
        {"kind": "known_volume", "volume": {"value": litres, "unit": "l"}},
        {"kind": "rectangular", "length": {"value": across, "unit": "cm"}, "height": {"value": high, "unit": "cm"},
         "width": {"value": pi / 4 * across / 2.54, "unit": "in"}},
    ])  # fmt: skip
    empty, packing = random.uniform(0, 30), random.uniform(40, 80)
    total = litres * (1 - empty / 100) * packing / 100 * random.uniform(0.02, 0.9)
    thick = total / (0.6 * high / 10) ** 3
    pieces = {"number": random.randint(1, 40) + int(thick), "total": {"value": total, "unit": "kg"}}
    stated = random.choice([{}, {"density_kg_per_l": random.uniform(1, 1.1)}])
    how_much = {
        "kind": "vessel_with_pieces", "vessel": vessel, "pieces": {**pieces, **stated},
        "headspace_percent": empty, "packing_percent": packing,
    }  # fmt: skip
    timed = {"temperature": _temperature(random, 0.2, 10)} if random.random() < 0.5 else {}
    return {"kind": "make", "strength": drawn_strength(random, 0.02, 0.25), "how_much": how_much, **timed}


def _read(random: Random) -> dict[str, Any]:
    w, t = random.uniform(0.02, 0.25), random.uniform(0, 39)
    ratio = density(w, t) / density(0, SIXTY_F)
    hydrometer = random.choice([
        {"kind": "specific_gravity", "ratio": ratio}, {"kind": "baume", "deg": 145 - 145 / ratio},
        {"kind": "salometer", "deg": random.uniform(15, 90), "graded_at": random.choice(["60_degF", "38_degF"])},
        {"kind": "salometer", "deg": 100 * w / SATURATED, "full_scale": "25_percent"},
    ])  # fmt: skip
    return {"kind": "read", "hydrometer": hydrometer, "temperature": random.choice([degc(t), degf(32 + 1.8 * t)])}


def _adjusted(random: Random) -> dict[str, Any]:
    return {
        "kind": "adjust", "amount": _amount(random), "strength": drawn_strength(random, 0.02, 0.25),
        "wanted": drawn_strength(random, 0.02, 0.25), "touched_meat": False,
        **({"temperature": _temperature(random, -1, 39)} if random.random() < 0.5 else {}),
    }  # fmt: skip


def _cooled(random: Random) -> dict[str, Any]:
    hot = {"strength": drawn_strength(random, 0.20, 0.25), "temperature": _temperature(random, 50, 98)}
    amount = random.choice([
        {"kind": "all_of_it", "concentrate": _amount(random)}, {"kind": "finished_brine", "amount": _amount(random)},
    ])  # fmt: skip
    return {
        "kind": "cool", "concentrate": hot, "how_much": amount, "wanted": drawn_strength(random, 0.05, 0.09),
        "water_temperature": _temperature(random, 1, 20), "ice_temperature": _temperature(random, -20, -0.1),
        "cooling": {"kind": "to_temperature", "wanted": _temperature(random, 0, 10)},
    }  # fmt: skip
