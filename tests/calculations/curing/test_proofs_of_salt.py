"""The proofs of soaks and cure times find what is wrong, and bodies that are to be answered are."""

import json
from collections.abc import Callable
from random import Random
from typing import Any

import pytest

from service.calculations.curing.cure_time import TIME, CureTimeRequest, cure_time
from service.calculations.curing.soak import SOAK, SoakRequest, soak
from service.quantities.models import written
from service.rules.loader import load_book
from tests.calculations.curing import soak_bodies, soak_proofs, time_bodies, time_proofs

BOOK = load_book("test")
SOAKED: dict[str, Any] = {
    "meat": {"value": 1.3, "unit": "kg"}, "shape": {"kind": "slab", "thickness": {"value": 34, "unit": "mm"}},
    "salt_percent": 4.2, "wanted_salt_percent": 3.4, "temperature": {"value": 2, "unit": "degC"},
    "water": {"value": 4, "unit": "l"},
}  # fmt: skip
CURED: dict[str, Any] = {
    "meat": {"value": 1.3, "unit": "kg"}, "shape": {"kind": "slab", "thickness": {"value": 34, "unit": "mm"}},
    "stage": {"kind": "brine", "amount": {"value": 1.1, "unit": "kg"}, "salt_percent": 6,
              "temperature": {"value": 2, "unit": "degC"}},
    "look_after": [{"value": 3, "unit": "d"}],
}  # fmt: skip


def soaked(body: dict[str, Any]) -> Any:
    """The answer to a soak, as JSON has it."""
    return json.loads(written(soak(SoakRequest.model_validate(body), BOOK)))


def cured(body: dict[str, Any]) -> Any:
    """The answer to a cure time, as JSON has it."""
    return json.loads(written(cure_time(CureTimeRequest.model_validate(body), BOOK)))


def test_the_proofs_find_nothing_in_right_answers():
    """Neither in a soak nor in a cure time."""
    assert soak_proofs.faults_of_soak(SOAKED, soaked(SOAKED)) == []
    assert time_proofs.faults_of_time(CURED, cured(CURED)) == []


@pytest.mark.parametrize("seed", range(40))
def test_lawful_bodies_are_answered_and_proved(seed: int):
    """As the fuzzer draws them."""
    wet, dry = soak_bodies.lawful_body(Random(seed)), time_bodies.lawful_body(Random(seed))

    assert soak_proofs.faults_of_soak(wet, soaked(wet)) == []
    assert time_proofs.faults_of_time(dry, cured(dry)) == []


@pytest.mark.parametrize(
    ("place", "change"),
    [
        ("hours/typical", lambda hours: hours * 1.03),
        ("hours/low", lambda hours: hours * 0.97),
        ("hours/high", lambda hours: hours + 72),
        ("waters", lambda waters: waters + 1),
        ("least_water/weight/value", lambda value: value * 1.01),
        ("removed/3/removed/typical", lambda percent: percent + 0.5),
        ("removed/3/mean/low", lambda percent: percent - 0.01),
        ("half_an_hour/removed/high", lambda _: 0.1),
        ("at_end/mean/typical", lambda percent: percent + 0.01),
        ("course/9/mean/typical", lambda percent: percent * 1.02),
    ],
)
def test_a_wrong_soak_is_found(place: str, change: Callable[[Any], Any]):
    """Hours, waters, shares and sums that were tampered with."""
    told = soaked(SOAKED)

    tamper(told, place, change)

    assert soak_proofs.faults_of_soak(SOAKED, told) != []


@pytest.mark.parametrize(
    ("place", "change"),
    [
        ("days/typical", lambda days: days * 1.05),
        ("days/low", lambda days: days * 0.95),
        ("days/high", lambda days: days * 1.1),
        ("target_salt/typical", lambda percent: percent + 0.01),
        ("target/percent", lambda percent: percent + 1),
        ("final_salt/meat_water/low", lambda percent: percent * 0.99),
        ("final_salt/whole_system_percent", lambda percent: percent * 0.99),
        ("final_salt/bath_to_meat_ratio", lambda ratio: ratio + 0.01),
        ("looks/0/centre/typical", lambda percent: percent + 0.05),
        ("looks/0/after_d", lambda days: days + 1),
        ("profile/12/salt/typical", lambda percent: percent * 0.95),
        ("pull/earliest_d", lambda days: days - 1),
        ("pull/forecast", lambda _: "at_risk"),
        ("over_cure/possible", lambda _: True),
        ("stages/0/kind", lambda _: "dry"),
        ("turn_after_d/0", lambda day: day + 1),
    ],
)
def test_a_wrong_cure_time_is_found(place: str, change: Callable[[Any], Any]):
    """Days, targets, both bookkeepings, looks and windows that were tampered with."""
    told = cured(CURED)

    tamper(told, place, change)

    assert time_proofs.faults_of_time(CURED, told) != []


@pytest.mark.parametrize("code", [*sorted(TIME.reasons), "because"])
def test_an_untrue_refusal_of_a_cure_time_is_found(code: str):
    """For a cure that is answered no reason is true; of a soak, test_soak_hostile.py has the same."""
    body = {**CURED, "injection": {"pump_percent": 10, "salt_percent": 9}}

    assert cured(body)["days"]["low"] > 0
    assert time_proofs.faults_of_refusal(body, {"code": code, "nearest": "Do."}) != []


def test_soaks_and_cure_times_share_what_a_piece_is():
    """So that one proof of a piece serves both."""
    assert {"shape_contradicts_weight", "size_out_of_range", "nothing_open"} <= set(SOAK.reasons) & set(TIME.reasons)


def tamper(told: Any, place: str, change: Callable[[Any], Any]) -> None:
    """Change one thing in an answer."""
    *way, last = (int(part) if part.isdigit() else part for part in place.split("/"))
    for part in way:
        told = told[part]
    told[last] = change(told[last])
