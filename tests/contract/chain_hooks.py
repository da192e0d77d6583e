"""What the fuzzer knows of chains of yields: chains to ask for, and the proof of every answer and refusal."""

from random import Random
from typing import Any

import schemathesis

from tests.calculations.butchery.chain_bodies import lawful_body
from tests.calculations.butchery.chain_proofs import faults_of_chain
from tests.calculations.butchery.chain_refusals import faults_of_refusal
from tests.contract.proving import require_proof

CHAIN = "/v1/yields/chain"


def lawful(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, or None for an operation that carries no chain."""
    return lawful_body(random) if operation_id == "yields_chain" else None


@schemathesis.check
def chains_are_proved(ctx: Any, response: Any, case: Any) -> None:
    """Every combination of shares lies within what is told, limits are those of the law, and every refusal is true."""
    require_proof(CHAIN, response, case, of_answer=faults_of_chain, of_refusal=faults_of_refusal)
