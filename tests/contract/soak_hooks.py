"""What the fuzzer knows of soaks: pieces to ask for, and the proof of every answer and refusal."""

import json
from random import Random
from typing import Any

import schemathesis

from tests.calculations.curing.soak_bodies import lawful_body
from tests.calculations.curing.soak_proofs import faults_of_refusal, faults_of_soak

SOAK = "/v1/curing/soak"


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, or None for an operation that soaks nothing."""
    return lawful_body(random) if operation_id == "curing_soak" else None


@schemathesis.check
def soaks_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """Hours follow from the shells, nothing is lost between meat and water, and every refusal is true."""
    if case.path != SOAK or case.method.upper() != "POST" or response.status_code not in (200, 422):
        return
    told = json.loads(response.content)
    if response.status_code == 200:
        faults = faults_of_soak(case.body, told)
    elif told["code"] == "invalid_request":
        return
    else:
        faults = faults_of_refusal(case.body, told)
    assert not faults, "; ".join(faults)
