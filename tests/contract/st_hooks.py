"""What the fuzzer does beside its own checks: it walks Accept, asks lawful things too, and reads every refusal."""

import json
from collections import Counter
from importlib import import_module
from importlib.util import find_spec
from itertools import count
from random import Random
from typing import Any

import schemathesis
from schemathesis.generation.meta import TestPhase

from tests.contract.questions import acceptable, published_bodies
from tests.contract.refusals import faults_of_problem, faults_of_refusal, is_refusal

KNOWING = ("tests.contract.curing_hooks", "tests.contract.measures_hooks")
LAWFUL = [import_module(name).lawful for name in KNOWING if find_spec(name)]
"""Each lawful(operation_id, body, random) -> another body that is to be answered, or None where it knows none."""

LAWFUL_FRACTION = 0.75

_turn = count()


@schemathesis.hook
def map_case(context: Any, case: Any) -> Any:
    """Most valid bodies become one that is to be answered; which one follows from what was drawn."""
    random = Random(json.dumps(case.body, sort_keys=True, default=repr))
    if _is_drawn(case) and isinstance(case.body, dict) and random.random() < LAWFUL_FRACTION:
        case.body = _lawful(case.operation.definition.raw, case.body, random)
    return case


def _lawful(operation: dict[str, Any], body: dict[str, Any], random: Random) -> Any:
    known = next((made for lawful in LAWFUL if (made := lawful(operation["operationId"], body, random))), None)
    published = published_bodies(operation)
    return known or (random.choice(published) if published else body)


@schemathesis.hook
def before_call(context: Any, case: Any, kwargs: dict[str, Any]) -> None:
    """Ask for the answer in each of the ways in which it may be asked for."""
    operation = case.operation.definition.raw
    if "responses" in operation and "Accept" not in case.headers:
        choices = acceptable(operation)
        case.headers["Accept"] = choices[next(_turn) % len(choices)]


@schemathesis.check
def problems_are_problem_json(ctx: Any, response: Any, case: Any) -> None:
    """Every error is application/problem+json, says the status that it has, and points into the body sent."""
    if response.status_code >= 400 and case.method.upper() != "HEAD":
        faults = faults_of_problem(response.status_code, response.headers, response.content, case.body)
        assert not faults, "; ".join(faults)


@schemathesis.check
def refused_for_a_stated_reason(ctx: Any, response: Any, case: Any) -> None:
    """A request that keeps the schema is refused only for a limit, or for what cannot be done."""
    if response.status_code == 422 and _is_valid(case):
        faults = faults_of_refusal(json.loads(response.content))
        assert not faults, "; ".join(faults)


@schemathesis.check
class LawfulRequestsAreAnswered:
    """Of the valid bodies that were drawn for a calculation, at least half are answered rather than refused."""

    def __init__(self) -> None:
        self._answered: Counter[str] = Counter()
        self._refused: Counter[str] = Counter()

    def after_response(self, ctx: Any, response: Any, case: Any) -> None:
        """Count a valid body."""
        if _is_drawn(case) and isinstance(case.body, dict):
            outcome = self._refused if is_refusal(response.status_code) else self._answered
            outcome[case.operation.label] += 1

    def after_run(self, ctx: Any) -> None:
        """Compare."""
        for label, refused in self._refused.items():
            answered = self._answered[label]
            assert answered >= refused, f"{label}: {answered} valid bodies were answered, {refused} refused"


def _is_valid(case: Any) -> bool:
    return case.meta is not None and case.meta.generation.mode.is_positive


def _is_drawn(case: Any) -> bool:
    """Valid, and drawn at random: not an example, not the edge of a bound."""
    return _is_valid(case) and case.meta.phase.name is TestPhase.FUZZING
