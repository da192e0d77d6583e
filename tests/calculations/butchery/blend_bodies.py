"""Blends to ask for: lawful ones, made around a blend that is known to keep every limit."""

from random import Random
from typing import Any

G_PER = {"g": 1.0, "kg": 1000.0, "oz": 28.349523125, "lb": 453.59237}
ANIMALS = ["beef", "pork", "pork", "veal", "lamb", "goat", "game", "chicken", "turkey"]
CURE = {
    "curing_salt": {"nitrite": {"salt": "sodium_nitrite", "percent": 6.25}},
    "target": {"kind": "ingoing_nitrite", "ppm": 140},
    "scale_step": {"value": 0.1, "unit": "g"},
}
Body = dict[str, Any]


def kg(value: float) -> Body:
    """A weight."""
    return {"value": value, "unit": "kg"}


def usd(amount: str, per: str = "kg") -> Body:
    """A price."""
    return {"amount": amount, "currency": "USD", "per": per}


def material(name: str, fat_percent: float, **stated: Any) -> Body:
    """One of the list."""
    return {"name": name, "animal": "pork", "fat_percent": fat_percent, **stated}


def two_trims(target_percent: float, *, fatter_percent: float = 48, leaner_percent: float = 12, **other: Any) -> Body:
    """The question that is asked most."""
    return {
        "block": {"kind": "whole_block", "weight": kg(10)},
        "fat": {"kind": "exactly", "percent": target_percent},
        "materials": [material("belly ends", fatter_percent), material("leg trim", leaner_percent)],
        **other,
    }


def lawful_body(random: Random) -> Body:
    """A blend that is to be answered."""
    many = random.choice([1, 2, 2, 2, 3, 5, 9, 15])
    shares, materials = _shares(random, many), _materials(random, many)
    whole_kg = round(random.uniform(2, 300), 1)
    body = {
        "block": random.choice([_whole, _whole, _whole, _any, _use_up])(random, materials, shares, whole_kg),
        "materials": materials,
        "units": random.choice(["metric", "us"]),
        "detail": random.choice(["full", "brief"]),
    }
    fat_percent = held(materials, "fat_percent", shares)
    maybe: Body = {
        "fat": _range(random, fat_percent),
        "rules": _rules(random, materials, shares),
        "scale_step": random.choice([kg(0.001), {"value": 1, "unit": "g"}, {"value": 0.1, "unit": "oz"}]),
        "batch": _batch(random),
        "oldest_d": 9,
        "protein": _range(random, held(materials, "protein_percent", shares)),
    }
    return body | {name: value for name, value in maybe.items() if random.random() < 0.6}


def held(materials: list[Body], field: str, shares: list[float]) -> float:
    """What a blend holds, percent."""
    return sum(each[field] * share for each, share in zip(materials, shares, strict=True))


def _shares(random: Random, many: int) -> list[float]:
    drawn = [random.choice([0.0, 1.0, 2.0, random.uniform(0.2, 3)]) for _ in range(many)]
    drawn[0] = drawn[0] or 1.0
    return [one / sum(drawn) for one in drawn]


def _materials(random: Random, many: int) -> list[Body]:
    priced = random.random() < 0.8
    materials = []
    for number in range(many):
        fat_percent = round(random.uniform(1, 85), 1)
        lean = (100 - fat_percent) / 100
        one = material(
            f"trim {number}",
            fat_percent,
            animal=random.choice(ANIMALS),
            protein_percent=round(lean * random.uniform(16, 21), 2),
            moisture_percent=round(lean * random.uniform(70, 76), 2),
            age_d=random.randint(0, 9),
        )
        if priced:
            one["price"] = usd(f"{random.uniform(0.3, 9):.2f}", random.choice(["kg", "lb"]))
        if random.random() < 0.1:
            one["salt_percent"] = round(random.uniform(0.1, 1.5), 2)
        materials.append(one)
    return materials


def _whole(random: Random, materials: list[Body], shares: list[float], whole_kg: float) -> Body:
    for one, share in zip(materials, shares, strict=True):
        if random.random() < 0.4:
            one["on_hand"] = kg(round(whole_kg * share * random.uniform(1.02, 3) + 0.05, 2))
        if random.random() < 0.15:
            one["most_share_percent"] = round(min(100 * share * random.uniform(1.01, 2) + 1, 100), 1)
        if random.random() < 0.15 and share:
            one["least_share_percent"] = round(100 * share * random.uniform(0.2, 0.95), 2)
    return {"kind": "whole_block", "weight": kg(whole_kg)}


def _any(random: Random, materials: list[Body], shares: list[float], whole_kg: float) -> Body:
    for one, share in zip(materials, shares, strict=True):
        if random.random() < 0.4:
            one["on_hand"] = kg(round(whole_kg * share * random.uniform(1.02, 3) + 0.05, 2))
    return {"kind": "any_weight", "at_least": kg(round(0.9 * whole_kg, 1)), "at_most": kg(round(1.1 * whole_kg, 1))}


def _use_up(random: Random, materials: list[Body], shares: list[float], whole_kg: float) -> Body:
    materials[0]["on_hand"] = kg(round(whole_kg * shares[0], 3) + 0.5)
    return {"kind": "use_up", "material": "trim 0"}


def _range(random: Random, percent: float) -> Body:
    least, most = max(percent - random.uniform(0.05, 4), 0), min(percent + random.uniform(0.05, 4), 100)
    return random.choice(
        [
            {"kind": "exactly", "percent": percent},
            {"kind": "at_most", "percent": most},
            {"kind": "at_least", "percent": least},
            {"kind": "between", "least_percent": least, "most_percent": most},
        ]
    )


def _rules(random: Random, materials: list[Body], shares: list[float]) -> list[Body]:
    rules = []
    for _ in range(random.randint(0, 3)):
        names = random.sample([one["name"] for one in materials], random.randint(1, len(materials)))
        share = sum(share for one, share in zip(materials, shares, strict=True) if one["name"] in names)
        bound = random.choice(["at_most", "at_least"])
        room = random.uniform(1.02, 1.6) if bound == "at_most" else random.uniform(0.3, 0.98)
        others = [one["name"] for one in materials if one["name"] not in names]
        if others and share < 0.95 and random.random() < 0.5:
            times = min(share / (1 - share) * room, 900)
            rules.append({"kind": "group_ratio", "materials": names, "bound": bound, "times": times, "of": others})
        else:
            percent = min(100 * share * room, 100)
            rules.append({"kind": "group_share", "materials": names, "bound": bound, "percent": percent})
    return rules


def _batch(random: Random) -> Body:
    batch: Body = {
        "jurisdiction": "US",
        "salt_percent": round(random.uniform(1.4, 2.2), 2),
        "water_percent": random.choice([0, 1, 2, 3]),
        "seasoning_percent": random.choice([0, 0.5, 1]),
    }
    maybe: Body = {
        "sausage_class": random.choice(
            ["breakfast_sausage", "cooked_sausage", "italian_sausage", "fresh_pork_sausage"]
        ),
        "cook_yield_percent": round(random.uniform(80, 95), 1),
        "cure": CURE,
        "sugar_percent": 0.5,
    }
    batch |= {name: value for name, value in maybe.items() if random.random() < 0.4}
    if batch.get("sausage_class") in ("breakfast_sausage", "fresh_pork_sausage"):
        batch.pop("cure", None)
    if "cook_yield_percent" in batch and random.random() < 0.3:
        batch["rendered_fat_percent"] = random.choice([0, 0.5])
    return batch


def wild_body(random: Random) -> Body:
    """Any blend at all: round numbers, so that many tie, and rules that often contradict each other."""
    many = random.choice([1, 2, 2, 3, 4, 6, 10])
    materials = [_wild(random, number) for number in range(many)]
    if random.random() < 0.8:
        for one in materials:
            one["price"] = usd(random.choice(["1", "2", "2.5", "4"]), random.choice(["kg", "kg", "lb"]))
    body: Body = {
        "block": random.choice(
            [
                {"kind": "whole_block", "weight": kg(random.choice([10, 37.5, 200]))},
                {"kind": "any_weight", "at_least": kg(20)},
                {"kind": "any_weight", "at_least": kg(20), "at_most": kg(30)},
            ]
        ),
        "materials": materials,
    }
    maybe: Body = {
        "fat": _wild_range(random),
        "protein": _wild_range(random),
        "rules": [_wild_rule(random, materials) for _ in range(random.randint(0, 3))],
        "oldest_d": 6,
        "animals": ["pork", "beef"],
    }
    return body | {name: value for name, value in maybe.items() if random.random() < 0.5}


def _wild(random: Random, number: int) -> Body:
    one = material(f"trim {number}", random.choice([0, 5, 10, 20, 30, 50, 80]), animal=random.choice(ANIMALS[:4]))
    maybe: Body = {
        "protein_percent": random.choice([0, 5, 12, 18, 20]),
        "on_hand": kg(random.choice([0, 2, 5, 10, 50])),
        "least": kg(random.choice([1, 4])),
        "most": kg(random.choice([2, 8, 30])),
        "age_d": random.choice([1, 3, 8]),
        "most_share_percent": random.choice([0, 20, 50, 100]),
        "least_share_percent": random.choice([5, 30]),
    }
    chance = {"protein_percent": 0.9, "age_d": 0.8, "on_hand": 0.5}
    return one | {name: value for name, value in maybe.items() if random.random() < chance.get(name, 0.1)}


def _wild_range(random: Random) -> Body:
    percent = random.choice([0, 8, 10, 15, 20, 25, 30, 50, 79, 100])
    return random.choice(
        [
            *({"kind": kind, "percent": percent} for kind in ("exactly", "at_most", "at_least")),
            {"kind": "between", "least_percent": percent, "most_percent": min(percent + 5, 100)},
        ]
    )


def _wild_rule(random: Random, materials: list[Body]) -> Body:
    names = [one["name"] for one in materials]
    these, those = (random.sample(names, random.randint(1, len(names))) for _ in range(2))
    bound = random.choice(["at_most", "at_least"])
    return random.choice(
        [
            {"kind": "group_share", "materials": these, "bound": bound, "percent": random.choice([0, 10, 50, 100])},
            {
                "kind": "group_ratio",
                "materials": these,
                "bound": bound,
                "times": random.choice([0, 0.25, 1]),
                "of": those,
            },
            {"kind": "group_weight", "materials": these, "bound": bound, "weight": kg(random.choice([1, 5, 15]))},
        ]
    )
