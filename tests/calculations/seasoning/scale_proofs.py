"""Proves a scaled recipe from the request and the table alone."""

from collections.abc import Iterator
from math import isclose
from typing import Any

from tests.calculations.measures.pantry import GRAMS, TEASPOONS, rows
from tests.calculations.seasoning.scale_bodies import (
    UNREAD,
    WATERY,
    Sides,
    grams_of,
    inside_l,
    is_wet,
    key_of,
    room_l,
    salt_share,
)

CLOSE = 1e-9
DIGITS_OF_BAND, DIGITS_OF_WEIGHT = 1.01e-3, 1.01e-5
"""What four and six digits may be off."""


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
        *_faults_of_brine(body, told),
        *_faults_of_names(body, told),
    ]


def factor_of(body: dict[str, Any], limit: dict[str, Any]) -> Sides:
    """By how much one limit lets the recipe be made."""
    meat_g = grams(body["meat"])
    if limit["kind"] == "meat":
        ratio = grams(limit["weight"]) / meat_g
        return ratio, ratio, ratio
    if limit["kind"] == "vessel":
        room = inside_l(limit["inside"]) * (1 - limit.get("headspace_percent", 10) / 100)
        meat_l = meat_g / 1000 / limit.get("meat_density_kg_per_l", 1.06)
        low, typical, high = (meat_l + sum(side) for side in zip(*map(room_l, body["lines"]), strict=True))
        return room / high, room / typical, room / low
    return _factor_of_ingredient(body, limit)


def _factor_of_ingredient(body: dict[str, Any], limit: dict[str, Any]) -> Sides:
    those = [one for one in body["lines"] if key_of(one["ingredient"]) == key_of(limit["ingredient"])]
    if len({sort_of(one["amount"]) for one in (*those, limit)}) == 1:
        ratio = _size(limit["amount"]) / sum(_size(one["amount"]) for one in those)
        return ratio, ratio, ratio
    low, typical, high = (sum(side) for side in zip(*map(grams_of, those), strict=True))
    low_g, typical_g, high_g = grams_of(limit)
    return low_g / high, typical_g / typical, high_g / low


def grams(mass: dict[str, Any]) -> float:
    return float(mass["value"] * GRAMS[mass["unit"]])


def sort_of(measured: dict[str, Any]) -> str:
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
        yield from _faults_of_left(one, [max(0.0, one["at_hand"]["value"] * (1 - ratio / side)) for side in factor])
        if one["governs"] != (factor[1] <= ratio * (1 + CLOSE)):
            yield f"{one} governs, or does not, at {ratio}"
    if not any(one["governs"] for one in told["limits"]):
        yield "nothing governs"


def _faults_of_left(one: dict[str, Any], by_hand: list[float]) -> Iterator[str]:
    """What is left, within its digits of what there was, and never more on the low side."""
    left, some = [one["left_over"][side] for side in ("low", "typical", "high")], one["at_hand"]["value"]
    if any(abs(told - hand) > DIGITS_OF_BAND * some for told, hand in zip(left, by_hand, strict=True)):
        yield f"{left} is left of {some}, by hand {by_hand}"
    if left != sorted(left) or (by_hand[0] == 0 and left[0] != 0) or (one["governs"] and left[1] > CLOSE * some):
        yield f"{left} is left where it governs, or may not be enough"


def _faults_of_lines(body: dict[str, Any], told: dict[str, Any], ratio: float) -> Iterator[str]:
    """Each line is scaled by one factor, is the same share of the meat, and shows on the scale what it should."""
    meat_g = grams(body["meat"])
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
    if row.get("kind") == "salt" or (share or 0) > 0.5 or sort_of(one["amount"]) == "weight":
        yield f"a spoon of {one}"
    if abs(shown / exact - 1 - near["off_percent"] / 100) > 6e-4 or abs(near["off_percent"]) > 25:
        yield f"{near} for {exact} of {one}"


def _faults_of_scale(body: dict[str, Any], line: dict[str, Any], typical_g: float) -> Iterator[str]:
    step, shown = body.get("scale_step"), line["to_weigh"]
    if step is None or shown is None:
        if shown is not None or (step is not None and typical_g > grams(step) * (1 + CLOSE)):
            yield f"{line['ingredient']}: {shown} on a scale of {step}"
        return
    step_g = grams(step)
    if abs(_told_g(shown, "value") - typical_g) > step_g * 0.5 * (1 + CLOSE) + CLOSE * typical_g:
        yield f"{shown} is not {typical_g} g on a scale of {step}"
    steps = shown["value"] / step["value"]
    if abs(steps - round(steps)) > 1e-6 + CLOSE * steps:
        yield f"{shown} does not show on a scale of {step}"


def _faults_of_totals(body: dict[str, Any], told: dict[str, Any], ratio: float) -> Iterator[str]:
    meat_g, all_sides = grams(body["meat"]), [grams_of(one) for one in body["lines"]]
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


def _faults_of_brine(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    """Poured over the meat, it is as strong as its salt and water are; where more may be water, weaker or not told."""
    watery = [grams_of(one) for one in body["lines"] if key_of(one["ingredient"]) in WATERY]
    if (told["liquid"] is None) != (not watery):
        yield f"{told['liquid']} with {watery} of water"
    if told["liquid"] is None:
        return
    water, wet = _sum(watery), _sum([grams_of(one) for one in body["lines"] if is_wet(one)])
    salt = _sum([_times(grams_of(one), salt_share(one) or 0) for one in body["lines"]])
    least, alone = _strength(salt[0], water[2] + wet[2]), _strength(salt[0], water[2])
    is_told = salt[2] > 0 and water[1] >= 0.25 * grams(body["meat"]) and least >= 0.95 * alone
    strength = told["liquid"]["brine_strength"]
    if (strength is not None) != is_told:
        yield f"{strength} is told: {is_told}"
    elif strength is not None:
        sides = {side: strength[f"{side}_percent"] for side in ("low", "typical", "high")}
        by_hand = (least, _strength(salt[1], water[1]), _strength(salt[2], water[0]))
        yield from _faults_of_open({**sides, "unit": "g"}, by_hand, told["salt"]["verdict"] != "known")


def _strength(salt_g: float, water_g: float) -> float:
    return 100 * salt_g / (salt_g + water_g)


def _faults_of_names(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    """Every name of which nothing is known is called out for its label, and no listed one."""
    called = {place for one in told["advice"] if one["code"] == "label_not_read" for place in one["lines"]}
    for place, one in enumerate(body["lines"], 1):
        name, is_listed = one["ingredient"], key_of(one["ingredient"]) in rows()
        if (place in called and is_listed) or (place not in called and name in UNREAD):
            yield f"line {place}, {name}: called out {place in called}"


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
