"""The table of ingredients read as text, and measures reckoned without the service: what its answers are held to."""

from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import yaml

TABLE = Path(__file__).parents[3] / "service/rules/data/ingredients.yaml"

# US customary measures by definition: a gallon is 231 cubic inches, 768 teaspoons.
TEASPOON_ML = 3785.411784 / 768
TEASPOONS = {
    "ml": 1 / TEASPOON_ML, "l": 1000 / TEASPOON_ML,
    "tsp": 1, "tbsp": 3, "fl_oz": 6, "cup": 48, "pt": 96, "qt": 192, "gal": 768,
}  # fmt: skip
GRAMS = {"g": 1.0, "kg": 1000.0, "oz": 28.349523125, "lb": 453.59237}
SPOONS_G = (5.0, 5.6, 6.0)
"""Teaspoons of curing salt of any strength (labels)."""
SPOONS_OF_PINK_G = (5.0, 5.2, 5.67, 6.4, 6.67, 7.1, 7.5, 8.7)
"""Teaspoons of curing salt with 6.25 percent sodium nitrite (labels, and weighings in public discussion)."""


@cache
def rows() -> dict[str, dict[str, Any]]:
    """The rows of the table, by id, as they are written."""
    return {row["id"]: row for row in yaml.safe_load(TABLE.read_text("utf-8"))}


def published_teaspoons(row: dict[str, Any]) -> list[float]:
    """Every figure of a row, reckoned to a teaspoon."""
    parts = {"teaspoon_g": 1, "tablespoon_g": 3, "cup_g": 48}
    return [
        figure
        for reading in row.get("readings", ())
        for figure in (
            *(reading[name] / teaspoons for name, teaspoons in parts.items() if name in reading),
            *reading.get("teaspoon_spread_g", ()),
        )
    ]


def lawful_body(random: Random) -> dict[str, Any]:
    """The body of a weighing that is to be answered."""
    what = random.choice([_volume, _pieces, _curing_salt])(random)
    return {"what": what, "units": random.choice(["metric", "us"]), "detail": random.choice(["full", "brief"])}


def _amount(random: Random) -> dict[str, Any]:
    return {"value": random.choice([0.25, 1, random.uniform(0.001, 1e4)]), "unit": random.choice(list(TEASPOONS))}


def _volume(random: Random) -> dict[str, Any]:
    spooned = [id for id, row in rows().items() if "readings" in row and row["kind"] != "curing_salt"]
    swap = {"swap_for": random.choice(spooned)} if random.random() < 0.5 else {}
    return {"kind": "by_volume", "ingredient": random.choice(spooned), "volume": _amount(random), **swap}


def _pieces(random: Random) -> dict[str, Any]:
    pieces = [id for id, row in rows().items() if "piece" in row]
    return {"kind": "by_piece", "ingredient": random.choice(pieces), "count": random.uniform(0.01, 1e5)}


def _curing_salt(random: Random) -> dict[str, Any]:
    nitrate = {"nitrate": {"salt": "sodium_nitrate", "percent": random.uniform(0.1, 10)}}
    label = {
        "nitrite": {
            "salt": random.choice(["sodium_nitrite", "potassium_nitrite"]),
            "percent": random.choice([6.25, 5.88, 0.6, random.uniform(0.1, 10)]),
        },
        **(nitrate if random.random() < 0.3 else {}),
    }
    meat = {"value": random.uniform(0.5, 60), "unit": random.choice(["kg", "lb"])}
    return {"kind": "curing_salt_by_volume", "volume": _amount(random), "curing_salt": label, "meat": meat}


def faults_of_refusal(body: dict[str, Any], problem: dict[str, Any]) -> list[str]:
    """What is untrue about a refusal, by the table as it is written; empty when it is proved."""
    what, code = body["what"], problem["code"]
    named = [what[name] for name in ("ingredient", "swap_for") if name in what]
    first, *swapped = [rows().get(id) for id in named] or [None]
    proved = {
        "unknown_ingredient": lambda: None in (first, *swapped),
        "no_volume_figure": lambda: any(row and "readings" not in row for row in (first, *swapped)),
        "no_piece_figure": lambda: what["kind"] == "by_piece" and first is not None and "piece" not in first,
        "curing_salt_needs_label": lambda: first is not None and first["kind"] == "curing_salt",
        "curing_salt_not_swapped": lambda: any(row and row["kind"] == "curing_salt" for row in swapped),
    }
    return [] if code in proved and proved[code]() else [f"{code} is not so: {what}"]


def faults_of_answer(body: dict[str, Any], told: dict[str, Any]) -> list[str]:
    """Published figures that an answer leaves out of its band, and a weight that it should not name."""
    what, weight = body["what"], told["weight"]
    low_g, high_g = weight["low"] * GRAMS[weight["unit"]], weight["high"] * GRAMS[weight["unit"]]
    inside = [figure for figure in expected_g(what) if low_g * (1 - 1e-9) <= figure <= high_g * (1 + 1e-9)]
    faults = [] if len(inside) == len(expected_g(what)) else [f"{weight} leaves out some of {expected_g(what)}"]
    if (weight["typical"] is None) != (what["kind"] == "curing_salt_by_volume"):
        faults.append(f"typical {weight['typical']} for {what['kind']}")
    if weight["typical"] is not None and not weight["low"] * 0.999 <= weight["typical"] <= weight["high"] * 1.001:
        faults.append(f"{weight['typical']} is not typical of {weight}")
    return faults + (_faults_of_ppm(what, told) if what["kind"] == "curing_salt_by_volume" else [])


def expected_g(what: dict[str, Any]) -> list[float]:
    """The weights that a band must hold."""
    if what["kind"] == "by_piece":
        piece = rows()[what["ingredient"]]["piece"]
        return [what["count"] * piece[name] for name in ("g", "low_g", "high_g")]
    teaspoons = what["volume"]["value"] * TEASPOONS[what["volume"]["unit"]]
    if what["kind"] == "curing_salt_by_volume":
        nitrite = what["curing_salt"]["nitrite"]
        is_pink = nitrite == {"salt": "sodium_nitrite", "percent": 6.25}
        return [teaspoons * figure for figure in (SPOONS_OF_PINK_G if is_pink else SPOONS_G)]
    return [teaspoons * figure for figure in published_teaspoons(rows()[what["ingredient"]])]


def _faults_of_ppm(what: dict[str, Any], told: dict[str, Any]) -> list[str]:
    """Ingoing ppm of the lightest and the heaviest weight told, by hand."""
    meat_g = what["meat"]["value"] * GRAMS[what["meat"]["unit"]]
    unit_g, share = GRAMS[told["weight"]["unit"]], what["curing_salt"]["nitrite"]["percent"] / 100
    low, high = (told["weight"][side] * unit_g * share / meat_g * 1e6 for side in ("low", "high"))
    ppm = told["ingoing_nitrite"]
    close = abs(ppm["low_ppm"] - low) <= 2e-3 * low and abs(ppm["high_ppm"] - high) <= 2e-3 * high
    return [] if close else [f"{ppm} is not {low} to {high}"]
