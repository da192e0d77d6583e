"""What the fuzzer knows of soaks: pieces to ask for, and the proof of every answer and refusal."""

from random import Random
from typing import Any

import schemathesis

from tests.calculations.curing.soak_bodies import lawful_body
from tests.calculations.curing.soak_proofs import faults_of_refusal, faults_of_soak
from tests.contract.proving import require_proof

SOAK = "/v1/curing/soak"


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, or None for an operation that soaks nothing."""
    return lawful_body(random) if operation_id == "curing_soak" else None


@schemathesis.check
def soaks_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """Hours follow from the shells, nothing is lost between meat and water, and every refusal is true."""
    require_proof(SOAK, response, case, of_answer=faults_of_soak, of_refusal=faults_of_refusal)
