"""Recipes to make labels of: lawful ones, and the same recipe changed in one place."""

from random import Random
from typing import Any

from tests.calculations.labels.word_list import ALLERGENS, rows
from tests.calculations.measures.pantry import GRAMS
from tests.calculations.measures.pantry import rows as ingredient_rows

ON = "2026-12-01"
EUROPE = ("EU", "DK", "GB", "GB-NI")
MEATS = [
    ("pork shoulder", "pork"),
    ("beef chuck", "beef"),
    ("lamb leg", "lamb"),
    ("turkey thigh", "turkey"),
    ("venison neck", "game"),
]
UNKNOWN = [
    "xylopia",
    "house blend no 7",
    "spice",
    "natural flavour",
    "butter flavor",
    "seasoning",
    "stock powder",
    "sauce",
]
PLAIN = ["salt", "black pepper", "garlic", "whey", "sodium nitrite", "water"]
KINDS = ["wheat", "barley", "oats", "rye", "almond"]
ITEMS = [
    "allergens_emphasised",
    "additives_by_category",
    "ingredients",
    "allergens",
    "keep_cold",
    "raw_handling",
    "uncured",
    "no_nitrite_added",
    "added_solution",
    "sulphites",
]


def line(name: str, grams: float, **more: Any) -> dict[str, Any]:
    """One line, weighed in grams."""
    return {"name": name, "weight": {"value": grams, "unit": "g"}, **more}


def recipe(*lines: dict[str, Any], place: str = "US", **more: Any) -> dict[str, Any]:
    """A recipe of these lines."""
    return {"jurisdiction": place, "on": ON, "product": {"name": "Smoked links"}, "lines": list(lines), **more}


def parts(*names: str) -> list[dict[str, Any]]:
    """What something consists of."""
    return [{"name": name} for name in names]


def specified(*allergens: str, by_list: str = "US", dated: str | None = "2026-05-11") -> dict[str, Any]:
    """What a specification declares."""
    day = {"dated": dated} if dated else {}
    return {"by": "the supplier's sheet", "by_list": by_list, "allergens": list(allergens), **day}


def any_name(random: Random) -> str:
    """A word of the lists in some spelling, two of them, or one that is not there."""
    words = [word for row in rows("substances") for word in row["words"]]
    name = random.choice(
        [
            random.choice(words),
            random.choice(PLAIN),
            f"{random.choice(words)} {random.choice(words)}",
            random.choice(UNKNOWN),
        ]
    )
    return random.choice([name, name.upper(), name.title(), name.replace(" ", "-"), name + "s"])[:80]


def _mass(random: Random) -> dict[str, Any]:
    unit = random.choice(list(GRAMS))
    return {
        "value": round(random.choice([1, 2, 5, random.uniform(0.01, 900)]), random.choice([0, 1, 3])) or 1,
        "unit": unit,
    }


def _part(random: Random, depth: int) -> dict[str, Any]:
    part: dict[str, Any] = {"name": any_name(random)}
    if random.random() < 0.15:
        part["specification"] = _specification(random)
    if depth and random.random() < 0.3:
        part["sub_ingredients"] = [_part(random, depth - 1) for _ in range(random.randint(1, 3))]
    return part


def _specification(random: Random) -> dict[str, Any]:
    dated = random.choice([None, "2026-05-11", "2019-03-01", "2004-01-01"])
    allergens = random.sample(ALLERGENS, random.choice([0, 0, 1, 2]))
    return specified(*allergens, by_list=random.choice(["US", "EU"]), dated=dated)


def _line(random: Random) -> dict[str, Any]:
    if random.random() < 0.25:
        name, animal = random.choice(MEATS)
        return {"name": name, "animal": animal, "weight": _mass(random)}
    made = {**_part(random, 2), "weight": _mass(random)}
    if random.random() < 0.15:
        made["ingredient"] = random.choice(list(ingredient_rows()))
    if random.random() < 0.2:
        made["in_solution"] = True
    if "sub_ingredients" in made and random.random() < 0.4:
        _share_out(made["sub_ingredients"], random)
    return made


def _share_out(of: list[dict[str, Any]], random: Random) -> None:
    whole = random.choice([100, 100, 99.7, 99, 80])
    for part in of:
        part["percent"] = whole / len(of)


def _as_on_a_label(node: dict[str, Any]) -> str:
    if "sub_ingredients" not in node:
        return str(node["name"])
    return f"{node['name']} ({', '.join(map(_as_on_a_label, node['sub_ingredients']))})"[:1000]


def _label(random: Random, lines: list[dict[str, Any]]) -> dict[str, Any]:
    """As the recipe is, or shuffled and with something left out."""
    heaviest_first = sorted(lines, key=lambda one: -one["weight"]["value"] * float(GRAMS[one["weight"]["unit"]]))
    label: dict[str, Any] = {
        "version": "links 4",
        "ingredients": [_as_on_a_label(one) for one in heaviest_first],
        "allergens": list(ALLERGENS),
        "kinds": [*KINDS, *(one["name"] for one in lines)],
        "items": random.sample(ITEMS, random.randint(0, 4)),
    }
    if random.random() < 0.1:
        label["ingredients"][0] += ", whey"
    if random.random() < 0.3:
        label["ingredients"] = [f"colour: {one}" if one in PLAIN else one for one in label["ingredients"]]
    return label if random.random() < 0.4 else _changed(label, random)


def _changed(label: dict[str, Any], random: Random) -> dict[str, Any]:
    names = [one for one in label["ingredients"] if random.random() < 0.8]
    random.shuffle(names)
    label |= {"ingredients": names, "allergens": random.sample(ALLERGENS, random.randint(0, 6))}
    if random.random() < 0.5:
        del label["kinds"]
    return label


def lawful_body(random: Random) -> dict[str, Any]:
    """A recipe that is to be answered."""
    lines = [_line(random) for _ in range(random.choice([1, 3, 8, 12]))]
    place = random.choice(["US", "US", "EU", "GB", "DK", "GB-NI", "CA", "CODEX", "AU-NZ"])
    product = {
        "name": random.choice(["Smoked links", "Enhanced roast", "Ham"]),
        "kind": random.choice(["sausage", "whole_piece", "other"]),
        "state": random.choice(["raw", "heated_not_ready", "ready_to_eat"]),
        "kept": random.choice(["refrigerated", "frozen", "shelf_stable"]),
        "standard": random.choice(["none", "with_nitrite", "without_nitrite"]),
    }
    stated = {name: value for name, value in product.items() if name == "name" or random.random() < 0.8}
    maybe: dict[str, Any] = {
        "operator": random.choice(["home", "retail", "state_plant", "inspected_plant"]),
        "shared_equipment": random.sample(ALLERGENS, random.randint(0, 3)),
        "sulphites_mg_per_kg": random.choice([0, 5.5, 10, 10.1, 400]),
        "label_in_use": _label(random, lines),
        "units": random.choice(["metric", "us"]),
        "detail": random.choice(["full", "brief"]),
    }
    if place == "US":
        maybe |= {
            "clause_percent": random.choice(["2", "1.5", "1", "0.5"]),
            "spices": random.choice(["by_name", "as_one_word"]),
        }
        if random.random() < 0.5 and maybe["label_in_use"]["ingredients"]:
            small = maybe["label_in_use"]["ingredients"].pop()
            maybe["label_in_use"]["clause"] = {"percent": random.choice(["2", "0.5"]), "ingredients": [small]}
    on = random.choice([ON, "2024-06-01", "2022-12-31", "2010-01-01"])
    body = {"jurisdiction": place, "on": on, "product": stated, "lines": lines}
    return body | {name: value for name, value in maybe.items() if random.random() < 0.5}
