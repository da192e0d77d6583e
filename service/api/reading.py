"""Reading what a caller sent: bytes of the body within a limit and a deadline, and the query string."""

import asyncio
from dataclasses import dataclass
from urllib.parse import parse_qsl

from starlette.requests import ClientDisconnect, Request

from service.api.problems import Problem

CLOSE = (("connection", "close"),)
"""Sent where the rest of the body is not going to be read."""

_LATE = "body deadline"


@dataclass(frozen=True, slots=True)
class BodyLimits:
    """How much of a body is read, and for how long it is waited for."""

    longest_bytes: int
    deadline_s: float


@dataclass(frozen=True, slots=True)
class LineLimits:
    """How long a line of many may be, and how long a byte is waited for."""

    longest_bytes: int
    idle_s: float


async def read_body(request: Request, limits: BodyLimits) -> bytes:
    """The whole body, or the problem that it is too long or too late. Reads no further than the limit."""
    declared = request.headers.get("content-length", "")
    if declared.isdecimal() and (len(declared) > 18 or int(declared) > limits.longest_bytes):
        raise _too_large(limits)
    task = asyncio.current_task()
    assert task is not None  # an ASGI server always runs its application in a task
    # asyncio.timeout does the same for four times the price, and this is on the way of every request.
    timer = asyncio.get_running_loop().call_later(limits.deadline_s, task.cancel, _LATE)
    try:
        return await _collect(request, limits)
    except asyncio.CancelledError as cancelled:
        if cancelled.args != (_LATE,):
            raise
        task.uncancel()
        raise Problem(
            "request-timeout", f"The body did not arrive within {limits.deadline_s:g} s.", headers=CLOSE
        ) from None
    finally:
        timer.cancel()


async def _collect(request: Request, limits: BodyLimits) -> bytes:
    blocks: list[bytes] = []
    size = 0
    while True:
        message = await request.receive()
        if message["type"] == "http.disconnect":
            raise ClientDisconnect
        block = message.get("body", b"")
        size += len(block)
        if size > limits.longest_bytes:
            raise _too_large(limits)
        if not message.get("more_body", False):
            return b"".join((*blocks, block)) if blocks else block
        blocks.append(block)


def _too_large(limits: BodyLimits) -> Problem:
    return Problem("body-too-large", f"At most {limits.longest_bytes} bytes are read here.", headers=CLOSE)


def read_query(request: Request) -> dict[str, str]:
    """The parameters of the query string; 400 when one stands twice or is not UTF-8."""
    text = request.scope["query_string"]
    if not text:
        return {}
    try:
        pairs = parse_qsl(text.decode("ascii"), keep_blank_values=True, errors="strict")
    except UnicodeError:
        raise Problem("unreadable-query", "The query string is not UTF-8.", code="query_not_utf8") from None
    if len(dict(pairs)) != len(pairs):
        raise Problem("unreadable-query", "A parameter stands twice in the query string.", code="query_repeated")
    return dict(pairs)
