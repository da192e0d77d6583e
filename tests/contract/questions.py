"""What the fuzzer may ask of an operation, read from its place in the published document."""

from typing import Any


def acceptable(operation: dict[str, Any]) -> list[str]:
    """Accept headers that each take what the operation has to offer."""
    successes = [response for status, response in operation["responses"].items() if status.startswith("2")]
    offered = sorted({media_type for response in successes for media_type in response.get("content", {})})
    general = [f"{media_type.partition('/')[0]}/*;q=0.7" for media_type in offered]
    return [*offered, *general, *(f"{media_type};q=0.9, text/x-nothing" for media_type in offered), "*/*"]


def published_bodies(operation: dict[str, Any]) -> list[Any]:
    """The bodies of the published examples that are answered with success.

    Pictures and calendars have no published answers: of their examples, only those that are answered are published.
    """
    sent = operation.get("requestBody", {}).get("content", {}).get("application/json", {}).get("examples", {})
    told = operation["responses"].get("200", {}).get("content", {})
    answered = told["application/json"].get("examples", {}) if "application/json" in told else sent
    return [example["value"] for name, example in sent.items() if name in answered]


def asked_of(operation_id: str) -> str:
    """The calculation behind an operation: its chart and its calendar take the same body."""
    return operation_id.removesuffix("_chart").removesuffix("_calendar")
