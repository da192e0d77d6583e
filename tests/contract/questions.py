"""What the fuzzer may ask of an operation, read from its place in the published document."""

from typing import Any


def acceptable(operation: dict[str, Any]) -> list[str]:
    """Accept headers that each take what the operation has to offer."""
    successes = [response for status, response in operation["responses"].items() if status.startswith("2")]
    offered = sorted({media_type for response in successes for media_type in response.get("content", {})})
    general = [f"{media_type.partition('/')[0]}/*;q=0.7" for media_type in offered]
    return [*offered, *general, *(f"{media_type};q=0.9, text/x-nothing" for media_type in offered), "*/*"]


def published_bodies(operation: dict[str, Any]) -> list[Any]:
    """The bodies of the published examples that are answered with success."""
    sent = operation.get("requestBody", {}).get("content", {}).get("application/json", {}).get("examples", {})
    told = operation["responses"].get("200", {}).get("content", {}).get("application/json", {}).get("examples", {})
    return [example["value"] for name, example in sent.items() if name in told]
