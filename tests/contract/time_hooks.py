"""What the fuzzer knows of cure times: cures to ask for, and the proof of every answer and refusal."""

from random import Random
from typing import Any

import schemathesis

from tests.calculations.curing.time_bodies import lawful_body
from tests.calculations.curing.time_proofs import faults_of_refusal, faults_of_time
from tests.contract.proving import require_proof

TIME = "/v1/curing/time"


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, or None for an operation that tells no days."""
    return lawful_body(random) if operation_id == "curing_time" else None


@schemathesis.check
def cure_times_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """The centre has its salt on the day that is told, both bookkeepings balance, and every refusal is true."""
    require_proof(TIME, response, case, of_answer=faults_of_time, of_refusal=faults_of_refusal)
