"""What the fuzzer knows of cutting tests: pieces to cut up, and the proof of every answer and refusal."""

from random import Random
from typing import Any

import schemathesis

from tests.calculations.butchery.cut_test_bodies import lawful_body
from tests.calculations.butchery.cut_test_proofs import faults_of_answer, faults_of_refusal
from tests.contract.proving import require_proof

CUT_TEST = "/v1/butchery/cut-test"


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, or None for an operation that cuts nothing up."""
    return lawful_body(random) if operation_id == "butchery_cut_test" else None


@schemathesis.check
def cutting_tests_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """Every share, total, verdict and note follows from what was asked, and every refusal is true."""
    require_proof(CUT_TEST, response, case, of_answer=faults_of_answer, of_refusal=faults_of_refusal)
