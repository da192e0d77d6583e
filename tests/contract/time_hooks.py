"""What the fuzzer knows of cure times: cures to ask for, and the proof of every answer and refusal."""

import json
from random import Random
from typing import Any

import schemathesis

from tests.calculations.curing.time_bodies import lawful_body
from tests.calculations.curing.time_proofs import faults_of_refusal, faults_of_time

TIME = "/v1/curing/time"


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, or None for an operation that tells no days."""
    return lawful_body(random) if operation_id == "curing_time" else None


@schemathesis.check
def cure_times_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """The centre has its salt on the day that is told, both bookkeepings balance, and every refusal is true."""
    if case.path != TIME or case.method.upper() != "POST" or response.status_code not in (200, 422):
        return
    told = json.loads(response.content)
    if response.status_code == 200:
        faults = faults_of_time(case.body, told)
    elif told["code"] == "invalid_request":
        return
    else:
        faults = faults_of_refusal(case.body, told)
    assert not faults, "; ".join(faults)
