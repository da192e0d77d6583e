"""HEAD, OPTIONS and methods that a path does not take, over every route there is."""

import pytest
from fastapi.routing import APIRoute
from starlette.testclient import TestClient

from service.app import Pellicle
from tests.api.conftest import RUB
from tests.api.problem_checks import problem_of

FILLED = {"{id}": "us-nitrite-drycured-max", "{slug}": "not-found", "{name}": "docs.js"}


def paths(app: Pellicle) -> dict[str, set[str]]:
    """Every path of the application with the methods that are routed."""
    found: dict[str, set[str]] = {}
    for route in app.router.routes:
        assert isinstance(route, APIRoute)
        path = route.path
        for gap, filling in FILLED.items():
            path = path.replace(gap, filling)
        found.setdefault(path, set()).update(route.methods or ())
    return found


def allowed(methods: set[str]) -> set[str]:
    """What Allow must list (RFC 9110: HEAD wherever there is GET)."""
    return methods | {"OPTIONS"} | ({"HEAD"} if "GET" in methods else set())


def test_options_lists_the_methods_of_every_path(app: Pellicle, client: TestClient):
    """204, no body, and Allow with all methods of the path."""
    for path, methods in paths(app).items():
        response = client.options(path)

        assert response.status_code == 204, path
        assert response.content == b""
        assert set(response.headers["allow"].split(", ")) == allowed(methods)


@pytest.mark.parametrize(
    "method", ["GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "TRACE", "QUERY", "CONNECT", "FOO"]
)
def test_another_method_is_declined_on_every_path(app: Pellicle, client: TestClient, method: str):
    """405 as a problem, with Allow."""
    for path, methods in paths(app).items():
        if method in allowed(methods):
            continue
        response = client.request(method, path)

        assert response.status_code == 405, path
        assert set(response.headers["allow"].split(", ")) == allowed(methods)
        assert method == "HEAD" or problem_of(response)["type"] == "/problems/method-not-allowed"


def test_head_of_every_get_has_its_headers_and_no_body(app: Pellicle, client: TestClient):
    """HEAD is GET without the body."""
    for path in (path for path, methods in paths(app).items() if "GET" in methods):
        got, headed = (client.request(method, path, headers={"x-request-id": "same"}) for method in ("GET", "HEAD"))

        assert headed.status_code == got.status_code == 200, path
        assert headed.headers == got.headers
        assert headed.content == b""


def test_head_and_options_of_nothing_are_not_found(client: TestClient):
    """A path that does not exist has no methods."""
    assert client.head("/v1/nothing").status_code == 404
    assert problem_of(client.options("/v1/nothing"))["type"] == "/problems/not-found"


def test_every_answer_names_its_request(app: Pellicle, client: TestClient):
    """Answers of every kind have an X-Request-ID and forbid guessing of the media type."""
    for path in paths(app):
        for method in ("GET", "POST", "OPTIONS", "DELETE"):
            headers = client.request(method, path, json=RUB).headers

            assert len(headers["x-request-id"]) == 32
            assert headers["x-content-type-options"] == "nosniff"
