"""Brines asked of the service, and the arithmetic of a brine written once more, from other fits than the service's."""

from random import Random
from typing import Any

from service.calculations.curing.brine import BrineAnswer, BrineRequest, brine
from service.rules.book import RuleBook

SATURATED = 0.26395
SIXTY_F = (60 - 32) / 1.8
LITRES = {"l": 1.0, "ml": 1e-3, "gal": 3.785411784, "qt": 0.946352946, "pt": 0.473176473, "cup": 0.2365882365,
          "fl_oz": 0.0295735295625, "tbsp": 0.01478676478125, "tsp": 0.00492892159375}  # fmt: skip
KILOGRAMS = {"kg": 1.0, "g": 1e-3, "oz": 0.028349523125, "lb": 0.45359237}
METRES = {"mm": 1e-3, "cm": 1e-2, "in": 0.0254, "ft": 0.3048, "m": 1.0}

# A cubic in strength and in degrees Celsius, fitted to published densities from 0 to 40 degC (kg/m3).
DENSITY = (
    (999.867, 0.057485, -0.0077983, 3.97812e-5),
    (734.303, -1.99731, 0.0153728, -2.85698e-5),
    (279.238, -1.79173, 0.0388521, -1.90818e-4),
    (-90.4796, 1.65369, 0.0, 0.0),
)


def density(w: float, t: float) -> float:
    """kg/l of a brine by the cubic."""
    return sum(c * w**i * t**j for i, row in enumerate(DENSITY) for j, c in enumerate(row)) / 1000


def specific_gravity(w: float) -> float:
    """60/60 degF, by another cubic."""
    return 1 + 0.707575 * w + 0.260288 * w**2 - 0.065237 * w**3


def freezing(w: float) -> float:
    """degC; above 23.3 percent the lowest there is."""
    w = min(w, 0.233)
    return -57.859 * w - 51.081 * w**2 - 183.07 * w**3 - 866.84 * w**4


def dissolved(t: float) -> float:
    """The most salt by weight that stays in a brine: 26.3 percent at 0.1 degC (from memory), 23.3 at -21.1 (Lange)."""
    return SATURATED if t >= 0.1 else 0.263 - 0.030 * (0.1 - t) / 21.2


def celsius(stated: dict[str, Any] | None, otherwise: float) -> float:
    """A stated temperature in degC."""
    if stated is None:
        return otherwise
    return float(stated["value"] if stated["unit"] == "degC" else (stated["value"] - 32) / 1.8)


def solved(curve: Any, low: float = 0.0, high: float = 0.30) -> float:
    """Where a rising curve crosses zero, by regula falsi with bisection."""
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (low, middle) if curve(middle) > 0 else (middle, high)
    return low


def strength(stated: dict[str, Any]) -> float:
    """Salt by weight of a strength, by the cubics."""
    kind = stated["kind"]
    if kind == "percent_by_weight":
        return float(stated["salt_percent"] / 100)
    if kind == "salometer":
        return float(stated["deg"] / 100 * SATURATED)
    if kind == "grams_per_litre":
        t = celsius(stated.get("measured_at"), 20)
        return solved(lambda w: 1000 * w * density(w, t) - stated["salt_g_per_l"])
    ratio = stated["ratio"] if kind == "specific_gravity" else 145 / (145 - stated["deg"])
    t = celsius(stated["read_at"], 20)
    return solved(lambda w: density(w, t) - ratio * density(0, SIXTY_F))


def kilograms(amount: dict[str, Any], litre_kg: float = 0.9982) -> float:
    """A stated weight or volume in kg."""
    value, unit = amount["value"], amount["unit"]
    return float(value * KILOGRAMS[unit] if unit in KILOGRAMS else value * LITRES[unit] * litre_kg)


def answered(book: RuleBook, task: dict[str, Any], **other: Any) -> BrineAnswer:
    """The answer to a task."""
    return brine(BrineRequest.model_validate({"task": task, **other}), book)


def degc(value: float) -> dict[str, Any]:
    """A temperature in degrees Celsius."""
    return {"value": value, "unit": "degC"}


def degf(value: float) -> dict[str, Any]:
    """A temperature in degrees Fahrenheit."""
    return {"value": value, "unit": "degF"}


def percent(value: float) -> dict[str, Any]:
    """A strength in percent by weight."""
    return {"kind": "percent_by_weight", "salt_percent": value}


def salometer(deg: float) -> dict[str, Any]:
    """A strength in degrees salometer."""
    return {"kind": "salometer", "deg": deg}


def make(stated: dict[str, Any], amount: dict[str, Any] | None = None, **other: Any) -> dict[str, Any]:
    """A brine to make: ten kilograms of it where nothing else is said."""
    how_much = {"kind": "finished_brine", "amount": amount or {"value": 10, "unit": "kg"}}
    return {"kind": "make", "strength": stated, "how_much": how_much, **other}


def cool(strong: dict[str, Any], wanted: dict[str, Any], **other: Any) -> dict[str, Any]:
    """Five kilograms of concentrate at 80 degC to be cooled with water of 10 degC and ice, to 3 degC."""
    return {
        "kind": "cool",
        "concentrate": {"strength": strong, "temperature": degc(80)},
        "how_much": {"kind": "all_of_it", "concentrate": {"value": 5, "unit": "kg"}},
        "wanted": wanted,
        "water_temperature": degc(10),
        "cooling": {"kind": "to_temperature", "wanted": degc(3)},
        **other,
    }


def drawn_strength(random: Random, low: float, high: float) -> dict[str, Any]:
    """A strength between two shares of salt, on any scale."""
    w = random.uniform(low, high)
    t = random.uniform(2, 38)
    ratio = density(w, t) / density(0, SIXTY_F)
    return random.choice([
        percent(100 * w),
        salometer(100 * w / SATURATED),
        {"kind": "grams_per_litre", "salt_g_per_l": 1000 * w * density(w, t), "measured_at": degc(t)},
        {"kind": "specific_gravity", "ratio": ratio, "read_at": degc(t)},
        {"kind": "baume", "deg": 145 - 145 / ratio, "read_at": degf(32 + 1.8 * t)},
    ])  # fmt: skip
