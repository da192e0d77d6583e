"""What the fuzzer knows of scaled recipes: recipes to ask for, and the proof of every answer and refusal."""

import json
from random import Random
from typing import Any

import schemathesis

from tests.calculations.seasoning.scale_bodies import lawful_body
from tests.calculations.seasoning.scale_proofs import faults_of_answer
from tests.calculations.seasoning.scale_refusals import faults_of_refusal

SCALE = "/v1/seasoning/scale"


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, or None for an operation that scales nothing."""
    return lawful_body(random) if operation_id == "seasoning_scale" else None


@schemathesis.check
def scalings_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """Every line keeps its share of the meat, totals are their sum, the tightest governs, and refusals are true."""
    if case.path != SCALE or case.method.upper() != "POST" or response.status_code not in (200, 422):
        return
    told = json.loads(response.content)
    if response.status_code == 200:
        faults = faults_of_answer(case.body, told)
    elif told["code"] == "invalid_request":
        return
    else:
        faults = faults_of_refusal(case.body, told)
    assert not faults, "; ".join(faults)
