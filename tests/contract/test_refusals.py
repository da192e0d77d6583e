"""What the fuzzer's own checks say of good and of bad problem documents."""

import json
from typing import Any

import pytest

from tests.contract.refusals import faults_of_problem, faults_of_refusal

PROBLEM = {
    "type": "/problems/invalid-request", "title": "No.", "status": 422, "detail": "No salt.", "instance": "urn:x:1",
    "code": "invalid-request", "errors": [{"pointer": "/brine/1/salt"}],
}  # fmt: skip
SENT = {"brine": [{}, {"water": None}]}
AS_PROBLEM = {"Content-Type": ["application/problem+json"]}


def test_a_problem_that_says_everything_has_no_fault():
    """Media type, members, status and pointers are as they should be."""
    assert faults_of_problem(422, AS_PROBLEM, json.dumps(PROBLEM).encode(), SENT) == []


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        ({"status": 400}, "status 400 in the body of a 422"),
        ({"title": ""}, "no title"),
        ({"code": None}, "no code"),
        ({"errors": [{"pointer": "/brine/2/salt"}]}, "/brine/2/salt points nowhere"),
        ({"errors": [{"pointer": "/brine/2"}]}, "/brine/2 points nowhere"),
        ({"errors": [{"pointer": "/brine/1/water/g"}]}, "/brine/1/water/g points nowhere"),
    ],
)
def test_a_fault_in_a_problem_is_found(change: dict[str, Any], fault: str):
    """Each member that is missing, another status and a pointer to nothing are named."""
    assert faults_of_problem(422, AS_PROBLEM, json.dumps(PROBLEM | change).encode(), SENT) == [fault]


@pytest.mark.parametrize("pointer", ["", "/brine", "/brine/1/water", "/brine/0", "/sugar", "/brine/1/a~1b"])
def test_a_pointer_leads_to_what_was_sent_or_to_where_it_is_missing(pointer: str):
    """The whole body, a field, a null, an element and the place of a missing field are somewhere."""
    problem = PROBLEM | {"errors": [{"pointer": pointer}]}

    assert faults_of_problem(422, AS_PROBLEM, json.dumps(problem).encode(), SENT) == []


def test_an_error_of_another_media_type_is_found():
    """An error in plain JSON is named, whatever it says."""
    assert faults_of_problem(422, {"content-type": ["application/json"]}, b"{}", SENT) != []


@pytest.mark.parametrize(
    "problem",
    [
        {"type": "/problems/limit-exceeded", "findings": [{"refuses": False}, {"refuses": True}]},
        {"type": "/problems/impossible", "reason": "The scale is too coarse."},
    ],
)
def test_a_stated_reason_is_no_fault(problem: dict[str, Any]):
    """A broken limit and what cannot be done are reasons to refuse a valid request."""
    assert faults_of_refusal(problem) == []


@pytest.mark.parametrize(
    "problem",
    [
        {"type": "/problems/invalid-request", "errors": []},
        {"type": "/problems/limit-exceeded", "findings": []},
        {"type": "/problems/limit-exceeded", "findings": [{"refuses": False}]},
        {"type": "/problems/impossible", "reason": ""},
        {},
    ],
)
def test_a_refusal_without_a_reason_is_found(problem: dict[str, Any]):
    """Another type, no finding that refuses and no reason are faults."""
    assert faults_of_refusal(problem) != []
