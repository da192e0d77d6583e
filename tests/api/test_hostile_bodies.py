"""Bodies as no honest program writes them, byte for byte: each is declined for its own reason, none is a fault."""

import json
from time import perf_counter

import pytest
from starlette.testclient import TestClient

from tests.api.conftest import RUB
from tests.api.problem_checks import codes_of, problem_of

GOOD = json.dumps(RUB)


def with_value(text: str) -> bytes:
    """The good body with another text in place of the weight's number."""
    return GOOD.replace('"value": 2', f'"value": {text}').encode()


def with_unit(text: object) -> bytes:
    """The good body with another text in place of the weight's unit."""
    return json.dumps(RUB | {"meat": {"value": 2, "unit": text}}).encode()


def with_field(text: str) -> bytes:
    """The good body with one field more."""
    return GOOD.replace("{", "{" + text + ", ", 1).encode()


UNREADABLE = [
    (with_value("NaN"), "json_not_a_number"),
    (with_value("Infinity"), "json_not_a_number"),
    (with_value("-Infinity"), "json_not_a_number"),
    (with_field('"meat": {"value": 1, "unit": "kg"}'), "json_duplicate_key"),
    (with_field('"me\\u0061t": {"value": 1, "unit": "kg"}'), "json_duplicate_key"),
    (with_field('"note": "a: b", "note": "c"'), "json_duplicate_key"),
    (GOOD.replace("}", ",}", 1).encode(), "json_syntax"),
    (GOOD.replace('"', "'").encode(), "json_syntax"),
    (GOOD.encode() + b" x", "json_syntax"),
    (GOOD.encode() + b"\0", "json_syntax"),
    (with_value("01"), "json_syntax"),
    (with_value("1."), "json_syntax"),
    (with_value("+1"), "json_syntax"),
    (with_value("0x10"), "json_syntax"),
    (with_value("1_000"), "json_syntax"),
    (with_field('"name": "a\tb"'), "json_syntax"),
    (with_field('"name": "a\0b"'), "json_syntax"),
    (b"", "json_empty"),
    (b" \r\n\t", "json_empty"),
    (b"[" * 100_000, "json_too_deep"),
    (b"[" * 900 + b"]" * 900, "json_too_deep"),
    (b'{"name":' * 33 + b"1" + b"}" * 33, "json_too_deep"),
    (with_field('"x": ' + "[" * 32 + "]" * 32), "json_too_deep"),
    (GOOD.encode("utf-16"), "json_not_utf8"),
    (GOOD.encode("utf-16-le"), "json_syntax"),
    (with_field('"name": "a"').replace(b'"a"', b'"\xff"'), "json_not_utf8"),
    (with_field('"name": "a"').replace(b'"a"', b'"\xed\xa0\x80"'), "json_not_utf8"),
    (b"\xef\xbb\xbf" + GOOD.encode(), "json_byte_order_mark"),
    (with_field('"name": "\\ud800"'), "json_lone_surrogate"),
    (with_field('"\\uDFFF": 1'), "json_lone_surrogate"),
]

OUTSIDE_THE_CONTRACT = [
    (with_value("1e400"), "number_out_of_range"),
    (with_value("-1e400"), "number_out_of_range"),
    (with_value("1.7e308"), "number_out_of_range"),
    (with_value("9" * 5000), "number_out_of_range"),
    (with_value("9" * 400), "number_out_of_range"),
    (with_value("9223372036854775808"), "number_out_of_range"),
    (with_value("5e-324"), "number_out_of_range"),
    (with_value("-0.0"), "number_out_of_range"),
    (with_value("0"), "number_out_of_range"),
    (with_field('"pepper": {"spoons": 9223372036854775808, "heaped": false}'), "number_out_of_range"),
    (with_field(f'"pepper": {{"spoons": {"9" * 5000}, "heaped": false}}'), "number_out_of_range"),
    (with_value('"nan"'), "wrong_type"),
    (with_value('"sNaN"'), "wrong_type"),
    (with_value('"1E+999999"'), "wrong_type"),
    (with_value(f'"{"9" * 100_000}"'), "wrong_type"),
    (with_value("true"), "wrong_type"),
    (with_value("null"), "wrong_type"),
    (with_value("[2]"), "wrong_type"),
    (with_value('"1_000"'), "wrong_type"),
    (with_value('" 5 "'), "wrong_type"),
    (with_value('"0x10"'), "wrong_type"),
    (with_value('"٣"'), "wrong_type"),
    (with_value('"1,5"'), "wrong_type"),
    (with_field('"on": null'), "null_not_allowed"),
    (with_field('"pepper": null'), "null_not_allowed"),
    (with_field('"cost_price": 3'), "unknown_field"),
    (b"null", "wrong_type"),
    (b'"x"', "wrong_type"),
    (b"[]", "wrong_type"),
    (b"4.4e168", "wrong_type"),
    (b"{}", "missing_field"),
    (with_field('"name": "a\\u0000b"'), "text_invalid"),
    (with_field('"name": "a\\u202eb"'), "text_invalid"),
    (with_field('"name": "a\\u200bb"'), "text_invalid"),
    (with_field('"name": "\\ud83d\\udc37", "x": 1'), "unknown_field"),
    (with_field(f'"name": "{"a" * 200_000}"'), "text_too_long"),
    (with_field('"name": ""'), "text_too_short"),
    (with_field('"on": "2026-02-30"'), "not_a_day"),
    (with_field('"on": 1700000000'), "not_a_day"),
    (with_field('"on": "2026-12-01T00:00:00Z"'), "not_a_day"),
    (with_field('"on": "1969-12-31"'), "not_a_day"),
    (with_field(f'"pieces": [{", ".join(["1"] * 51)}]'), "too_many_items"),
    (with_unit("9**9**9 m"), "unit_unknown"),
    (with_unit("kg**0"), "unit_unknown"),
    (with_unit("(kg"), "unit_unknown"),
    (with_unit("℉"), "unit_unknown"),
    (with_unit("k" * 200_000), "unit_unknown"),
    (with_unit("k\u200bg"), "unit_unknown"),
    (with_unit("kg\0"), "unit_unknown"),
    (with_unit("kg?"), "unit_unknown"),
    (with_unit("KG"), "unit_unknown"),
    (with_unit("1,5 kg"), "unit_unknown"),
    (with_unit("degF"), "unit_incompatible"),
    (with_unit("cup"), "unit_incompatible"),
    (with_unit(["kg"]), "wrong_type"),
]


@pytest.mark.parametrize(("body", "code"), UNREADABLE)
def test_what_cannot_be_read_is_declined_by_name(client: TestClient, body: bytes, code: str):
    """A body that is not the JSON of RFC 8259 and RFC 7493 is a 400 with the code of its fault."""
    response = client.post("/v1/toys/rub", content=body, headers={"content-type": "application/json"})

    assert response.status_code == 400
    assert problem_of(response)["type"] == "/problems/unreadable-json"
    assert codes_of(problem_of(response)) == [code]


@pytest.mark.parametrize(("body", "code"), OUTSIDE_THE_CONTRACT)
def test_what_is_readable_but_wrong_is_pointed_at(client: TestClient, body: bytes, code: str):
    """A body outside the contract is a 422 at once, and never repeated at length."""
    started = perf_counter()
    response = client.post("/v1/toys/rub", content=body, headers={"content-type": "application/json"})

    assert response.status_code == 422
    assert code in codes_of(problem_of(response, json.loads(body, parse_int=float)))
    assert len(response.content) < 3000
    assert perf_counter() - started < 1


def test_lawful_oddities_are_answered(client: TestClient):
    """White space, escapes, an exponent and a whole number with a point are JSON like any other."""
    body = b' \n{"me\\u0061t": {"value": 2.0e0, "unit": "kg"}, "name": "\\ud83d\\udc37 a: \\"b\\"",' + GOOD[1:].encode()
    body = body.replace(b'"meat": {"value": 2, "unit": "kg"}, ', b"")

    response = client.post("/v1/toys/rub", content=body, headers={"content-type": "application/json"})

    assert response.status_code == 200
    assert response.json()["name"] == '🐷 a: "b"'


def test_many_errors_are_cut_short(client: TestClient, rub: dict):
    """Of thousands of faults the first twenty are told, and that there are more."""
    rub["pieces"] = [{"value": -1, "unit": "stone"}] * 50
    problem = problem_of(client.post("/v1/toys/rub", json=rub), rub)

    assert len(problem["errors"]) == 20
    assert problem["errors_truncated"] is True


def test_a_body_over_the_limit_is_too_large(client: TestClient):
    """One byte more than the limit is not read."""
    body = GOOD.encode().ljust(262_145)

    kept = client.post("/v1/toys/rub", content=body[:-1], headers={"content-type": "application/json"})
    declined = client.post("/v1/toys/rub", content=body, headers={"content-type": "application/json"})

    assert kept.status_code == 200
    assert problem_of(declined)["type"] == "/problems/body-too-large"
    assert declined.status_code == 413
