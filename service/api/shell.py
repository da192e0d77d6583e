"""The outermost layer of the application: what holds for every request, whatever it is about.

A request gets a name, a line in the log, security headers and, if it fails, a problem. HEAD is answered as GET
without its body. Pure ASGI: this is on the way of every request.
"""

import os
import re
from time import perf_counter
from typing import Any, Protocol

from starlette.requests import ClientDisconnect
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from service.api.problems import Problem, answer_problem

LONGEST_URL_BYTES = 8192
LONGEST_HEADERS_BYTES = 32768
MOST_HEADERS = 100
CLIENT_GONE = 499
"""Logged, never sent: the caller hung up before the answer."""

_OWN_ID = re.compile(rb"[A-Za-z0-9._-]{1,64}")
_NOSNIFF = (b"x-content-type-options", b"nosniff")
_NO_STORE = (b"cache-control", b"no-store")


class StreamGivenUp(Exception):
    """An answer was broken off on its way; as far as it takes anything, the caller was told why in it."""

    def __init__(self, problem: Problem) -> None:
        self.status = problem.kind.status


class FaultLog(Protocol):
    """Where faults of the service are recorded. The application hands one in."""

    def failed(self, *, request_id: str, error: Exception) -> None:
        """Record a fault, with its traceback."""


class RequestLog(FaultLog, Protocol):
    """Where requests are recorded too."""

    def answered(
        self, *, request_id: str, method: str, path: str, status: int, sent_bytes: int, duration_ms: float
    ) -> None:
        """Record one request."""


class Shell:
    """An ASGI application around another."""

    def __init__(self, app: ASGIApp, log: RequestLog) -> None:
        self.app = app
        self.log = log

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        exchange = Exchange(scope, send)
        try:
            refused = _oversized(scope, exchange.header_bytes)
            app = answer_problem(refused, exchange.request_id) if refused else self.app
            await app(exchange.scope, receive, exchange.send)
        except ClientDisconnect:
            exchange.status = CLIENT_GONE
        except StreamGivenUp as given_up:
            exchange.status = given_up.status
        except Exception as error:  # noqa: BLE001 - the last place where a fault can become an answer
            self.log.failed(request_id=exchange.request_id, error=error)
            await self._apologise(exchange, receive, error)
        finally:
            exchange.record(self.log)

    async def _apologise(self, exchange: "Exchange", receive: Receive, error: Exception) -> None:
        if exchange.status:  # half an answer is out: only a broken connection tells the caller
            raise error
        problem = Problem("internal-error", "The fault was recorded; quote the instance when reporting it.")
        await answer_problem(problem, exchange.request_id)(exchange.scope, receive, exchange.send)


class Exchange:
    """One request and its answer on the way out."""

    __slots__ = ("_bodyless", "_send", "header_bytes", "request_id", "scope", "sent_bytes", "started", "status")

    def __init__(self, scope: Scope, send: Send) -> None:
        self.started = perf_counter()
        self._send = send
        self._bodyless = scope["method"] == "HEAD"
        self.scope = {**scope, "method": "GET"} if self._bodyless else scope
        self.status = 0
        self.sent_bytes = 0
        self.header_bytes = 0
        self.request_id = ""
        for name, value in scope["headers"]:
            self.header_bytes += len(name) + len(value)
            if name == b"x-request-id" and _OWN_ID.fullmatch(value):
                self.request_id = value.decode("ascii")
        self.request_id = self.request_id or os.urandom(16).hex()
        self.scope["pellicle.request_id"] = self.request_id

    async def send(self, message: Message) -> None:
        if message["type"] == "http.response.start":
            self._start(message)
        elif self._bodyless:
            message = {**message, "body": b""}
        else:
            self.sent_bytes += len(message.get("body", b""))
        await self._send(message)

    def _start(self, message: Message) -> None:
        self.status = message["status"]
        headers = [*message.get("headers", ()), (b"x-request-id", self.request_id.encode("ascii")), _NOSNIFF]
        if all(name != b"cache-control" for name, _ in headers):
            headers.append(_NO_STORE)
        message["headers"] = headers

    def record(self, log: RequestLog) -> None:
        """Write the line of this request, with the template of its path where one matched."""
        log.answered(
            request_id=self.request_id,
            method="HEAD" if self._bodyless else self.scope["method"],
            path=_path(self.scope),
            status=self.status,
            sent_bytes=self.sent_bytes,
            duration_ms=(perf_counter() - self.started) * 1000,
        )


def request_id(scope: Scope) -> str:
    """The name of a request; empty outside a shell."""
    return str(scope.get("pellicle.request_id", ""))


def _path(scope: Scope) -> str:
    route: Any = scope.get("route")
    return route.path_format if route is not None else _raw_path(scope).decode("latin-1")


def _raw_path(scope: Scope) -> bytes:
    raw: bytes = scope.get("raw_path") or scope["path"].encode("utf-8", "replace")
    return raw


def _oversized(scope: Scope, header_bytes: int) -> Problem | None:
    if len(_raw_path(scope)) + len(scope["query_string"]) > LONGEST_URL_BYTES:
        return Problem("uri-too-long", f"At most {LONGEST_URL_BYTES} bytes of path and query string.")
    if header_bytes > LONGEST_HEADERS_BYTES or len(scope["headers"]) > MOST_HEADERS:
        limits = f"At most {MOST_HEADERS} headers, {LONGEST_HEADERS_BYTES} bytes together."
        return Problem("headers-too-large", limits)
    return None
