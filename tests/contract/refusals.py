"""What a problem document must say: judgements that the fuzzer passes on every error it meets."""

import json
from collections.abc import Iterator, Mapping
from typing import Any

REASONS = {"/problems/limit-exceeded": "findings", "/problems/impossible": "reason"}
"""Why a request that keeps the schema may be refused, and the member that says it."""

NOWHERE = object()
MEMBERS = ("type", "title", "status", "detail", "instance", "code")


def is_refusal(status: int) -> bool:
    """Whether a calculation declined a request that it could read."""
    return status == 422


def faults_of_problem(status: int, headers: Mapping[str, Any], content: bytes, sent: Any) -> list[str]:
    """What is wrong with an error as RFC 9457 and this project's contract have it."""
    media_type = str(next((headers[name] for name in headers if name.lower() == "content-type"), ["none"]))
    if "application/problem+json" not in media_type:
        return [f"{status} as {media_type}"]
    problem = json.loads(content)
    missing = [f"no {member}" for member in MEMBERS if not problem.get(member)]
    other = [] if problem.get("status") == status else [f"status {problem.get('status')} in the body of a {status}"]
    nowhere = [f"{pointer} points nowhere" for pointer in _pointers(problem) if not resolves(pointer, sent)]
    return [*missing, *other, *nowhere]


def faults_of_refusal(problem: dict[str, Any]) -> list[str]:
    """What is wrong with refusing a request that keeps the schema."""
    member = REASONS.get(problem.get("type", ""))
    if member is None:
        return [f"a valid request refused as {problem.get('type')}: {problem.get('errors')}"]
    if member == "findings" and not any(finding.get("refuses") for finding in problem.get("findings", ())):
        return ["limit-exceeded without a finding that refuses"]
    return [] if problem.get(member) else [f"no {member}"]


def _pointers(problem: dict[str, Any]) -> Iterator[str]:
    for error in problem.get("errors", ()):
        if "pointer" in error:
            yield error["pointer"]


def resolves(pointer: str, sent: Any) -> bool:
    """Whether a JSON Pointer leads to something in the body; its last part may be what is missing there."""
    *way, last = pointer.removeprefix("#").split("/")
    for part in way[1:]:
        sent = _step(sent, part)
    return not way or isinstance(sent, dict) or _step(sent, last) is not NOWHERE


def _step(sent: Any, part: str) -> Any:
    name = part.replace("~1", "/").replace("~0", "~")
    if isinstance(sent, list):
        return sent[int(name)] if name.isdecimal() and int(name) < len(sent) else NOWHERE
    return sent.get(name, NOWHERE) if isinstance(sent, dict) else NOWHERE
