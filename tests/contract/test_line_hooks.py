"""The fuzzer sends lawful lines too, and finds out every way in which a stream of answers can be wrong."""

import json
from random import Random
from typing import Any

import pytest

from tests.contract.line_hooks import drawn_lines, faults_of_lines, outcomes, published_lines

SENT = b'{"request": {}}\r\n \n{"request": 1}\n{"request": {}}'
RIGHT: list[dict[str, Any]] = [
    {"line": 1, "answer": {}},
    {"line": 3, "problem": {}},
    {"line": 4, "answer": {}},
    {"summary": {"lines": 4, "blank": 1, "answered": 2, "declined": 1}},
]
SUMMARY: dict[str, Any] = RIGHT[3]["summary"]
OPERATION: dict[str, Any] = {
    "operationId": "curing_dose_lines",
    "requestBody": {
        "content": {
            "application/x-ndjson": {
                "examples": {"one": {"value": '{"id": "a", "request": {"meat": 1}}\n{"request": {"meat": 0}}\n'}}
            }
        }
    },
    "responses": {
        "200": {
            "content": {
                "application/x-ndjson": {
                    "examples": {"one": {"value": '{"line":1,"answer":{}}\n{"line":2,"problem":{}}\n{"summary":{}}'}}
                }
            }
        }
    },
}


def written(*lines: dict[str, Any]) -> bytes:
    """Lines of JSON."""
    return b"".join(json.dumps(line).encode() + b"\n" for line in lines)


def test_a_right_stream_has_no_fault():
    """Blank lines have no answer, and all others have one, in order."""
    assert faults_of_lines(SENT, written(*RIGHT)) == []
    assert outcomes(written(*RIGHT)) == (2, 1)


@pytest.mark.parametrize(
    "lines",
    [
        [],
        RIGHT[:3],
        [RIGHT[0], RIGHT[1], RIGHT[3]],
        [RIGHT[1], RIGHT[0], *RIGHT[2:]],
        [*RIGHT[:3], RIGHT[2], RIGHT[3]],
        [RIGHT[0] | {"problem": {}}, *RIGHT[1:]],
        [{"line": 1}, *RIGHT[1:]],
        [*RIGHT[:3], {"summary": SUMMARY | {"blank": 0}}],
        [*RIGHT[:3], {"summary": SUMMARY | {"answered": 3}}],
    ],
)
def test_a_wrong_stream_is_found(lines: list[dict[str, Any]]):
    """A stream that is torn, out of order, doubled, contradictory or miscounted has a fault."""
    assert faults_of_lines(SENT, written(*lines)) != []


def test_only_lines_that_are_answered_are_lawful():
    """Of the published example, those with an answer."""
    assert published_lines(OPERATION) == [{"id": "a", "request": {"meat": 1}}]


def test_most_drawn_lines_are_lawful():
    """More than half of many lines are those of the example; what was drawn is among them, and so are blank ones."""
    bodies = [drawn_lines(OPERATION, "drawn", Random(seed), lambda *_: None) for seed in range(200)]
    lines = [line for body in bodies for line in body.splitlines()]

    assert sum('"meat": 1' in line for line in lines) > len(lines) / 2
    assert {"drawn", ""} < set(lines)
