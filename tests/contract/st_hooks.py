"""What the fuzzer does beside its own checks: it walks Accept, asks lawful things too, and reads every refusal."""

import json
from collections import Counter
from importlib import import_module
from importlib.util import find_spec
from itertools import count
from random import Random
from typing import Any

import schemathesis
from schemathesis.core.parameters import ParameterLocation
from schemathesis.generation.meta import TestPhase

from tests.contract.line_hooks import LINES, drawn_lines, faults_of_lines, outcomes
from tests.contract.questions import acceptable, asked_of, published_bodies
from tests.contract.refusals import faults_of_problem, faults_of_refusal, is_refusal

CURING = ("curing", "brine", "time", "soak", "measures")
TRADE = ("cut_test", "chain", "blend", "scale", "statement")
KNOWING = tuple(f"tests.contract.{room}_hooks" for room in (*CURING, *TRADE))
LAWFUL = [import_module(name).lawful for name in KNOWING if find_spec(name)]
"""Each lawful(operation_id, body, random) -> another body that is to be answered, or None where it knows none."""

LAWFUL_FRACTION = 0.75

_turn = count()


@schemathesis.serializer(LINES)
def write_lines(context: Any, value: Any) -> bytes:
    """A text goes out as it is, anything else as the line of JSON that it is."""
    return value if isinstance(value, bytes) else (value if isinstance(value, str) else json.dumps(value)).encode()


@schemathesis.deserializer(LINES)
def read_lines(context: Any, response: Any) -> str:
    """Lines are one text to the document."""
    return str(response.content.decode("utf-8"))


@schemathesis.hook
def filter_case(context: Any, case: Any) -> bool:
    """On the wire every body of lines is a text: there is none of another type to be sent, as with text/plain."""
    negated = case.meta is not None and case.meta.is_negative_at(ParameterLocation.BODY)
    return not (case.media_type == LINES and negated)


@schemathesis.hook
def map_case(context: Any, case: Any) -> Any:
    """Most valid bodies become one that is to be answered; which one follows from what was drawn."""
    random = Random(json.dumps(case.body, sort_keys=True, default=repr))
    if _is_drawn(case) and isinstance(case.body, dict) and random.random() < LAWFUL_FRACTION:
        case.body = _lawful(case.operation.definition.raw, case.body, random)
    if _is_drawn(case) and isinstance(case.body, str) and case.media_type == LINES:
        case.body = drawn_lines(case.operation.definition.raw, case.body, random, _known)
    return case


def _known(operation_id: str, body: dict[str, Any], random: Random) -> Any:
    """A body that is to be answered, or None where nobody knows one."""
    return next((made for lawful in LAWFUL if (made := lawful(operation_id, body, random))), None)


def _lawful(operation: dict[str, Any], body: dict[str, Any], random: Random) -> Any:
    known = _known(asked_of(operation["operationId"]), body, random)
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
def every_line_is_answered(ctx: Any, response: Any, case: Any) -> None:
    """Lines are answered in order, each once, and the last line counts them."""
    if case.media_type == LINES and response.status_code == 200:
        faults = faults_of_lines(response.request.body or b"", response.content)
        assert not faults, "; ".join(faults)


@schemathesis.check
def refused_for_a_stated_reason(ctx: Any, response: Any, case: Any) -> None:
    """A request that keeps the schema is refused only for a limit, or for what cannot be done."""
    if response.status_code == 422 and _is_valid(case):
        faults = faults_of_refusal(json.loads(response.content))
        assert not faults, "; ".join(faults)


@schemathesis.check
class LawfulRequestsAreAnswered:
    """Of the valid bodies, and lines, drawn for a calculation, at least half are answered rather than refused."""

    def __init__(self) -> None:
        self._answered: Counter[str] = Counter()
        self._refused: Counter[str] = Counter()

    def after_response(self, ctx: Any, response: Any, case: Any) -> None:
        """Count a valid body."""
        if _is_drawn(case) and isinstance(case.body, dict):
            outcome = self._refused if is_refusal(response.status_code) else self._answered
            outcome[case.operation.label] += 1
        if _is_drawn(case) and case.media_type == LINES and response.status_code == 200:
            answered, declined = outcomes(response.content)
            self._answered[case.operation.label] += answered
            self._refused[case.operation.label] += declined

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
