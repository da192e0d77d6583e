"""Proves an answer about a soak, and a refusal of one, from the request alone: thin shells, balances and bounds."""

from collections.abc import Iterator
from itertools import pairwise
from math import ceil, isclose
from typing import Any

from tests.calculations.curing.piece_bodies import axes_of, is_no_piece
from tests.calculations.curing.shells import left_after, left_in_plenty, speed_mm2_per_h
from tests.calculations.curing.soak_bodies import at_c, change_h, meat_g, ratio
from tests.calculations.measures.pantry import GRAMS

READ = {"low": "quick", "typical": "typical", "high": "slow"}
"""Hours of a side, and the reading of the diffusivities that they are for."""
CLOSE = 2e-3
"""Of all the salt: what shells, groups of modes and printed digits may differ by."""
EARLY, CLOSE_EARLY = 2e-4, 1.2e-2
"""Before this share of the square of the way, a series that ends somewhere tells too little, by a hundredth at most."""


def faults_of_soak(body: dict[str, Any], told: dict[str, Any]) -> list[str]:
    """What is wrong with an answer; empty when it is proved."""
    disordered = [f"{place} is no band: {band}" for place, band in bands(told) if not ordered(band)]
    return [*disordered, *_faults_of_hours(body, told), *_faults_of_sums(body, told), *_faults_of_course(body, told)]


def bands(told: Any, place: str = "#") -> Iterator[tuple[str, dict[str, float]]]:
    """Everything that has a low, a typical and a high side."""
    if isinstance(told, dict):
        if {"low", "typical", "high"} <= told.keys():
            yield place, told
        told = list(told.items())
        for name, below in told:
            yield from bands(below, f"{place}/{name}")
    elif isinstance(told, list):
        for number, below in enumerate(told):
            yield from bands(below, f"{place}/{number}")


def ordered(band: dict[str, float]) -> bool:
    """Low is not above typical, nor typical above high."""
    return 0 <= band["low"] <= band["typical"] <= band["high"]


def left_between(body: dict[str, Any], hours_h: float, reading: str) -> tuple[float, float]:
    """Share of the salt that is left, by the shells: the same twice where a piece has one axis.

    Of several axes, the shortest alone loses less than all of them, and all of them in endless water lose more.
    """
    axes, speed = axes_of(body), speed_mm2_per_h(reading, at_c(body["temperature"]))
    most, _ = left_after(*axes[0], ratio(body), hours_h=hours_h, change_h=change_h(body), mm2_per_h=speed)
    return most if len(axes) == 1 else left_in_plenty(axes, hours_h * speed), most


def _close(body: dict[str, Any], hours_h: float, reading: str) -> float:
    way_mm2 = hours_h * speed_mm2_per_h(reading, at_c(body["temperature"]))
    return CLOSE_EARLY if way_mm2 < EARLY * axes_of(body)[0][1] ** 2 else CLOSE


def _faults_of_hours(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    """After the hours of each side, its reading has come down to what is wanted, and a minute before it had not."""
    wanted = body["wanted_salt_percent"] / body["salt_percent"]
    for side, reading in READ.items():
        hours_h = told["hours"][side]
        (least, most), close = left_between(body, hours_h, reading), _close(body, hours_h, reading)
        if not least - close <= wanted <= left_between(body, max(hours_h - 0.011, 0), reading)[1] + close:
            yield f"{side} {hours_h} h: {least} to {most} of the salt is left, {wanted} is wanted"
    if not 0 < told["hours"]["high"] <= 72:
        yield f"{told['hours']} is longer than three days"


def _faults_of_sums(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    """Waters by hours; one bath by the water that shares the salt out."""
    every_h = change_h(body)
    if told["waters"] != max(1, ceil(told["hours"]["typical"] / every_h - 1e-6)):
        yield f"{told['waters']} waters for {told['hours']} with a change every {every_h} h"
    weight, salt_percent = told["least_water"]["weight"], body["salt_percent"]
    water_g = meat_g(body) * body.get("water_percent", 70) / 100
    after = salt_percent * water_g / (water_g + weight["value"] * GRAMS[weight["unit"]])
    step_g = {"g": 0.05, "oz": 0.005 * GRAMS["oz"], "lb": 0.0005 * GRAMS["lb"]}[weight["unit"]]
    if not isclose(after, body["wanted_salt_percent"], rel_tol=1e-6 + step_g / water_g):
        yield f"in {weight} everything comes to {after} percent"
    if told["at_end"]["mean"]["typical"] > body["wanted_salt_percent"] + 5e-4:
        yield f"{told['at_end']} is more than is wanted"


def _faults_of_course(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    """What is out and what is left make the whole, in time no salt comes back, and the shells say the same."""
    salt_percent, points = body["salt_percent"], [told["half_an_hour"], *told["removed"]]
    for one in [*points, told["at_end"], *told["course"]]:
        for side, other in (("low", "high"), ("typical", "typical"), ("high", "low")):
            if abs(one["mean"][side] / salt_percent + one["removed"][other] / 100 - 1) > 5e-4 / salt_percent + 1e-5:
                yield f"{one} does not add up to {salt_percent}"
        (least, most), close = left_between(body, one["after_h"], "typical"), _close(body, one["after_h"], "typical")
        if not least - CLOSE <= 1 - one["removed"]["typical"] / 100 <= most + close:
            yield f"{one}: between {least} and {most} of it is left"
    for before, after in (*pairwise(points), *pairwise(told["course"])):
        if after["removed"]["typical"] < before["removed"]["typical"] or after["mean"]["high"] > before["mean"]["high"]:
            yield f"salt comes back between {before} and {after}"


def faults_of_refusal(body: dict[str, Any], problem: dict[str, Any]) -> list[str]:
    """What is untrue about a refusal; empty when it is proved."""
    code, no_piece = problem["code"], is_no_piece(body, problem["code"])
    proved = no_piece if no_piece is not None else _is_so(body, code)
    return [] if proved and problem.get("nearest") else [f"{code} is not so, or nothing is near: {body}"]


def _is_so(body: dict[str, Any], code: str) -> bool:
    """Saturated brine holds 26.395 g of salt in 73.605 g of water at 60 degF."""
    wanted = body["wanted_salt_percent"] / body["salt_percent"]
    proofs = {
        "cooked_piece": lambda: body.get("cooked") is True,
        "too_cold": lambda: at_c(body["temperature"]) < 0,
        "too_warm": lambda: at_c(body["temperature"]) > 5,
        "nothing_to_remove": lambda: wanted >= 1,
        "undissolved_salt": lambda: body["salt_percent"] / body.get("water_percent", 70) > 26.394 / 73.606,
        "change_out_of_range": lambda: not 2.000001 <= change_h(body) <= 71.999999,
        "takes_too_long": lambda: left_between(body, 72, "slow")[1] > wanted - CLOSE,
    }
    return code in proofs and proofs[code]()
