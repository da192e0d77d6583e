"""Headers and addresses as no honest program writes them, and those that say what a caller can take."""

import gzip

import pytest
from starlette.testclient import TestClient

from tests.api.conftest import RUB
from tests.api.problem_checks import codes_of, problem_of

PATH = "/v1/toys/rub"


@pytest.mark.parametrize(
    "sent",
    [
        None, "", "text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "application",
        "application/json; charset=latin-1", "application/json; charset=utf-16", "application/json, text/plain",
        "application/problem+json", "application/json;x=y",
    ],
)  # fmt: skip
def test_another_media_type_is_declined(client: TestClient, sent: str | None):
    """A body that is not said to be JSON in UTF-8 is a 415 that says what is read."""
    headers = {} if sent is None else {"content-type": sent}

    response = client.post(PATH, content=b"{}", headers=headers)

    assert response.status_code == 415
    assert problem_of(response)["type"] == "/problems/unsupported-media-type"
    assert response.headers["accept"] == "application/json"


@pytest.mark.parametrize(
    "sent",
    ["application/json", "APPLICATION/JSON", 'application/json; charset="UTF-8"', "application/json;charset=utf8"],
)
def test_json_goes_by_several_spellings(client: TestClient, sent: str):
    """Case and a charset of UTF-8 make no difference."""
    response = client.post(PATH, json=RUB, headers={"content-type": sent})

    assert response.status_code == 200


@pytest.mark.parametrize("coding", ["gzip", "br", "identity, gzip", "x"])
def test_a_compressed_body_is_declined(client: TestClient, coding: str):
    """Nothing is unpacked, so nothing can burst."""
    bomb = gzip.compress(bytes(10_000_000))
    headers = {"content-type": "application/json", "content-encoding": coding}

    response = client.post(PATH, content=bomb, headers=headers)

    assert response.status_code == 415
    assert problem_of(response)["type"] == "/problems/unsupported-content-encoding"
    assert response.headers["accept-encoding"] == "identity"


ACCEPTED = [
    None, "", "*/*", "application/json", "application/*", "text/html, */*;q=0.1", "APPLICATION/JSON;q=0.001",
    "text/html;q=1, application/json;q=0.5", "application/json;profile=x", "text/*;q=0, application/json",
]  # fmt: skip
NOT_ACCEPTED = [
    "application/xml", "text/*", "application/json;q=0", "*/*;q=0", "application/json;q=0, */*",
    "application/*;q=0, */*;q=1", "application/problem+json", "application/json;q=2", "json", ";", ",",
]  # fmt: skip


@pytest.mark.parametrize("accept", ACCEPTED)
@pytest.mark.parametrize("path", [PATH, "/v1/units", "/livez", "/problems/not-found"])
def test_a_caller_that_takes_json_gets_it(client: TestClient, accept: str | None, path: str):
    """Ranges, weights and their absence are understood (RFC 9110, 12.5.1)."""
    headers = [] if accept is None else [("accept", accept)]

    response = client.request(
        "POST" if path == PATH else "GET", path, json=RUB if path == PATH else None, headers=headers
    )

    assert response.status_code == 200
    assert response.headers["content-type"] == "application/json"


@pytest.mark.parametrize("accept", NOT_ACCEPTED)
@pytest.mark.parametrize("path", [PATH, "/v1/units", "/livez", "/problems/not-found"])
def test_a_caller_that_does_not_take_json_is_told(client: TestClient, accept: str, path: str):
    """406 names what is on offer, as a problem."""
    method = "POST" if path == PATH else "GET"

    response = client.request(method, path, json=RUB if path == PATH else None, headers={"accept": accept})

    assert response.status_code == 406
    assert "application/json" in problem_of(response)["detail"]


@pytest.mark.parametrize(
    ("query", "code"),
    [("a=1&a=2", "query_repeated"), ("a=1&%61=2", "query_repeated"), ("a=%ff", "query_not_utf8")],
)
@pytest.mark.parametrize("path", [PATH, "/v1/rules", "/v1/units", "/livez", "/openapi.json"])
def test_an_unreadable_query_string_is_declined(client: TestClient, path: str, query: str, code: str):
    """A parameter that stands twice, or is not UTF-8, is a 400 everywhere."""
    response = client.request("POST" if path == PATH else "GET", f"{path}?{query}", json=RUB if path == PATH else None)

    assert response.status_code == 400
    assert codes_of(problem_of(response)) == [code]


@pytest.mark.parametrize("path", ["/v1/rules/" + "a" * 8200, "/v1/rules?on=" + "1" * 8200, "/livez?" + "a=1&" * 2050])
def test_a_long_address_is_declined(client: TestClient, path: str):
    """Path and query string are read up to 8 KiB."""
    response = client.get(path)

    assert response.status_code == 414
    assert problem_of(response)["type"] == "/problems/uri-too-long"


@pytest.mark.parametrize("headers", [[("x-a", "1")] * 101, [("x-a", "1" * 33_000)]])
def test_too_many_headers_are_declined(client: TestClient, headers: list):
    """Their number and their length are limited."""
    response = client.get("/livez", headers=headers)

    assert response.status_code == 431
    assert problem_of(response)["type"] == "/problems/headers-too-large"


@pytest.mark.parametrize(
    "path", ["/v1/rules/a%00b", "/v1/rules/%ff", "/v1/rules/..%2f..%2fetc", "/v1/units/", "/V1/units", "/", "/v1"]
)
def test_a_path_that_leads_nowhere_is_not_found(client: TestClient, path: str):
    """Whatever is in it, it is a 404."""
    response = client.get(path)

    assert response.status_code == 404
    assert problem_of(response)["type"] == "/problems/not-found"


def test_a_request_keeps_the_name_it_came_with(client: TestClient):
    """The name is in the answer, for the caller and for the log."""
    response = client.get("/livez", headers={"x-request-id": "order-17.a_b"})

    assert response.headers["x-request-id"] == "order-17.a_b"


@pytest.mark.parametrize("name", ["", "a b", 'a"b', "a" * 65, "a/b", "a;b", "\x7f"])
def test_a_request_with_an_odd_name_gets_another(client: TestClient, name: str):
    """A name that could do harm elsewhere is not passed on."""
    response = client.get("/livez", headers={"x-request-id": name})

    assert response.headers["x-request-id"] != name
    assert len(response.headers["x-request-id"]) == 32


def test_a_method_override_is_ignored(client: TestClient):
    """The method is the one in the request line."""
    response = client.post("/v1/units", headers={"x-http-method-override": "GET"})

    assert response.status_code == 405
