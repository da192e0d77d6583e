"""Holding every answer and every refusal of a calculation to its proof."""

import json
from collections.abc import Callable
from typing import Any

Faults = Callable[[dict[str, Any], dict[str, Any]], list[str]]
"""What is wrong with an answer, or a refusal, to a body; empty when it is proved."""


def require_proof(path: str, response: Any, case: Any, *, of_answer: Faults, of_refusal: Faults) -> None:
    """An answer on this path is proved, and so is a refusal of a body that keeps the schema."""
    if case.path != path or case.method.upper() != "POST" or response.status_code not in (200, 422):
        return
    told = json.loads(response.content)
    if told.get("code") == "invalid_request":
        return
    faults = (of_answer if response.status_code == 200 else of_refusal)(case.body, told)
    assert not faults, "; ".join(faults)
