"""What the fuzzer knows of labels: recipes to ask for, and the proof of every answer and refusal."""

from random import Random
from typing import Any

import schemathesis

from tests.calculations.labels.statement_bodies import lawful_body
from tests.calculations.labels.statement_proofs import faults_of_refusal, faults_of_statement
from tests.contract.proving import require_proof

STATEMENT = "/v1/labels/statement"


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A recipe that is to be answered, or None for an operation that makes no label."""
    return lawful_body(random) if operation_id == "labels_statement" else None


@schemathesis.check
def labels_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """Order, shares and every verdict follow from the request and the lists, and every refusal is true."""
    require_proof(STATEMENT, response, case, of_answer=faults_of_statement, of_refusal=faults_of_refusal)
