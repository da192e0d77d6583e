"""What the fuzzer knows of curing: doses and recipes to ask for, and the proof of every answer."""

import json
from random import Random
from typing import Any

import schemathesis

from tests.calculations.curing.check_proofs import faults_of_check
from tests.calculations.curing.kitchen import weight_g
from tests.calculations.curing.law import faults_of_dose
from tests.calculations.curing.lawful import lawful_body
from tests.calculations.curing.proofs import faults_of_refusal
from tests.calculations.curing.stays import readings_ppm
from tests.calculations.curing.written_bodies import written_body

DOSE = "/v1/curing/dose"
CHECK = "/v1/curing/check"
DRAWN = {"curing_dose": lawful_body, "curing_check": written_body}


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, or None for an operation that is not a cure."""
    draw = DRAWN.get(operation_id)
    return draw(random) if draw else None


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


@schemathesis.check
def checks_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """Every recipe that can be weighed again comes to what it was told, and nothing missing is met."""
    if case.path != CHECK or case.method.upper() != "POST" or response.status_code != 200:
        return
    faults = faults_of_check(case.body, json.loads(response.content))
    assert not faults, "; ".join(faults)


def faults_of_answer(body: dict[str, Any], told: dict[str, Any]) -> list[str]:
    """Limits that the weights of an answer break."""
    weighed = {item["what"]: weight_g(item["amount"]) for item in told["weigh"]}
    return faults_of_dose(body, readings_ppm(body, weighed))
