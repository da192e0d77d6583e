"""What every problem of the service must be, checked on each one that a test meets."""

from typing import Any
from urllib.parse import unquote

from httpx2 import Response

MEMBERS = {"type", "title", "status", "detail", "instance", "code"}
LEAKS = ("pydantic", "Traceback", "function-before")


def problem_of(response: Response, sent: Any = None) -> dict[str, Any]:
    """The problem in an answer, after checking what holds for all of them."""
    problem: dict[str, Any] = response.json()
    assert response.headers["content-type"] == "application/problem+json"
    assert problem["status"] == response.status_code
    assert problem.keys() >= MEMBERS
    assert problem["instance"].endswith(response.headers["x-request-id"])
    assert not any(leak in response.text for leak in LEAKS)
    for error in problem.get("errors", ()):
        assert "pointer" not in error or resolves(error, sent), error
    return problem


def resolves(error: dict[str, Any], sent: Any) -> bool:
    """Whether the pointer of an error leads into what was sent (RFC 6901); what is missing has only a place."""
    parts = [unquote(part).replace("~1", "/").replace("~0", "~") for part in error["pointer"].split("/")[1:]]
    if error["code"] == "missing_field":
        parts.pop()
    for part in parts:
        node = sent[int(part)] if isinstance(sent, list) else sent.get(part, resolves)
        if node is resolves:
            return False
        sent = node
    return bool(error["pointer"].startswith("#"))


def codes_of(problem: dict[str, Any]) -> list[str]:
    """The code of each error, or of the problem itself."""
    return [error["code"] for error in problem.get("errors", [problem])]
