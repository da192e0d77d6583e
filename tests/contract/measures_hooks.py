"""What the fuzzer knows of kitchen measures: weighings to ask for, and the proof of every answer."""

from random import Random
from typing import Any

import schemathesis

from tests.calculations.measures.pantry import faults_of_answer, faults_of_refusal, lawful_body
from tests.contract.proving import require_proof

WEIGH = "/v1/measures/weigh"


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, or None for an operation that weighs no measure."""
    return lawful_body(random) if operation_id == "measures_weigh" else None


@schemathesis.check
def weighings_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """Every band holds all that was published, and every refusal of a valid request is true."""
    require_proof(WEIGH, response, case, of_answer=faults_of_answer, of_refusal=faults_of_refusal)
