"""A calculation over HTTP."""

import pytest
from starlette.testclient import TestClient

from tests.api.conftest import Make
from tests.api.problem_checks import problem_of


def test_a_good_request_is_answered(client: TestClient, rub: dict):
    """The answer of the calculation, as JSON, not to be kept by anybody."""
    response = client.post("/v1/toys/rub", json=rub)

    assert response.status_code == 200
    assert response.headers["content-type"] == "application/json"
    assert response.headers["cache-control"] == "no-store"
    assert response.headers["x-content-type-options"] == "nosniff"
    assert response.json()["meat_g"] == 2000


@pytest.mark.parametrize(("stated", "told"), [({}, "2026-12-01"), ({"on": "2025-01-31"}, "2025-01-31")])
def test_a_request_without_a_day_is_about_today(client: TestClient, rub: dict, stated: dict, told: str):
    """Today's day is filled in and told; a day that is stated stays."""
    response = client.post("/v1/toys/rub", json=rub | stated)

    assert response.json()["on"] == told


def test_today_is_the_day_of_the_kitchen(make: Make, rub: dict):
    """At noon UTC on the first it is already the second in Kiritimati (UTC+14, IANA time zone database)."""
    client = TestClient(make(time_zone="Pacific/Kiritimati"))

    assert client.post("/v1/toys/rub", json=rub).json()["on"] == "2026-12-02"


def test_the_same_request_gives_the_same_bytes(client: TestClient, rub: dict):
    """Nothing of the moment is in an answer."""
    first, second = (client.post("/v1/toys/rub", json=rub) for _ in range(2))

    assert first.content == second.content


def test_a_broken_limit_declines_with_its_findings(client: TestClient):
    """A refusal shows each limit and what to change."""
    problem = problem_of(client.post("/v1/toys/light", json={"outcome": "limit"}))

    assert problem["type"] == "/problems/limit-exceeded"
    assert problem["status"] == 422
    assert problem["findings"][0]["rule"] == "toy-limit"
    assert problem["advice"] == "Lower the target to 200 ppm."


def test_what_cannot_be_done_declines_with_the_nearest_thing(client: TestClient):
    """A refusal names its reason by code and in words, and what can be done instead."""
    problem = problem_of(client.post("/v1/toys/light", json={"outcome": "impossible"}))

    assert problem["type"] == "/problems/impossible"
    assert problem["status"] == 422
    assert (problem["code"], problem["reason"]) == ("too_coarse", "The scale is too coarse.")
    assert problem["nearest"] == "A step of 0.1 g."


def test_a_fault_tells_its_number_and_nothing_else(client: TestClient):
    """What went wrong inside stays inside."""
    response = client.post("/v1/toys/light", json={"outcome": "broken"})

    assert problem_of(response)["type"] == "/problems/internal-error"
    assert response.status_code == 500
    assert "secret" not in response.text


def test_a_calculation_takes_no_parameters(client: TestClient, rub: dict):
    """A query string is declined, parameter by parameter."""
    problem = problem_of(client.post("/v1/toys/rub?units=us&detail=", json=rub))

    assert [error["parameter"] for error in problem["errors"]] == ["units", "detail"]
    assert problem["status"] == 422
