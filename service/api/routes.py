"""What an operation is: one method of one path, declared once, for the router and for the document alike."""

from collections.abc import Awaitable, Callable, Iterable
from dataclasses import dataclass, field
from typing import Any, Literal

from fastapi import FastAPI
from fastapi.routing import APIRoute
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.types import ASGIApp, Receive, Scope, Send

from service.api.negotiation import JSON
from service.api.problems import Problem, answer_problem, declined, untaken
from service.api.shell import request_id
from service.calculations.refusals import Refusal
from service.quantities.models import Answer
from service.quantities.models import Request as RequestModel

Handler = Callable[[Request], Awaitable[Response]]
Method = Literal["GET", "POST"]


@dataclass(frozen=True, slots=True)
class Tag:
    """A group of operations in the document."""

    name: str
    description: str


@dataclass(frozen=True, slots=True)
class Example:
    """An example of an operation: what is sent, and what is answered."""

    name: str
    summary: str
    request: Any = None
    parameters: dict[str, str] = field(default_factory=dict)
    status: int = 200
    answer: Any = None


def _no_examples() -> tuple[Example, ...]:
    return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Operation:
    """One method of one path."""

    id: str
    method: Method
    path: str
    tag: Tag
    summary: str
    description: str
    handle: Handler
    answer: type[Answer]
    answer_means: str
    request: type[RequestModel] | None = None
    media_type: str = JSON
    """Of request and answer. Where it is lines of JSON, both models are those of a line."""
    other_lines: tuple[type[Answer], ...] = ()
    """What else may stand on a line of the answer."""
    told_as: tuple[str, ...] = ()
    """Media types of the answer where it is told as a picture or a calendar; the model is what those are made of."""
    path_parameters: type[RequestModel] | None = None
    query: type[RequestModel] | None = None
    problems: tuple[str, ...] = ()
    examples: Callable[[], tuple[Example, ...]] = _no_examples
    cacheable: bool = False


class OperationRoute(APIRoute):
    """A route straight to its handler: no dependencies, no second validation, no exit stacks."""

    def __init__(self, path: str, method: Method, handle: Handler, name: str) -> None:
        super().__init__(path, handle, methods=[method], name=name, response_model=None, include_in_schema=False)
        self.app = _straight(handle)


def _straight(handle: Handler) -> ASGIApp:
    async def app(scope: Scope, receive: Receive, send: Send) -> None:
        response = await handle(Request(scope, receive))
        await response(scope, receive, send)

    return app


class Methods:
    """Which methods each path takes: for OPTIONS and for 405."""

    def __init__(self, routes: Iterable[APIRoute]) -> None:
        self._routes = tuple(routes)

    def allowed(self, path: str) -> str:
        """The value of the Allow header of a path; empty where there is no such path."""
        methods = {method for route in self._routes if route.path_regex.match(path) for method in route.methods or ()}
        implied = {"OPTIONS", "HEAD"} if "GET" in methods else {"OPTIONS"}
        return ", ".join(sorted(methods | implied)) if methods else ""


def add_routes(app: FastAPI, routes: Iterable[OperationRoute]) -> None:
    """Give the application its routes and the answers to what none of them takes."""
    app.router.routes.extend(routes)
    methods = Methods(route for route in app.router.routes if isinstance(route, OperationRoute))

    async def unrouted(request: Request, error: Exception) -> Response:
        assert isinstance(error, HTTPException)
        allow = methods.allowed(request.scope["path"])
        if request.method == "OPTIONS" and allow:
            return Response(status_code=204, headers={"allow": allow})
        return _answer(request, untaken(allow))

    app.add_exception_handler(HTTPException, unrouted)
    app.add_exception_handler(Problem, _problem)
    app.add_exception_handler(Refusal, _refusal)


async def _problem(request: Request, error: Exception) -> Response:
    assert isinstance(error, Problem)
    return _answer(request, error)


async def _refusal(request: Request, error: Exception) -> Response:
    assert isinstance(error, Refusal)
    return _answer(request, declined(error))


def _answer(request: Request, problem: Problem) -> Response:
    return answer_problem(problem, request_id(request.scope))
