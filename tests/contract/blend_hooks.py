"""What the fuzzer knows of blends: trims to ask for, and the proof of every answer and refusal."""

from random import Random
from typing import Any

import schemathesis

from tests.calculations.butchery.blend_bodies import lawful_body, wild_body
from tests.calculations.butchery.blend_proofs import faults_of_blend
from tests.calculations.butchery.blend_refusals import faults_of_refusal
from tests.contract.proving import require_proof

BLEND = "/v1/butchery/blend"
WILD_FRACTION = 0.15


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, a wild one now and then, or None for an operation that blends nothing."""
    if operation_id != "butchery_blend":
        return None
    return wild_body(random) if random.random() < WILD_FRACTION else lawful_body(random)


@schemathesis.check
def blends_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """Nothing is lost, every limit is kept, another programme finds nothing cheaper, and every refusal is true."""
    require_proof(BLEND, response, case, of_answer=faults_of_blend, of_refusal=faults_of_refusal)
