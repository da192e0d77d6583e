"""Proves a scaled recipe, and a refusal of one, from the request and the table alone."""

from collections.abc import Iterator
from math import isclose
from typing import Any
from unicodedata import normalize

from tests.calculations.measures.pantry import GRAMS, TEASPOONS, rows
from tests.calculations.seasoning.scale_bodies import Sides, grams_of, inside_l, key_of, room_l, salt_share

CLOSE = 1e-9
DIGITS_OF_BAND, DIGITS_OF_WEIGHT = 1.01e-3, 1.01e-5
"""What four and six digits may be off."""
CURE_WORDS = (
    "nit", "cur", "salp", "saltp", "sal p", "petre", "salit", "p\u00f6k", "poek", "pok", "pek", "#", "no", "nps",
    "kno", "nano", "pink", "celery", "vegetable", "beet", "spinach", "lettuce", "chard", "249", "250", "251", "252",
    "tint", "prague", "ros", "umr", "lorozo", "saletra", "sal\u00e9trom", "saletrom", "ledek", "celer", "c\u00e9ler",
    "seller", "apio", "sedano", "salt-p", "salt_p", "salpiet", "sal de c", "salaison", "premix", "8pct",
    "complete-ham", "bacon-rub", "ca-1pct", "azot", "dusi", "\u03bd\u03b9\u03c4\u03c1", "\uc9c8\uc0b0", "\u785d",
    "\u0441\u0435\u043b\u0438\u0442\u0440", "\u043d\u0438\u0442\u0440",
)  # fmt: skip
"""Every name of a cure has one of these in it; most names have none."""


def faults_of_answer(body: dict[str, Any], told: dict[str, Any]) -> list[str]:
    """What is wrong with an answer; empty when it is proved."""
    factors = [factor_of(body, limit) for limit in body["at_hand"]]
    ratio = min(typical for _, typical, _ in factors)
    if not isclose(told["factor_ratio"], ratio, rel_tol=CLOSE):
        return [f"{told['factor_ratio']} is not the least of {factors}"]
    return [
        *_faults_of_limits(body, told, factors, ratio),
        *_faults_of_lines(body, told, ratio),
        *_faults_of_totals(body, told, ratio),
    ]


def factor_of(body: dict[str, Any], limit: dict[str, Any]) -> Sides:
    """By how much one limit lets the recipe be made."""
    meat_g = _grams(body["meat"])
    if limit["kind"] == "meat":
        ratio = _grams(limit["weight"]) / meat_g
        return ratio, ratio, ratio
    if limit["kind"] == "vessel":
        room = inside_l(limit["inside"]) * (1 - limit.get("headspace_percent", 10) / 100)
        meat_l = meat_g / 1000 / limit.get("meat_density_kg_per_l", 1.06)
        low, typical, high = (meat_l + sum(side) for side in zip(*map(room_l, body["lines"]), strict=True))
        return room / high, room / typical, room / low
    return _factor_of_ingredient(body, limit)


def _factor_of_ingredient(body: dict[str, Any], limit: dict[str, Any]) -> Sides:
    those = [one for one in body["lines"] if key_of(one["ingredient"]) == key_of(limit["ingredient"])]
    if len({_sort(one["amount"]) for one in (*those, limit)}) == 1:
        ratio = _size(limit["amount"]) / sum(_size(one["amount"]) for one in those)
        return ratio, ratio, ratio
    low, typical, high = (sum(side) for side in zip(*map(grams_of, those), strict=True))
    low_g, typical_g, high_g = grams_of(limit)
    return low_g / high, typical_g / typical, high_g / low


def _grams(mass: dict[str, Any]) -> float:
    return float(mass["value"] * GRAMS[mass["unit"]])


def _sort(measured: dict[str, Any]) -> str:
    if "count" in measured:
        return "pieces"
    return "weight" if measured["unit"] in GRAMS else "volume"


def _size(measured: dict[str, Any]) -> float:
    return float(measured.get("count") or measured["value"] * {**GRAMS, **TEASPOONS}[measured["unit"]])


def _faults_of_limits(body: dict[str, Any], told: dict[str, Any], factors: list[Sides], ratio: float) -> Iterator[str]:
    for factor, one in zip(factors, told["limits"], strict=True):
        shown = tuple(one["factor"][f"{side}_ratio"] for side in ("low", "typical", "high"))
        if not all(isclose(a, b, rel_tol=CLOSE) for a, b in zip(shown, factor, strict=True)):
            yield f"{shown} is not {factor}"
        left = one["at_hand"]["value"] * (1 - ratio / factor[1])
        if abs(one["left_over"]["value"] - left) > DIGITS_OF_WEIGHT * one["at_hand"]["value"]:
            yield f"{one['left_over']} is left of {one['at_hand']}, by hand {left}"
        if one["governs"] != (factor[1] <= ratio * (1 + CLOSE)) or (one["governs"] and one["left_over"]["value"]):
            yield f"{one} governs, or does not, at {ratio}"
    if not any(one["governs"] for one in told["limits"]):
        yield "nothing governs"


def _faults_of_lines(body: dict[str, Any], told: dict[str, Any], ratio: float) -> Iterator[str]:
    """Each line is scaled by one factor, is the same share of the meat, and shows on the scale what it should."""
    meat_g = _grams(body["meat"])
    if not _is_close(_told_g(told["meat"], "value"), meat_g * ratio, DIGITS_OF_WEIGHT):
        yield f"{told['meat']} of meat is not {meat_g * ratio} g"
    for one, line in zip(body["lines"], told["lines"], strict=True):
        sides_g = grams_of(one)
        yield from _faults_of_band(line["weight"], _times(sides_g, ratio), "weight")
        percent = {side: line["percent_of_meat"][f"{side}_percent"] for side in ("low", "typical", "high")}
        yield from _faults_of_band({**percent, "unit": "g"}, _times(sides_g, 100 / meat_g), "percent")
        share = salt_share(one)
        if (line["salt"] is None) != (share is None):
            yield f"{line['ingredient']}: salt {line['salt']}, share {share}"
        elif share is not None:
            yield from _faults_of_band(line["salt"], _times(sides_g, ratio * share), "salt")
        yield from _faults_of_measure(one, line, ratio, share)
        yield from _faults_of_scale(body, line, sides_g[1] * ratio)


def _faults_of_measure(one: dict[str, Any], line: dict[str, Any], ratio: float, share: float | None) -> Iterator[str]:
    near, row = line["nearest_measure"], rows().get(key_of(one["ingredient"]), {})
    if near is None:
        return
    exact = _size(one["amount"]) * ratio
    shown = near["value"] * TEASPOONS.get(near["unit"], 1)
    if row.get("kind") == "salt" or (share or 0) > 0.5 or _sort(one["amount"]) == "weight":
        yield f"a spoon of {one}"
    if abs(shown / exact - 1 - near["off_percent"] / 100) > 6e-4 or abs(near["off_percent"]) > 25:
        yield f"{near} for {exact} of {one}"


def _faults_of_scale(body: dict[str, Any], line: dict[str, Any], typical_g: float) -> Iterator[str]:
    step, shown = body.get("scale_step"), line["to_weigh"]
    if step is None or shown is None:
        if shown is not None or (step is not None and typical_g > _grams(step) * (1 + CLOSE)):
            yield f"{line['ingredient']}: {shown} on a scale of {step}"
        return
    step_g = _grams(step)
    if abs(_told_g(shown, "value") - typical_g) > step_g * 0.5 * (1 + CLOSE) + CLOSE * typical_g:
        yield f"{shown} is not {typical_g} g on a scale of {step}"
    steps = shown["value"] / step["value"]
    if abs(steps - round(steps)) > 1e-6 + CLOSE * steps:
        yield f"{shown} does not show on a scale of {step}"


def _faults_of_totals(body: dict[str, Any], told: dict[str, Any], ratio: float) -> Iterator[str]:
    meat_g, all_sides = _grams(body["meat"]), [grams_of(one) for one in body["lines"]]
    every = _sum([(meat_g, meat_g, meat_g), *all_sides])
    yield from _faults_of_band(told["weight"], _times(every, ratio), "the whole")
    shares = [salt_share(one) for one in body["lines"]]
    unknown = [place for place, share in enumerate(shares, 1) if share is None]
    salt = told["salt"]
    if [one["line"] for one in salt["not_known"]] != unknown or (salt["verdict"] == "known") == bool(unknown):
        yield f"{salt['not_known']} is not {unknown}"
    total = _sum([_times(sides, share) for sides, share in zip(all_sides, shares, strict=True) if share is not None])
    yield from _faults_of_open(salt["weight"], _times(total, ratio), bool(unknown))
    yield from _faults_of_open(salt["sodium"], _times(total, ratio * 22.99 / 58.44), bool(unknown))
    percent = {side: salt["percent_of_meat"][f"{side}_percent"] for side in ("low", "typical", "high")}
    yield from _faults_of_open({**percent, "unit": "g"}, _times(total, 100 / meat_g), bool(unknown))
    yield from _faults_of_parts(salt)


def _faults_of_parts(salt: dict[str, Any]) -> Iterator[str]:
    parts = _told_g(salt["of_salts"], "typical") + _told_g(salt["of_others"], "typical")
    if not _is_close(parts, _told_g(salt["weight"], "typical"), 2 * DIGITS_OF_BAND):
        yield f"{salt} does not add up"


def _faults_of_open(told: dict[str, Any], by_hand: Sides, is_open: bool) -> Iterator[str]:
    if (told["high"] is None) != is_open:
        yield f"{told} is open: {is_open}"
        return
    closed = {**told, "high": by_hand[2] / GRAMS[told["unit"]]} if is_open else told
    yield from _faults_of_band(closed, by_hand, "a total")


def _faults_of_band(told: dict[str, Any], by_hand: Sides, what: str) -> Iterator[str]:
    """Low is at most what it is by hand, high at least, and neither by more than its digits; exact ones are one."""
    low, typical, high = (_told_g(told, side) for side in ("low", "typical", "high"))
    least, middle, most = by_hand
    if least == most:
        kept = all(_is_close(side, middle, DIGITS_OF_WEIGHT) for side in (low, typical, high))
    else:
        wide = low <= least * (1 + CLOSE) and high >= most * (1 - CLOSE)
        near = _is_close(low, least, DIGITS_OF_BAND) and _is_close(high, most, DIGITS_OF_BAND)
        kept = wide and near and _is_close(typical, middle, DIGITS_OF_BAND)
    if not kept:
        yield f"{what} {told} is not {by_hand}"


def _told_g(told: dict[str, Any], side: str) -> float:
    return float(told[side] * GRAMS[told["unit"]])


def _is_close(told: float, by_hand: float, digits: float) -> bool:
    return abs(told - by_hand) <= digits * abs(by_hand) + 1e-12


def _times(sides: Sides, ratio: float) -> Sides:
    return sides[0] * ratio, sides[1] * ratio, sides[2] * ratio


def _sum(several: list[Sides]) -> Sides:
    return tuple(sum(side) for side in zip((0.0, 0.0, 0.0), *several, strict=True))


def faults_of_refusal(body: dict[str, Any], problem: dict[str, Any]) -> list[str]:
    """What is untrue about a refusal; empty when it is proved."""
    code = problem["code"]
    proved = code in PROOFS and PROOFS[code](body)
    return [] if proved and problem.get("nearest") else [f"{code} is not so, or nothing is near: {body}"]


def _stated(body: dict[str, Any]) -> list[dict[str, Any]]:
    return [*body["lines"], *(one for one in body["at_hand"] if one["kind"] == "limiting")]


def _names(body: dict[str, Any]) -> list[str]:
    return [one["ingredient"] for one in _stated(body)]


def _reads_like_cure(body: dict[str, Any]) -> bool:
    """A word of a cure in a name that is not listed, or a curing salt of the list."""
    kinds = [(name, rows().get(key_of(name), {}).get("kind")) for name in _names(body)]
    return any(
        kind == "curing_salt"
        or (kind is None and any(word in normalize("NFKC", name).casefold() for word in CURE_WORDS))
        for name, kind in kinds
    )


def _without(body: dict[str, Any], sort: str, field: str) -> bool:
    """A listed ingredient is measured in a way in which nobody weighed it."""
    found = [(one, rows().get(key_of(one["ingredient"]))) for one in _stated(body)]
    return any(row is not None and _sort(one["amount"]) == sort and field not in row for one, row in found)


def _stated_twice(body: dict[str, Any]) -> bool:
    things = [(one["kind"], key_of(one.get("ingredient", ""))) for one in body["at_hand"]]
    return len(set(things)) < len(things)


PROOFS = {
    "carries_nitrite": _reads_like_cure,
    "may_be_curing_salt": lambda body: any("pink" in name.lower() or "ros" in name.lower() for name in _names(body)),
    "unknown_ingredient": lambda body: any(
        key_of(one["ingredient"]) not in rows() and _sort(one["amount"]) != "weight" for one in _stated(body)
    ),
    "no_volume_figure": lambda body: _without(body, "volume", "readings"),
    "no_piece_figure": lambda body: _without(body, "pieces", "piece"),
    "no_such_line": lambda body: (
        not {key_of(name) for name in _names(body)} <= {key_of(one["ingredient"]) for one in body["lines"]}
    ),
    "stated_twice": _stated_twice,
}
"""Why each refusal is true."""
