"""What is said about a field: where, by which code, and what is allowed there."""

from typing import Any

import pytest
from starlette.testclient import TestClient

from tests.api.problem_checks import problem_of

WET = {"kind": "wet", "water": {"value": 1, "unit": "l"}}
CASES: list[tuple[dict[str, Any], str, str, str]] = [
    ({"meat": {"value": 2}}, "#/meat/unit", "missing_field", "required"),
    ({"meat": {"value": 0, "unit": "kg"}}, "#/meat/value", "number_out_of_range", "Must be from 0.001 to 1000000."),
    ({"meat": {"value": "2", "unit": "kg"}}, "#/meat/value", "wrong_type", "Leave out the quotes."),
    ({"meat": {"value": "1,5", "unit": "kg"}}, "#/meat/value", "wrong_type", "Write 1.5, with a point."),
    ({"meat": {"value": 2, "unit": "stone"}}, "#/meat/unit", "unit_unknown", "Must be one of: g, kg, oz, lb."),
    ({"meat": {"value": 2, "unit": "LB"}}, "#/meat/unit", "unit_unknown", "Write lb."),
    ({"meat": {"value": 2, "unit": "cup"}}, "#/meat/unit", "unit_incompatible", "cup is a unit of volume."),
    ({"meat": 2}, "#/meat", "wrong_type", "Must be an object."),
    ({"method": {"salt_percent": 2}}, "#/method/kind", "missing_field", "required"),
    ({"method": {"kind": "smoked"}}, "#/method/kind", "value_not_allowed", "Must be one of: dry, wet."),
    (
        {"method": {"kind": "dry", "salt_percent": 0.025}},
        "#/method/salt_percent", "number_out_of_range", "A percentage is wanted, not a fraction",
    ),
    ({"method": {**WET, "dry": 1}}, "#/method/dry", "unknown_field", "no such field"),
    ({"name": "a" * 81}, "#/name", "text_too_long", "At most 80 characters."),
    ({"on": "1.12.2026"}, "#/on", "not_a_day", "2026-12-01"),
    ({"on": "2100-01-01"}, "#/on", "not_a_day", "2026-12-01"),
    ({"pieces": [{"value": 1, "unit": "g"}, {"value": 1, "unit": "g", "of": 1}]}, "#/pieces/1/of", "unknown_field", ""),
    ({"pieces": [{"value": 1, "unit": "g"}] * 51}, "#/pieces", "too_many_items", "At most 50 entries."),
    ({"a/b~c d%é": 1}, "#/a~1b~0c%20d%25%C3%A9", "unknown_field", ""),
    ({"k" * 65: 1}, "#", "unknown_field", ""),
    ({"pepper": 1}, "#/pepper", "wrong_type", "Must be an object."),
    ({"pepper": {"value": 1, "unit": "cup"}}, "#/pepper/unit", "unit_incompatible", "cup is a unit of volume."),
    ({"pepper": {"spoons": 51, "heaped": True}}, "#/pepper/spoons", "number_out_of_range", "Must be from 1 to 50."),
    ({"pepper": {"spoons": 1.5, "heaped": True}}, "#/pepper/spoons", "wrong_type", "Must be a whole JSON number."),
    ({"pepper": {"spoons": 1, "heaped": "yes"}}, "#/pepper/heaped", "wrong_type", "Must be true or false."),
]  # fmt: skip


@pytest.mark.parametrize(("change", "pointer", "code", "words"), CASES)
def test_an_error_says_where_what_and_what_is_allowed(
    client: TestClient, rub: dict, change: dict, pointer: str, code: str, words: str
):
    """One fault is one error, of the branch that fits best where a field has several forms."""
    sent = rub | change

    errors = problem_of(client.post("/v1/toys/rub", json=sent), sent)["errors"]

    assert [(error["pointer"], error["code"]) for error in errors] == [(pointer, code)]
    assert words in errors[0]["detail"]
    assert errors[0].keys() == {"pointer", "code", "detail"}


def test_every_fault_is_told_at_once(client: TestClient):
    """A caller need not mend one fault to learn of the next."""
    problem = problem_of(client.post("/v1/toys/rub", json={"name": ""}), {"name": ""})

    assert [error["pointer"] for error in problem["errors"]] == ["#/meat", "#/method", "#/name"]
    assert problem["detail"] == "In this request 3 things are not as asked for."
    assert problem["errors_truncated"] is False


@pytest.mark.parametrize("name", ["name", "unit", "on"])
def test_a_long_value_is_never_repeated(client: TestClient, rub: dict, name: str):
    """What was sent comes back neither in an error nor in the title."""
    secret = "QWERTY" * 20
    sent = rub | ({"meat": {"value": 1, "unit": secret}} if name == "unit" else {name: secret})

    response = client.post("/v1/toys/rub", json=sent)

    assert problem_of(response, sent)["status"] == 422
    assert "QWERTY" not in response.text
