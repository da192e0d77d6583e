"""Recipes to scale: lawful ones, and what a body says in grams, by the table of ingredients read as text."""

import re
from collections.abc import Iterable
from random import Random
from typing import Any

from tests.calculations.measures.pantry import GRAMS, TEASPOON_ML, TEASPOONS, published_teaspoons, rows

UNREAD = ["House rub", "rye crumbs", "yard relish", "Larch Yard mix"]
"""Names of which nothing is known (invented)."""
SALTS = ("salt", "rock-salt", "himalayan-pink-salt", "meersalz", "gros-sel")
WITHOUT_SALT = ("ice", "black-pepper", "cumin")
OWN_NAMES = [*UNREAD, "fried onions", "Celery stalks", "salt", "rock salt", "Meersalz", "ice", "black pepper", "cider"]
"""Names that are on no list, and name no cure."""
WATERY = ("water", "beer", "distilled-vinegar", "ice")
FIGURE_OF = {"tbsp": "tablespoon_g", "fl_oz": "tablespoon_g", "cup": "cup_g", "pt": "cup_g", "qt": "cup_g"}
FIGURE_OF |= {"gal": "cup_g", "l": "cup_g"}
"""Which published figure a measure is taken from first."""
HOLDS = {"teaspoon_g": 1, "tablespoon_g": 3, "cup_g": 48}
LITRES = {"round": 0.785398163397448, "rectangular": 1.0}
MM = {"mm": 1.0, "cm": 10.0, "in": 25.4, "ft": 304.8, "m": 1000.0}

Sides = tuple[float, float, float]


def amount(value: float, unit: str) -> dict[str, Any]:
    """By weight or by volume."""
    return {"value": value, "unit": unit}


def line(ingredient: str, value: float, unit: str | None = None, **more: Any) -> dict[str, Any]:
    """A line of a recipe; in pieces where no unit is named."""
    measured = {"count": value} if unit is None else amount(value, unit)
    return {"ingredient": ingredient, "amount": measured, **more}


def meat_at_hand(value: float, unit: str = "kg") -> dict[str, Any]:
    """So much meat."""
    return {"kind": "meat", "weight": amount(value, unit)}


def limiting(ingredient: str, value: float, unit: str | None = None) -> dict[str, Any]:
    """So much of one ingredient."""
    return {"kind": "limiting", **line(ingredient, value, unit)}


def vessel(litres: float, **more: Any) -> dict[str, Any]:
    """A vessel of so many litres."""
    return {"kind": "vessel", "inside": {"kind": "known_volume", "volume": amount(litres, "l")}, **more}


def recipe(*lines: dict[str, Any], at_hand: Iterable[dict[str, Any]], **more: Any) -> dict[str, Any]:
    """A recipe for five kilograms of meat, where nothing else is said."""
    return {"meat": amount(5, "kg"), "lines": list(lines), "at_hand": list(at_hand), **more}


def lawful_body(random: Random) -> dict[str, Any]:
    """A recipe that is to be answered."""
    lines = [_line(random) for _ in range(random.choice([1, 2, 5, 8, 60]))]
    body: dict[str, Any] = {
        "meat": amount(_size(random), random.choice(list(GRAMS))),
        "lines": lines,
        "at_hand": _limits(random, lines),
        "units": random.choice(["metric", "us"]),
        "detail": random.choice(["full", "brief"]),
    }
    if random.random() < 0.6:
        body["scale_step"] = amount(random.choice([0.01, 0.1, 1, 5]), random.choice(["g", "oz"]))
    return body


def _size(random: Random) -> float:
    return random.choice([1, random.uniform(0.2, 60), 10 ** random.uniform(-3, 6)])


def _line(random: Random) -> dict[str, Any]:
    if random.random() < 0.25:
        made = line(random.choice(OWN_NAMES), _size(random), random.choice(list(GRAMS)))
    else:
        id = random.choice([id for id, row in rows().items() if row["kind"] != "curing_salt"])
        made = {"ingredient": _spelled(random, id), "amount": _amount(random, rows()[id])}
    least = 0.51 if salt_by_name(made) == 1 else 0
    labels = [
        {"salt_percent": random.uniform(100 * least, 100)},
        {"sodium_mg_per_100g": random.uniform(40_000 * least, 40_000)},
    ]
    return made | ({"label": random.choice(labels)} if random.random() < 0.3 else {})


def _spelled(random: Random, id: str) -> str:
    return random.choice([id, id.replace("-", " ").title()]) if id.count("-") else id


def _amount(random: Random, row: dict[str, Any]) -> dict[str, Any]:
    ways = [amount(_size(random), random.choice(list(GRAMS)))]
    if "readings" in row:
        ways.append(amount(_size(random), random.choice(list(TEASPOONS))))
    if "piece" in row:
        ways.append({"count": random.uniform(0.01, 500)})
    return random.choice(ways)


def _limits(random: Random, lines: list[dict[str, Any]]) -> list[dict[str, Any]]:
    made = [meat_at_hand(_size(random), random.choice(list(GRAMS)))]
    if random.random() < 0.5:
        made.append(vessel(_size(random), headspace_percent=random.uniform(0, 50)))
    named = {key_of(one["ingredient"]): one["ingredient"] for one in lines}
    for key, name in random.sample(sorted(named.items()), k=min(len(named), random.choice([0, 1, 3]))):
        weighed = amount(_size(random), random.choice(list(GRAMS)))
        made.append({"kind": "limiting", "ingredient": name, "amount": _amount(random, rows().get(key, {})) or weighed})
    random.shuffle(made)
    return made[: random.choice([1, 2, 5])]


def key_of(name: str) -> str:
    """The id that a name comes to."""
    return "-".join(re.findall(r"[^\s_-]+", name.lower()))


def grams_of(one: dict[str, Any], measured: dict[str, Any] | None = None) -> Sides:
    """Lightest, typical and heaviest that an amount of an ingredient may be, by every published figure."""
    measured = one["amount"] if measured is None else measured
    row = rows().get(key_of(one["ingredient"]), {})
    if "count" in measured:
        piece = row["piece"]
        return tuple(measured["count"] * piece[side] for side in ("low_g", "g", "high_g"))
    if measured["unit"] in GRAMS:
        weight_g = measured["value"] * GRAMS[measured["unit"]]
        return weight_g, weight_g, weight_g
    teaspoons = measured["value"] * TEASPOONS[measured["unit"]]
    figures, typical_g = published_teaspoons(row), _typical_g(row["readings"][0], measured["unit"])
    return teaspoons * min(figures), teaspoons * typical_g, teaspoons * max(figures)


def _typical_g(reading: dict[str, Any], unit: str) -> float:
    first = FIGURE_OF.get(unit, "teaspoon_g")
    name = next(name for name in (first, *HOLDS) if name in reading)
    return float(reading[name] / HOLDS[name])


def salt_share(one: dict[str, Any]) -> float | None:
    """Salt by weight; None where nobody knows it. 58.44 and 22.99 g/mol."""
    label = one.get("label")
    if label is None:
        return salt_by_name(one)
    sodium = label.get("sodium_mg_per_100g", 0) / 1e5 * 58.44 / 22.99
    return label["salt_percent"] / 100 if "salt_percent" in label else min(1.0, sodium)


def salt_by_name(one: dict[str, Any]) -> float | None:
    """The same without a label."""
    key = key_of(one["ingredient"])
    row = rows().get(key)
    if row is None:
        return 1.0 if key in SALTS else 0.0 if key in WITHOUT_SALT else None
    if row["kind"] == "salt":
        return 1.0
    if "sodium" in row:
        return min(1.0, row["sodium"]["mg_per_100g"] / 1e5 * 58.44 / 22.99)
    return None if row["kind"] in ("seasoning", "other") else 0.0


def is_wet(one: dict[str, Any]) -> bool:
    """Whether it may bring water that the sum of the brine has not."""
    key = key_of(one["ingredient"])
    row = rows().get(key)
    if key in WATERY or row is None:
        return key not in (*WATERY, *SALTS, *WITHOUT_SALT)
    return row["kind"] == "liquid" or row["form"].startswith(("liquid", "paste"))


def room_l(one: dict[str, Any]) -> Sides:
    """The room of a line: a liquid by its volume, all else as so much water of 0.9982 g/ml."""
    measured, row = one["amount"], rows().get(key_of(one["ingredient"]), {})
    is_liquid = row.get("kind") == "liquid" or row.get("form", "").startswith("liquid")
    if is_liquid and measured.get("unit") in TEASPOONS:
        litres = measured["value"] * TEASPOONS[measured["unit"]] * TEASPOON_ML / 1000
        return litres, litres, litres
    low_g, typical_g, high_g = grams_of(one)
    return low_g / 998.2, typical_g / 998.2, high_g / 998.2


def inside_l(one: dict[str, Any]) -> float:
    """What a vessel holds."""
    if one["kind"] == "known_volume":
        return float(one["volume"]["value"] * TEASPOONS[one["volume"]["unit"]] * TEASPOON_ML / 1000)
    mm = {name: one[name]["value"] * MM[one[name]["unit"]] for name in one if name != "kind"}
    sides = mm["diameter"] ** 2 if one["kind"] == "round" else mm["length"] * mm["width"]
    return float(LITRES[one["kind"]] * sides * mm["height"] / 1e6)
