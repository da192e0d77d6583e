"""What the fuzzer knows of curing: lawful doses to ask for, and the proof of every answer."""

import json
from random import Random
from typing import Any

import schemathesis

from tests.calculations.curing.kitchen import GRAMS, MILLILITRES, nitrite_by_mass_balance_ppm
from tests.calculations.curing.law import faults_of_dose
from tests.calculations.curing.lawful import lawful_body
from tests.calculations.curing.proofs import VOLUMES, faults_of_refusal

DOSE = "/v1/curing/dose"


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, or None for an operation that is not a cure."""
    return lawful_body(random) if operation_id == "curing_dose" else None


@schemathesis.check
def doses_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """Every dose keeps the law by a mass balance, and every refusal of a valid request is true."""
    body = case.body
    if case.path != DOSE or case.method.upper() != "POST" or response.status_code not in (200, 422):
        return
    told = json.loads(response.content)
    if response.status_code == 200:
        faults = faults_of_answer({**body, "on": told["on"]}, told)
    elif told["code"] == "invalid_request":
        return
    else:
        faults = faults_of_refusal({"on": "2026-12-01", **body}, told)
    assert not faults, "; ".join(faults)


def faults_of_answer(body: dict[str, Any], told: dict[str, Any]) -> list[str]:
    """Limits that the weights of an answer break."""
    weighed = {item["what"]: grams(item["amount"]) for item in told["weigh"]}
    return faults_of_dose(body, nitrite_by_mass_balance_ppm(body, weighed))


def grams(amount: dict[str, Any]) -> float:
    """A weight of the answer in grams."""
    value, unit = amount["value"], amount["unit"]
    return float(value * GRAMS[unit] if unit in GRAMS else value * {**MILLILITRES, **VOLUMES}[unit] * 0.9982)
