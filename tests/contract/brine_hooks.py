"""What the fuzzer knows of brines: brines to ask for, and the proof of every answer and refusal."""

from random import Random
from typing import Any

import schemathesis

from tests.calculations.curing.brine_bodies import lawful_body
from tests.calculations.curing.brine_faults import faults_of_brine
from tests.calculations.curing.brine_proofs import faults_of_refusal
from tests.contract.proving import require_proof

BRINE = "/v1/curing/brine"


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, or None for an operation that makes no brine."""
    return lawful_body(random) if operation_id == "curing_brine" else None


@schemathesis.check
def brines_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """Salt, water and heat of every answer balance, and every refusal of a valid request is true."""
    require_proof(BRINE, response, case, of_answer=faults_of_brine, of_refusal=faults_of_refusal)
