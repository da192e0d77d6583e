"""Calls from web pages of other origins."""

import pytest
from starlette.testclient import TestClient

from tests.api.conftest import Make

PAGE = "https://kitchen.example"
ASKING = {"origin": PAGE, "access-control-request-method": "POST", "access-control-request-headers": "content-type"}


@pytest.fixture(scope="module")
def opened(make: Make) -> TestClient:
    """A caller of a service that one origin may call."""
    return TestClient(make(cors_origins=(PAGE,)))


def test_nobody_may_call_by_default(client: TestClient, rub: dict):
    """Without the setting no answer gives leave."""
    asked = client.options("/v1/toys/rub", headers=ASKING)
    called = client.post("/v1/toys/rub", json=rub, headers={"origin": PAGE})

    assert asked.status_code == 204
    assert not [name for name in (*asked.headers, *called.headers) if name.startswith("access-control")]


def test_a_named_origin_may_call(opened: TestClient, rub: dict):
    """The browser's question and the call itself are answered with leave."""
    asked = opened.options("/v1/toys/rub", headers=ASKING)
    called = opened.post("/v1/toys/rub", json=rub, headers={"origin": PAGE})

    assert (asked.status_code, asked.content) == (204, b"")
    assert asked.headers["access-control-allow-origin"] == PAGE
    assert called.headers["access-control-allow-origin"] == PAGE
    assert "x-request-id" in called.headers["access-control-expose-headers"].lower()


def test_another_origin_may_not(opened: TestClient, rub: dict):
    """Leave is for the named origins alone."""
    asked = opened.options("/v1/toys/rub", headers=ASKING | {"origin": "https://other.example"})
    called = opened.post("/v1/toys/rub", json=rub, headers={"origin": "https://other.example"})

    assert asked.status_code == 204
    assert not [name for answer in (asked, called) for name in answer.headers if name.endswith("allow-origin")]


def test_plain_options_still_list_the_methods(opened: TestClient):
    """An OPTIONS that is no browser's question is answered as ever."""
    assert opened.options("/v1/toys/rub").headers["allow"] == "OPTIONS, POST"
