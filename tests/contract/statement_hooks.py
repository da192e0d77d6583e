"""What the fuzzer knows of labels: recipes to ask for, and the proof of every answer and refusal."""

import json
from random import Random
from typing import Any

import schemathesis

from tests.calculations.labels.statement_bodies import lawful_body
from tests.calculations.labels.statement_proofs import faults_of_refusal, faults_of_statement

STATEMENT = "/v1/labels/statement"


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A recipe that is to be answered, or None for an operation that makes no label."""
    return lawful_body(random) if operation_id == "labels_statement" else None


@schemathesis.check
def labels_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """Order, shares and every verdict follow from the request and the lists, and every refusal is true."""
    if case.path != STATEMENT or case.method.upper() != "POST" or response.status_code not in (200, 422):
        return
    told = json.loads(response.content)
    if response.status_code == 200:
        faults = faults_of_statement(case.body, told)
    elif told["code"] == "invalid_request":
        return
    else:
        faults = faults_of_refusal(case.body, told)
    assert not faults, "; ".join(faults)
