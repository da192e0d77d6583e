"""What the fuzzer knows of kitchen measures: weighings to ask for, and the proof of every answer."""

import json
from random import Random
from typing import Any

import schemathesis

from tests.calculations.measures.pantry import faults_of_answer, faults_of_refusal, lawful_body

WEIGH = "/v1/measures/weigh"


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, or None for an operation that weighs no measure."""
    return lawful_body(random) if operation_id == "measures_weigh" else None


@schemathesis.check
def weighings_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """Every band holds all that was published, and every refusal of a valid request is true."""
    if case.path != WEIGH or case.method.upper() != "POST" or response.status_code not in (200, 422):
        return
    told = json.loads(response.content)
    if response.status_code == 200:
        faults = faults_of_answer(case.body, told)
    elif told["code"] == "invalid_request":
        return
    else:
        faults = faults_of_refusal(case.body, told)
    assert not faults, "; ".join(faults)
