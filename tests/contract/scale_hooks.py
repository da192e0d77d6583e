"""What the fuzzer knows of scaled recipes: recipes to ask for, and the proof of every answer and refusal."""

from random import Random
from typing import Any

import schemathesis

from tests.calculations.seasoning.scale_bodies import lawful_body
from tests.calculations.seasoning.scale_proofs import faults_of_answer
from tests.calculations.seasoning.scale_refusals import faults_of_refusal
from tests.contract.proving import require_proof

SCALE = "/v1/seasoning/scale"


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, or None for an operation that scales nothing."""
    return lawful_body(random) if operation_id == "seasoning_scale" else None


@schemathesis.check
def scalings_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """Every line keeps its share of the meat, totals are their sum, the tightest governs, and refusals are true."""
    require_proof(SCALE, response, case, of_answer=faults_of_answer, of_refusal=faults_of_refusal)
