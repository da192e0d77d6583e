"""What the fuzzer knows of cutting tests: pieces to cut up, and the proof of every answer and refusal."""

import json
from random import Random
from typing import Any

import schemathesis

from tests.calculations.butchery.cut_test_bodies import lawful_body
from tests.calculations.butchery.cut_test_proofs import faults_of_answer, faults_of_refusal

CUT_TEST = "/v1/butchery/cut-test"


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, or None for an operation that cuts nothing up."""
    return lawful_body(random) if operation_id == "butchery_cut_test" else None


@schemathesis.check
def cutting_tests_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """Every share, total, verdict and note follows from what was asked, and every refusal is true."""
    if case.path != CUT_TEST or case.method.upper() != "POST" or response.status_code not in (200, 422):
        return
    told = json.loads(response.content)
    if response.status_code == 200:
        faults = faults_of_answer(case.body, told)
    elif told["code"] == "invalid_request":
        return
    else:
        faults = faults_of_refusal(case.body, told)
    assert not faults, "; ".join(faults)
